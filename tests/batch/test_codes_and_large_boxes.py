"""Canada, 2026, places, boxes by their inside, clamp assemblies and weights, as rows of a batch."""

from __future__ import annotations

import json
from typing import Any

import pytest
from boxaloud.assistant.contract.box_document import BoxDocument
from boxaloud.assistant.reports.batch import work
from boxaloud.assistant.reports.batch.batch_row import Row
from boxaloud.rules import CANADIAN
from boxaloud.rules.contents import Box, ClampAssembly, Marked, Measured, Uncounted, Yoke
from boxaloud.rules.contents import Conductors as Wires
from boxaloud.rules.units import marked_in3
from jsonschema import Draft202012Validator


def come_to(**row: Any) -> dict[str, Any]:
    (result,) = work([Row(1, row)])
    return json.loads(json.dumps(result.to_json()))  # type: ignore[no-any-return]


CANADA = {"edition": "Canada", "volume": "250 mL", "cables": "2 x 14-2; 14-3", "devices": "switch",
          "not_counted": "2 x wire connector", "clamps": "inside"}  # fmt: skip


def test_a_canadian_row(validators: dict[str, Draft202012Validator]) -> None:
    """DIY Chatroom 145600 and 48926: seven conductors, a pair, a strap: 10 x 24.6 mL."""
    found = come_to(**CANADA)
    assert (found["edition"], found["verdict"]) == (CANADIAN, "fits")
    assert (found["total_ml"], found["capacity_ml"], found["margin_ml"]) == (
        "246.00", "250.0", "4.00",
    )  # fmt: skip
    validators["result"].validate(found)


def test_a_canadian_row_that_says_nothing_of_connectors_is_open() -> None:
    """Rule 12-3034(2)(b): each pair of wire connectors counts, oncodes.ca."""
    row = {key: value for key, value in CANADA.items() if key != "not_counted"}
    found = come_to(**row)
    assert (found["verdict"], found["open"]) == ("incomplete", ["connectors"])


def test_said_in_plain_words_it_comes_to_the_same() -> None:
    says = "two 14-2s, one 14-3; one switch; two wire nuts; 250 mL box"
    found = come_to(edition="Canada", says=says)
    assert (found["total_ml"], found["verdict"]) == ("246.00", "fits")


def test_a_row_under_2026_says_that_it_is_provisional() -> None:
    """No change of 314.16 was found in public material, which is not proof."""
    found = come_to(edition="2026", volume="18", cables="2 x 14-2", clamps="none")
    assert found["verdict"] == "fits"
    assert any("provisional" in caution for caution in found["cautions"])


@pytest.mark.parametrize(
    ("said", "edition"), [("2021 IRC", "2020"), ("Chicago", "2017"), ("NYC", "2020")]
)
def test_an_edition_by_the_name_of_a_code_or_place(said: str, edition: str) -> None:
    """amlegal 14E-1, Mike Holt forum 2588131; the 2021 residential code is from memory."""
    assert come_to(edition=said, volume="18", cables="14-2", clamps="none")["edition"] == edition


def test_a_place_that_is_not_sure_is_a_bad_row() -> None:
    assert "2020 or 2023" in come_to(edition="California", volume="18", cables="14-2")["problem"]


@pytest.mark.parametrize(
    ("box", "capacity"),
    [("12 x 12 x 6 inside", "864.0"), ("18.5 x 12 x 6 in inside", "1332.0")],
)
def test_a_box_by_its_inside(box: str, capacity: str) -> None:
    """314.16(A)(2) asks a mark of boxes of 100 cubic inches or less: manuzoid.com, engproducts."""
    found = come_to(box=box, cables="4 x 12-2", clamps="none")
    assert (found["capacity_in3"], found["verdict"]) == (capacity, "fits")


def test_a_metric_box_by_its_inside_is_rounded_down() -> None:
    """25.4 mm to the inch: 300 x 200 x 100 mm are 6,000,000 / 16,387.064 = 366.14 cubic inches."""
    found = come_to(box="300 x 200 x 100 mm inside", cables="4 x 12-2", clamps="none")
    assert found["capacity_in3"] == "366.14"


