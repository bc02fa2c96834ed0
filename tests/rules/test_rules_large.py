"""Boxes of more than 100 cubic inches, metric marks, clamp assemblies: 314.16(A), (B)(2)."""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud.rules import NotMarked, RulesError, explain, validate_part, work_out
from boxaloud.rules.contents import Box, Cable, ClampAssembly, Conductors, Marked, Measured, Part

D = Decimal


@pytest.mark.parametrize(
    ("sides", "volume"),
    [(("8", "8", "4"), "256"), (("12", "12", "6"), "864"), (("18.5", "12", "6"), "1332")],
)
def test_a_box_over_100_has_its_volume_by_its_inside(sides: tuple[str, ...], volume: str) -> None:
    """314.16(A)(2): only boxes of 100 cubic inches or less outside the Table must be marked
    (manuzoid.com and engproducts.com quote it); multiplying out is common practice."""
    box = Box((Measured(*map(D, sides)),), (Cable(12, 2, 12),), "none")  # type: ignore[arg-type]
    sheet = work_out(box)
    assert (sheet.capacity, sheet.verdict) == (D(volume), "fits")
    assert explain(sheet.volumes[0].rule).section == "314.16(A)"


@pytest.mark.parametrize("depth", ["4", "2"])
def test_a_box_of_100_or_less_must_be_marked(depth: str) -> None:
    """314.16(A)(2): exactly 100 is not more than 100."""
    with pytest.raises(NotMarked, match=r"314\.16\(A\)\(2\)"):
        validate_part(Measured(D(5), D(5), D(depth)))
    validate_part(Measured(D(5), D(5), D("4.01")))


def test_a_nonmetallic_box_must_be_marked_whatever_its_size() -> None:
    """314.16(A)(2): and all nonmetallic boxes."""
    box = Box((Measured(D(8), D(8), D(4)),), (Cable(12, 2, 12),), "none", nonmetallic=True)
    sheet = work_out(box)
    assert (sheet.capacity, sheet.verdict) == (None, "incomplete")


def test_a_mark_of_several_thousand_is_a_volume() -> None:
    assert work_out(Box((Marked(D(4000)),), (Conductors(10, 40),), "none")).verdict == "fits"


@pytest.mark.parametrize("part", [Measured(D(8), D(0), D(4)), Measured(D(80), D(8), D(4))])
def test_sides_that_cannot_be(part: Part) -> None:
    with pytest.raises(RulesError, match="inches cannot be right"):
        validate_part(part)


@pytest.mark.parametrize("edition", ["2014", "2017", "2020", "2023", "2026"])
def test_a_clamp_assembly_takes_room_off_the_box_and_no_allowance(edition: str) -> None:
    """314.16(B)(2) second paragraph, new in 2014: Mike Holt forum 195994, 184596 and 2566426.
    18 less 1.5; two conductors that originate in it count as two that enter."""
    parts = (Marked(D(18)), ClampAssembly(D("1.5")))
    sheet = work_out(Box(parts, (Conductors(14, 2),), "none", edition=edition))
    assert (sheet.capacity, sheet.total) == (D("16.5"), D("4.00"))
