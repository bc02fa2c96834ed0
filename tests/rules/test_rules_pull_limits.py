"""314.28(A)(3), (B) and (E) beside the dimensions; a box at hand against them."""

from __future__ import annotations

from fractions import Fraction

import pytest
from boxaloud.rules import Pull, PullBox, PullSheet, Raceway, explain, work_out_pull_box
from boxaloud.rules.pull_limits import Inside, beside, compared, pull_remarks

THREE = Fraction(3)


def sheet_of(*sides: int | None) -> PullSheet:
    width, height, depth = (None if side is None else Fraction(side) for side in sides)
    return PullSheet((), width, height, depth)


def inside(*sides: str) -> Inside:
    width, height, depth = (Fraction(side) for side in sides)
    return width, height, depth


@pytest.mark.parametrize(("longest", "racked"), [("72", False), ("72-1/16", True), ("73", True)])
def test_racks_over_six_feet(longest: str, racked: bool) -> None:
    """314.28(B), EC&M summary: any dimension over 6 feet; exactly 6 feet is not over it."""
    whole, _, part = longest.partition("-")
    side = Fraction(whole) + (Fraction(part) if part else 0)
    found = pull_remarks(sheet_of(24, None, None), (side, Fraction(24), Fraction(8)))
    assert [one.rule for one in found] == (["pull-racked"] if racked else [])


@pytest.mark.parametrize(
    ("sides", "holds"), [(("4", "5", "5"), False), (("4", "5", "81/16"), True)]
)
def test_blocks_over_a_hundred_cubic_inches(sides: tuple[str, ...], holds: bool) -> None:
    """314.28(E), EC&M 2011 changes: larger than 100 cubic inches; exactly 100 is not."""
    (found,) = pull_remarks(sheet_of(4, None, None), inside(*sides), blocks=True)
    assert (found.section, found.holds) == ("314.28(E)", holds)
    assert explain(found.rule).says == found.says


def test_blocks_in_a_box_of_unknown_size_are_left_open() -> None:
    (found,) = pull_remarks(sheet_of(4, None, None), (None, None, None), blocks=True)
    assert found.holds is None


def test_a_listed_box_is_a_matter_of_its_marking() -> None:
    """314.28(A)(3), Mike Holt forum 127045: the maker's mark, never one of the field."""
    (found,) = pull_remarks(sheet_of(24, None, None), (None, None, None), listed=True)
    assert (found.section, found.holds) == ("314.28(A)(3)", None)


def test_a_margin_of_zero_holds() -> None:
    found = compared(sheet_of(20, 18, None), inside("20", "287/16", "6"))
    assert [(one.axis, one.holds) for one in found] == [("width", True), ("height", False)]


def test_a_wall_holds_both_entries_of_a_u_pull() -> None:
    """6 x 3 between a 3 inch and a 2 inch: 23 along the wall."""
    raceways = (Raceway("a", THREE, "left"), Raceway("b", Fraction(2), "left"))
    box = PullBox(raceways, (Pull("u", "a", "b"),))
    assert beside(box) == 23
    sheet = work_out_pull_box(box)
    assert all(one.holds for one in compared(sheet, inside("23", "20", "6"), beside(box)))
    assert not all(one.holds for one in compared(sheet, inside("22", "20", "6"), beside(box)))