def test_a_clamp_assembly_in_a_row() -> None:
    """314.16(B)(2) second paragraph, Mike Holt forum 195994."""
    found = come_to(volume="18", parts="2 x clamp assembly 1.5", conductors="4 x 14",
                    grounds="none", clamps="none")  # fmt: skip
    assert (found["capacity_in3"], found["total_in3"]) == ("15.0", "8.00")


def test_what_hangs_from_a_box() -> None:
    """314.27(C), EC&M on fans 2017: over 35 pounds the mark must state the weight."""
    found = come_to(volume="15.5", cables="14-2", clamps="none", hangs="fan 60")
    assert any("35 pounds" in caution for caution in found["cautions"])


def test_every_new_thing_goes_through_json_and_back(
    validators: dict[str, Draft202012Validator],
) -> None:
    from decimal import Decimal

    metric = Marked(marked_in3(Decimal(295)), cm3=Decimal(295))
    parts = (metric, Measured(Decimal(8), Decimal(8), Decimal(4)), ClampAssembly(Decimal("1.5")))
    things = (
        Wires(14, 2),
        Yoke("dimmer", 14, depth=Decimal(4)),
        Uncounted("wire connector", 2, 14),
    )
    box = Box(parts, things, edition=CANADIAN, connectors_known=False, hangs=Decimal(60))
    data = json.loads(json.dumps(BoxDocument.of(box).to_json()))
    validators["box"].validate(data)
    assert BoxDocument.model_validate(data).value == box


PARTED = {"volume": "42", "parts": "barrier nonmetallic", "clamps": "none",
          "cables": "2 x 12-2 side 1; 14-2 side 2",
          "devices": "switch on 12 side 1; receptacle on 14 side 2"}  # fmt: skip


def test_a_row_with_a_barrier_is_held_side_by_side(
    validators: dict[str, Draft202012Validator],
) -> None:
    """314.16(A) from 2017: 42.0 less 1.0 is 14 and 27; 314.16(B): seven of 2.25 on side 1."""
    found = come_to(**PARTED, sides="14; 27")
    assert (found["verdict"], found["total_in3"], found["capacity_in3"]) == (
        "over", "15.75", "14.0",
    )  # fmt: skip
    validators["result"].validate(found)
    equal = come_to(**PARTED, sides="equal")
    assert (equal["verdict"], equal["capacity_in3"]) == ("fits", "20.5")


def test_a_row_that_says_nothing_of_the_sides_is_open() -> None:
    """314.16(A): a barrier need not stand in the middle, and what is on which side decides."""
    found = come_to(**PARTED)
    assert (found["verdict"], found["open"][0]) == ("incomplete", "share")
    unplaced = come_to(
        volume="18", parts="barrier metal", clamps="none", cables="2 x 14-2", sides="equal"
    )
    assert (unplaced["verdict"], unplaced["open"][0]) == ("incomplete", "space")


def test_a_side_that_no_barrier_makes_is_refused() -> None:
    found = come_to(volume="18", cables="14-2 side 2", clamps="none")
    assert "sides" in found["problem"]


@pytest.mark.parametrize(
    ("jumpers", "verdict", "least", "most"),
    [
        ("1 x 12 inside", "fits", "9.00", "9.00"),
        ("1 x 12 enters", "over", "11.25", "11.25"),
        ("1 x 12", "incomplete", "9.00", "11.25"),
    ],
)
def test_a_jumper_is_open_until_it_is_said_whether_it_enters(
    jumpers: str, verdict: str, least: str, most: str
) -> None:
    """314.16(B)(5), electricallicenserenewal.com 1307: 4 x 2.25, and 2.25 for one that enters."""
    row = {"volume": "10", "conductors": "4 x 12", "grounds": "none", "clamps": "none"}
    (result,) = work([Row(1, row | {"jumpers": jumpers})])
    assert (result.verdict, result.least_total_in3) == (verdict, least)
    assert (result.total_in3, result.greatest_total_in3) == (least, most)
    assert result.open == (("jumper",) if verdict == "incomplete" else ())
