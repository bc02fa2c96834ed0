"""Each standard box says whether what is in the box now would fit, and by how much.

Two 14-2 cables and a switch take 14.00 in3, 16.00 with clamps inside, 314.16(B)(1) to (B)(5).
Volumes of the standard boxes are those of Table 314.16(A).
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from app_pilot import SWITCH, begun
from boxaloud.assistant.tui.presenters.box_search import filled_by, search
from boxaloud.assistant.tui.presenters.trade_writing import sizes_written
from boxaloud.assistant.tui.presenters.verdict_view import glance
from boxaloud.rules import table_boxes


def verdicts(*said: str, query: str = "", gangs: int = 1) -> dict[str, str]:
    found = search(query, gangs, filled_by(begun(*said).talk.state))
    return {pick.shown.left: pick.shown.right for pick in found}


@pytest.mark.parametrize(
    ("box", "says"),
    [
        ("4 × 1-1/2 square", "✓ fits 7.00"),  # 21.0
        ("3 × 2 × 2-3/4 device box", "✓ fits 0.00"),  # 14.0: a margin of zero fits
        ("4 × 1-1/4 octagon", "✗ over 1.50"),  # 12.5
    ],
)
def test_a_box_says_by_how_much_it_fits_or_is_over(box: str, says: str) -> None:
    assert says in verdicts(SWITCH, "no clamps")[box]


@pytest.mark.parametrize(
    ("box", "says"),
    [
        ("4 × 1-1/2 square", "✓ fits 5.00+"),
        ("4 × 1-1/2 octagon", "? open"),  # 15.5: 14.00 fits, 16.00 does not
        ("4 × 1-1/4 octagon", "✗ over 1.50+"),
    ],
)
def test_what_an_open_answer_decides_is_not_said_to_fit(box: str, says: str) -> None:
    assert says in verdicts(SWITCH)[box]


def test_nothing_is_said_of_fit_while_words_are_unread_or_nothing_is_in_the_box() -> None:
    for said in ((), ("a flurbed 7",), (SWITCH, "some 14-2 cables")):
        shown = " ".join(verdicts(*said).values())
        assert "fits" not in shown
        assert "over" not in shown


def test_gangs_multiply_the_volume() -> None:
    """Two 3 x 2 x 3-1/2 device boxes ganged hold 2 x 18.0, Table 314.16(A)."""
    shown = verdicts(SWITCH, "no clamps", gangs=2)
    assert "✓ fits 22.00" in shown["3 × 2 × 3-1/2 device box × 2 gangs"]


@pytest.mark.parametrize("query", ["4 × 1-1/4", "4x1-1/4", "4 by 1 and 1/4", "4 x 1 1/4"])
def test_a_size_is_found_however_it_is_written(query: str) -> None:
    found = [pick.row for pick in search(query)]
    assert {row.volume for row in found if row} == {Decimal("12.5"), Decimal("18.0")}


def test_sizes_are_written_as_the_trade_writes_them() -> None:
    assert sizes_written("4 and 11/16 by 1 and 1/4 square") == "4-11/16 × 1-1/4 square"
    assert sizes_written("two by two") == "two by two"
    for row in table_boxes():
        assert " by " not in sizes_written(row.name)
        assert " and " not in sizes_written(row.name)


@pytest.mark.parametrize(
    "said",
    [
        (SWITCH, "no clamps"),
        (SWITCH,),
        (SWITCH, "18 cubic inch box", "an extension ring marked 8 cubic inches"),
        ("three 12-2 cables and a gfci receptacle", "clamps inside", "four square box"),
    ],
)
def test_what_a_box_is_said_to_do_is_what_it_does_once_taken(said: tuple[str, ...]) -> None:
    filled = filled_by(begun(*said).talk.state)
    for pick in search("", 1, filled):
        conversation = begun(*said)
        conversation.enter((pick.act,), pick.words)
        found = conversation.talk.assessment
        sign = {"fits": "✓", "over": "✗", "incomplete": "?"}[found.verdict]
        shown = glance(found)
        assert pick.fit[0] == sign
        assert found.verdict == "incomplete" or pick.fit.endswith(f" {shown.figure}")
