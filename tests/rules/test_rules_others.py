"""Spaces behind barriers, conduit bodies, pull boxes, and what governs."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from boxaloud.rules import (
    ConduitBody,
    Pull,
    PullBox,
    Raceway,
    RacewayWires,
    RulesError,
    Space,
    explain,
    governing,
    most_conductors,
    notes,
    work_out_conduit_body,
    work_out_pull_box,
    work_out_spaces,
)
from boxaloud.rules.contents import Barrier, Box, Cable, Conductors, Marked, TerminalBlock
from boxaloud.rules.pull import PullKind, Wall, shown

HALF = Fraction(1, 2)
MIXED = (Conductors(12, 1), Cable(14, 2, 14))
DIVIDED = Box((Marked(Decimal(42)), Barrier()))


def test_each_space_is_worked_out_by_itself() -> None:
    """314.16(A) from 2017: 42 less 0.5 for the metal barrier, half to each side."""
    full = Space((Cable(12, 2, 12, 4),), "none")
    light = Space((Cable(14, 2, 14),), "none")
    one, other = work_out_spaces(DIVIDED, (full, light))
    assert (one.capacity, one.verdict) == (Decimal("20.75"), "fits")
    assert (one.margin, other.margin) == (Decimal("0.50"), Decimal("14.75"))


def test_a_share_that_does_not_end_is_rounded_down() -> None:
    space = Space((Cable(14, 2, 14),), "none", Fraction(1, 3))
    rest = Space((Cable(14, 2, 14),), "none", Fraction(2, 3))
    sheets = work_out_spaces(DIVIDED, (space, rest))
    assert [sheet.capacity for sheet in sheets] == [Decimal("13.8333"), Decimal("27.6666")]


@pytest.mark.parametrize(
    ("box", "spaces", "says"),
    [
        (DIVIDED, (Space(()),), "2 spaces"),
        (DIVIDED, (Space((), share=HALF), Space((), share=Fraction(1, 3))), "add up"),
        (Box(DIVIDED.parts, edition="2014"), (Space(()), Space(())), "2014"),
    ],
)
def test_spaces_that_cannot_be(box: Box, spaces: tuple[Space, ...], says: str) -> None:
    with pytest.raises(RulesError, match=says):
        work_out_spaces(box, spaces)


def test_a_body_with_splices_and_no_mark_is_not_permitted() -> None:
    """314.16(C)(2): Mike Holt forum 101048."""
    sheet = work_out_conduit_body(ConduitBody("emt", HALF, splices=(Conductors(12, 2),)))
    assert sheet.verdict == "not permitted"
    assert sheet.lines[0].section == "314.16(C)(2)"


@pytest.mark.parametrize(("count", "verdict"), [(2, "fits"), (3, "over")])
def test_a_marked_body_counts_its_splices(count: int, verdict: str) -> None:
    """Mike Holt forum 69898: a body marked 6 takes two 12 AWG."""
    body = ConduitBody("emt", HALF, splices=(Conductors(12, count),), marked=Decimal(6))
    assert work_out_conduit_body(body).verdict == verdict


@pytest.mark.parametrize(("count", "verdict"), [(6, "fits"), (7, "over")])
def test_a_body_without_splices_goes_by_the_raceway(count: int, verdict: str) -> None:
    """ECMag Part X: six 10 AWG THHN in 1/2 inch rigid conduit, rounded up from 5.95."""
    body = ConduitBody("rmc", HALF, wires=(RacewayWires(10, count),))
    assert work_out_conduit_body(body).verdict == verdict


def test_mixed_wires_go_by_area() -> None:
    """Chapter 9 from memory: 40 percent of 0.304 is 0.1216; 3 x 0.0133 + 4 x 0.0211 = 0.1243."""
    wires = (RacewayWires(12, 3), RacewayWires(10, 4))
    (line,) = work_out_conduit_body(ConduitBody("emt", HALF, wires=wires)).lines
    assert (line.have, line.limit, line.holds) == (
        Fraction("0.1243"),
        Fraction("0.1216"),
        False,
    )


@pytest.mark.parametrize(("area", "holds"), [("0.608", True), ("0.607", False)])
def test_a_body_needs_twice_the_raceway(area: str, holds: bool) -> None:
    """314.16(C)(1): codebookcity 314-06; twice 0.304 (Chapter 9 from memory)."""
    body = ConduitBody("emt", HALF, wires=(RacewayWires(14, 1),), area=Decimal(area))
    assert work_out_conduit_body(body).lines[0].holds is holds


@pytest.mark.parametrize(
    ("raceway", "awg", "most"),
    [
        ("emt", 14, 12),
        ("emt", 12, 9),
        ("emt", 10, 5),
        ("emt", 8, 3),
        ("emt", 6, 2),
        ("pvc40", 6, 1),
    ],
)
def test_like_conductors_in_half_inch_raceways(raceway: str, awg: int, most: int) -> None:
    """Annex C Tables C.1 and C.10, THHN, from memory: one takes 53 percent, two 31."""
    assert most_conductors(raceway, HALF, awg) == most


@pytest.mark.parametrize(
    "body",
    [
        ConduitBody("hose", HALF, wires=(RacewayWires(12, 1),)),
        ConduitBody("emt", Fraction(7), wires=(RacewayWires(12, 1),)),
        ConduitBody("emt", HALF, wires=(RacewayWires(4, 1),)),
        ConduitBody("emt", HALF, wires=(RacewayWires(12, 1, "silk"),)),
        ConduitBody(
            "emt", HALF, splices=(TerminalBlock(None), Conductors(12, 1), Cable(14, 2, 14))
        ),
    ],
)
def test_bodies_that_cannot_be(body: ConduitBody) -> None:
    with pytest.raises(RulesError):
        work_out_conduit_body(body)


def test_each_row_by_itself_and_the_largest_governs() -> None:
    """314.28(A)(2): EC&M March 2022. Row 1: 6 x 2 + 2 = 14; row 2: 6 x 3 = 18."""
    raceways = (
        Raceway("a", Fraction(2), "left", 1),
        Raceway("b", Fraction(2), "left", 1),
        Raceway("c", Fraction(3), "left", 2),
        Raceway("d", Fraction(3), "top"),
        Raceway("e", Fraction(2), "bottom"),
    )
    sheet = work_out_pull_box(PullBox(raceways, (Pull("angle", "c", "d"), Pull("angle", "a", "e"))))
    rows = {r.what: r.inches for r in sheet.requirements if r.axis == "width"}
    assert sorted(rows.values()) == [14, 18]
    assert (sheet.width, sheet.height, sheet.depth) == (18, 18, None)
    assert all(explain(requirement.rule) for requirement in sheet.requirements)


def test_dimensions_go_to_the_fraction_of_an_inch() -> None:
    raceways = (Raceway("a", Fraction(5, 4), "left"), Raceway("b", Fraction(3, 4), "top"))
    sheet = work_out_pull_box(PullBox(raceways, (Pull("angle", "a", "b"),)))
    assert (sheet.width, sheet.height) == (Fraction(15, 2), Fraction(9, 2))
    assert (shown(Fraction(15, 2)), shown(Fraction(9, 2))) == ("7-1/2", "4-1/2")


def test_spacing_of_spliced_conductors_is_disputed() -> None:
    """Mike Holt forum 110905, 61842, 2991679: no ruling found."""
    raceways = (Raceway("a", Fraction(2), "left"), Raceway("b", Fraction(2), "right"))
    sheet = work_out_pull_box(PullBox(raceways, (Pull("splice", "a", "b"),)))
    (apart,) = [r for r in sheet.requirements if r.rule.startswith("pull-apart")]
    assert (apart.disputed, apart.inches) == (True, 12)


def test_without_a_removable_cover_the_back_is_a_wall_like_the_others() -> None:
    raceways = (Raceway("a", Fraction(2), "left"), Raceway("b", Fraction(2), "back"))
    box = PullBox(raceways, (Pull("angle", "a", "b", "250"),), removable_cover=False)
    assert work_out_pull_box(box).depth == 12


@pytest.mark.parametrize(
    ("raceways", "pull", "says"),
    [
        ([("a", "5/8", "left")], ("u", "a", "a"), "no trade size"),
        ([("a", "2", "left")], ("u", "a", "z"), "no such raceway"),
        ([("a", "2", "left"), ("b", "2", "top")], ("straight", "a", "b"), "no straight pull"),
        ([("a", "2", "left"), ("b", "2", "right")], ("angle", "a", "b"), "no angle pull"),
        ([("a", "2", "left"), ("b", "2", "back")], ("angle", "a", "b"), "312.6"),
        ([("a", "2", "left"), ("a", "2", "top")], ("angle", "a", "a"), "same name"),
        ([("a", "2", "lid")], ("u", "a", "a"), "not lid"),
    ],
)
def test_pull_boxes_that_cannot_be(
    raceways: list[tuple[str, str, Wall]], pull: tuple[PullKind, str, str], says: str
) -> None:
    made = tuple(Raceway(name, Fraction(size), wall) for name, size, wall in raceways)
    with pytest.raises(RulesError, match=says.replace(".", r"\.")):
        work_out_pull_box(PullBox(made, (Pull(*pull),)))


def test_a_box_with_both_says_which_rule_governs_what() -> None:
    small, large = governing([12, "4/0", 14, 4])
    assert (small.section, small.sizes) == ("314.16", ("12", "14"))
    assert (large.section, large.sizes) == ("314.28(A)", ("4/0", "4"))
    assert [found.section for found in governing([12])] == ["314.16"]
    with pytest.raises(RulesError, match="99"):
        governing([99])


def test_notes_have_names_of_their_own() -> None:
    names = [note.rule for note in notes()]
    assert len(names) == len(set(names))
