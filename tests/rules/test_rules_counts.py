"""Each count of 314.16(B) by itself, at its boundaries, and the canopy cases."""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud.rules import work_out
from boxaloud.rules.contents import (
    BondingJumper,
    Box,
    Cable,
    Clamps,
    Conductors,
    Content,
    FixtureWires,
    Grounds,
    Marked,
    Path,
    SupportFitting,
    TerminalBlock,
    Uncounted,
    Yoke,
)
from boxaloud.rules.worksheet import Line


def total(*contents: Content, clamps: Clamps = "none", edition: str = "2023") -> Decimal:
    return work_out(Box(contents=contents, clamps=clamps, edition=edition)).total


def only(*contents: Content, clamps: Clamps = "none", edition: str = "2023") -> Line:
    (line,) = work_out(Box(contents=contents, clamps=clamps, edition=edition)).lines
    return line


TAILS = (FixtureWires(18, 2), Grounds(18, 1, canopy=True), BondingJumper(14))
PANCAKE = (Marked(Decimal("6.0")),)


@pytest.mark.parametrize(
    ("clamps", "fill", "margin", "verdict"),
    [("outside", "6.00", "0.00", "fits"), ("inside", "8.00", "-2.00", "over")],
)
def test_shallow_round_box_under_a_canopy(
    clamps: Clamps, fill: str, margin: str, verdict: str
) -> None:
    """Common practice, no source: one 14-2 cable into 6 cubic inches, tails from a canopy."""
    sheet = work_out(Box(parts=PANCAKE, contents=(Cable(14, 2, 14), *TAILS), clamps=clamps))
    assert (sheet.total, sheet.margin) == (Decimal(fill), Decimal(margin))
    assert sheet.verdict == verdict


def test_shallow_round_box_without_a_canopy_counts_the_tails() -> None:
    """Common practice, no source: the same tails not from a canopy count at their size."""
    tails = (FixtureWires(18, 2, canopy=False), BondingJumper(14))
    sheet = work_out(Box(parts=PANCAKE, contents=(Cable(14, 2, 14), *tails), clamps="outside"))
    assert (sheet.total, sheet.verdict) == (Decimal("9.00"), "over")


@pytest.mark.parametrize(
    ("tails", "counted"),
    [
        ((FixtureWires(18, 4),), "0"),
        ((FixtureWires(18, 5),), "1.50"),
        ((FixtureWires(18, 3), FixtureWires(18, 2)), "1.50"),
        ((FixtureWires(14, 1),), "2.00"),
        ((FixtureWires(14, 1), FixtureWires(16, 4)), "2.00"),
        ((FixtureWires(16, 2), FixtureWires(18, 3)), "1.50"),
        ((FixtureWires(18, 4, canopy=False),), "6.00"),
    ],
)
def test_limits_of_the_canopy_exception(tails: tuple[Content, ...], counted: str) -> None:
    """Four smaller than 14 AWG are left out; a fifth counts, and so does a 14 AWG."""
    assert total(*tails) == Decimal(counted)


def test_tails_left_out_are_no_conductor_for_the_clamps() -> None:
    sheet = work_out(Box(contents=(Cable(18, 2, 18), FixtureWires(16, 4)), clamps="inside"))
    (clamps,) = [line for line in sheet.lines if line.item == "clamps"]
    assert clamps.awg == 18


@pytest.mark.parametrize(
    ("path", "allowances", "item"),
    [
        ("ends", "1", "conductors"),
        ("through", "1", "pass_through"),
        ("loop", "2", "loops"),
        ("short_loop", "1", "loops"),
        ("inside", "0", "not_counted"),
    ],
)
def test_paths(path: Path, allowances: str, item: str) -> None:
    """314.16(B)(1): Mike Holt forum 61182; EC&M Code Q&A 85 for the loop."""
    line = only(Conductors(12, 1, path))
    assert (line.allowances, line.item) == (Decimal(allowances), item)
    assert line.section == "314.16(B)(1)"


def test_the_grounds_of_looped_cables_count_as_one_each() -> None:
    assert total(Cable(12, 2, 12, 5, "loop")) == Decimal("45.00") + Decimal("2.8125")


