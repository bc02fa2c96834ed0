"""Pull boxes and conduit bodies as rows, and boxes by what people call them.

314.28(A)(2): 6 x 3 + 3 + 2 = 23 (EC&M, March 2022); 0.4 x 0.533 / 0.0133 is 16.03 (Chapter 9 Tables
1, 4, 5: sfasoft; buildmyowncabin); 314.16(A)(2): only boxes of 100 cubic inches or less must be
marked (manuzoid.com); Table 314.16(A): 10.3, 12.5 and 21.0 (synthmind.com, the first from memory).
"""

from __future__ import annotations

import json
from typing import Any

import pytest
from boxaloud.assistant.reports.batch import work
from boxaloud.assistant.reports.batch.batch_row import Row
from jsonschema import Draft202012Validator


def come_to(**row: Any) -> dict[str, Any]:
    (result,) = work([Row(1, row)])
    return json.loads(json.dumps(result.to_json()))  # type: ignore[no-any-return]


def test_a_pull_box_that_is_said(validators: dict[str, Draft202012Validator]) -> None:
    found = come_to(says="angle pull with two 3 inch conduits and one 2 inch")
    assert found["problem"] is None
    assert (found["least_width_in"], found["least_height_in"]) == ("23", "23")
    assert (found["least_depth_in"], found["total_in3"], found["open"]) == (None, None, [])
    assert "314.28(A)(2)" in found["told"]
    assert found["counted_under"] == "314.28(A), 2023"
    validators["result"].validate(found)


def test_a_pull_box_of_which_something_is_open_has_no_size() -> None:
    found = come_to(says="pull box with two 3 inch conduits")
    assert (found["verdict"], found["open"]) == ("incomplete", ["pull_kind"])
    assert (found["least_width_in"], found["least_height_in"]) == (None, None)


def test_a_pull_box_that_is_too_small() -> None:
    found = come_to(says="angle pull, a 3 inch from left to top; the box is 12 by 12 by 6")
    assert found["verdict"] == "over"


def test_a_conduit_body_that_is_said(validators: dict[str, Draft202012Validator]) -> None:
    said = "LB with six number 12 THHN passing through, no splices, three quarter EMT"
    found = come_to(says=[said])
    assert (found["verdict"], found["open"]) == ("fits", [])
    assert (found["total_in3"], found["greatest_total_in3"]) == (None, None)
    assert "16 at most" in found["told"]
    assert found["counted_under"] == "314.16(C), 2023"
    validators["result"].validate(found)


def test_another_box_has_nothing_of_them() -> None:
    found = come_to(volume="18", cables="2 x 14-2", clamps="none")
    assert (found["told"], found["least_width_in"]) == ("", None)
    assert found["counted_under"] == "314.16, 2023"


@pytest.mark.parametrize(
    ("box", "capacity"),
    [
        ("4 x 2-1/8 x 1-1/2", "10.3"),
        ("3 x 2 x 2-1/2", "12.5"),
        ("4 x 4 x 1-1/2", "21.0"),
        ("12 x 12 x 6", "864.0"),
        ("12 × 12 × 6", "864.0"),
        ("8 x 8 x 4", "256.0"),
    ],
)
def test_a_box_by_its_size_alone(box: str, capacity: str) -> None:
    found = come_to(box=box, cables="14-2", clamps="none")
    assert (found["problem"], found["capacity_in3"], found["verdict"]) == (None, capacity, "fits")


@pytest.mark.parametrize("box", ["5 x 4 x 3", "4 x 1-1/2"])
def test_a_size_that_names_no_box_is_not_guessed(box: str) -> None:
    """60 cubic inches, not in the Table: it must be marked; 4 x 1-1/2 is square or octagon."""
    assert come_to(box=box, cables="14-2", clamps="none")["problem"]


def test_so_much_per_gang() -> None:
    found = come_to(volume="24 per gang", gangs="2", cables="2 x 14-2", clamps="none")
    assert found["capacity_in3"] == "48.0"


@pytest.mark.parametrize("part", ["extension square 4 x 1-1/2", "square 4 x 1-1/2 extension ring"])
def test_an_extension_ring_of_a_box_of_the_table(part: str) -> None:
    """EC&M: it takes the volume of its size, 21.0 each."""
    found = come_to(box="square 4 x 1-1/2", parts=part, cables="2 x 14-2", clamps="none")
    assert found["capacity_in3"] == "42.0"