def test_clamps_outside_take_nothing_and_say_so() -> None:
    """314.16(B)(2): Mike Holt forum 184596."""
    sheet = work_out(Box(contents=(Cable(14, 2, 14),), clamps="outside"))
    assert sheet.total == Decimal("6.00")
    assert sheet.lines[-1].rule == "clamps-outside"


def test_clamps_count_once_at_the_largest_conductor_even_a_ground() -> None:
    """314.16(B)(2). A 14 AWG cable beside a 12 AWG ground: 2.25."""
    sheet = work_out(Box(contents=(Conductors(14, 2), Grounds(12, 1)), clamps="inside"))
    assert sheet.lines[1].subtotal == Decimal("2.25")


def test_a_conductor_that_stays_inside_is_present_for_the_clamps() -> None:
    """314.16(B)(2) says the largest conductor present in the box, not entering it."""
    sheet = work_out(Box(contents=(Cable(14, 2, 14), Conductors(12, 2, "inside")), clamps="inside"))
    assert sheet.total == Decimal("6.00") + Decimal("2.25")


def test_clamps_take_nothing_before_a_conductor_is_named() -> None:
    sheet = work_out(Box(contents=(Yoke("switch", 12),), clamps="inside"))
    assert (sheet.total, sheet.open[0].slot) == (Decimal("4.50"), "contents")


def test_each_type_of_fitting_counts_once() -> None:
    """314.16(B)(3): necmastery.com, stud and hickey are two."""
    fittings = (SupportFitting("hickey", 3), SupportFitting("luminaire stud"))
    assert total(Conductors(12, 1), *fittings) == Decimal("6.75")


def test_a_yoke_follows_its_own_conductor_and_its_gangs() -> None:
    """314.16(B)(4): Mike Holt forum 29454; electriciantalk 63352; Mike Holt forum 2571164."""
    assert total(Yoke("switch", 14), Yoke("receptacle", 12)) == Decimal("8.50")
    assert total(Yoke("range receptacle", 6, gangs=2)) == Decimal("20.00")


@pytest.mark.parametrize(
    ("count", "before", "after"),
    [(1, "2", "2"), (4, "2", "2"), (5, "2", "2.50"), (6, "2", "3.00"), (8, "2", "4.00")],
)
def test_grounds_by_edition(count: int, before: str, after: str) -> None:
    """314.16(B)(5): ECMag Part VIII before 2020; Mike Holt forum 2568132 from 2020."""
    grounds = Grounds(14, count)
    assert total(grounds, edition="2014") == total(grounds, edition="2017") == Decimal(before)
    assert total(grounds, edition="2020") == total(grounds, edition="2023") == Decimal(after)


def test_quarters_of_a_12_keep_every_digit() -> None:
    assert only(Grounds(12, 5)).subtotal == Decimal("2.8125")


def test_an_isolated_set_by_edition() -> None:
    """From memory: one more allowance before 2020, among all the others from 2020."""
    grounds = (Grounds(12, 2), Grounds(12, 2, isolated=True))
    assert total(*grounds, edition="2017") == Decimal("4.50")
    assert total(*grounds, edition="2020") == Decimal("2.25")


def test_a_jumper_counts_only_where_it_enters() -> None:
    assert total(BondingJumper(14)) == 0
    assert total(BondingJumper(14, enters=True)) == Decimal("2.00")


def test_terminal_blocks_count_from_2023() -> None:
    """314.16(B)(6): EC&M quiz of December 2023; electricallicenserenewal 1471."""
    assert total(TerminalBlock(12, 2)) == Decimal("4.50")
    assert total(TerminalBlock(12, 2), edition="2020") == 0


@pytest.mark.parametrize(
    ("kind", "rule"),
    [
        ("wire connector", "connectors-none"),
        ("pigtail", "pigtails-none"),
        ("locknut", "small-fittings-none"),
        ("bushing", "small-fittings-none"),
        ("label", "others-none"),
    ],
)
def test_what_takes_nothing_is_kept_as_a_line(kind: str, rule: str) -> None:
    line = only(Uncounted(kind, 2))
    assert (line.item, line.subtotal, line.rule, line.count) == ("not_counted", 0, rule, 2)
