"""What must hold of every box, whatever is in it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from random import Random

from boxaloud.rules import differences, editions, room_for, work_out
from boxaloud.rules.contents import Box, Content
from described import boxes, contents
from hypothesis import given
from hypothesis import strategies as st

DIFFERING = {
    ("2014", "2017"): {"314.16(A)"},
    ("2017", "2020"): {"314.16(B)(5)"},
    ("2020", "2023"): {"314.16(B)(6)"},
}
"""Barriers came in 2017, quarter grounds in 2020, terminal blocks in 2023."""


@given(boxes(), contents())
def test_adding_anything_never_lowers_the_total(box: Box, more: Content) -> None:
    """Of boxes where every size is known: an unknown size is no number yet."""
    fuller = replace(box, contents=(*box.contents, more))
    assert work_out(fuller).total >= work_out(box).total


@given(boxes(known=False), st.integers())
def test_order_never_matters(box: Box, seed: int) -> None:
    shuffled = list(box.contents)
    Random(seed).shuffle(shuffled)
    one, other = work_out(box), work_out(replace(box, contents=tuple(shuffled)))
    assert one.lines == other.lines
    assert (one.low, one.high, one.verdict) == (other.low, other.high, other.verdict)
    assert len(one.open) == len(other.open)


@given(boxes(known=False))
def test_the_total_is_the_sum_of_the_lines(box: Box) -> None:
    sheet = work_out(box)
    assert sheet.total == sum((line.subtotal for line in sheet.lines), Decimal(0))
    for line in sheet.lines:
        assert line.subtotal == line.allowances * line.each
    if sheet.capacity is not None:
        assert sheet.capacity == sum((line.volume for line in sheet.volumes), Decimal(0))
        assert sheet.margin == sheet.capacity - sheet.total


@given(boxes(known=False))
def test_the_total_known_lies_below_the_most(box: Box) -> None:
    """For a bonding jumper too of which nobody said whether it enters: the verdict hangs on both
    outcomes, so that a total which counted it would be called over where the box may fit.
    """
    sheet = work_out(box)
    assert sheet.total <= sheet.low <= sheet.high


@given(boxes(known=False))
def test_editions_differ_only_in_the_sections_named(box: Box) -> None:
    for (older, newer), sections in DIFFERING.items():
        found = differences(replace(box, edition=older), newer)
        assert {difference.section for difference in found} <= sections


@given(boxes())
def test_differences_add_up_to_the_change_of_the_total(box: Box) -> None:
    for edition in editions():
        found = differences(box, edition)
        fill = sum((d.change for d in found if d.item != "volume"), Decimal(0))
        other = work_out(replace(box, edition=edition))
        assert work_out(box).total + fill == other.total


@given(boxes(), contents())
def test_one_more_than_fits_does_not_fit(box: Box, more: Content) -> None:
    """Room is exact: `least` more fit and one more does not."""
    if work_out(box).capacity is None:
        return
    room = room_for(box, more)
    assert room.least == room.most
    for count, fits in ((room.least, True), (room.least + 1, False)):
        if count == 0 or room.unlimited:
            continue
        sheet = work_out(replace(box, contents=(*box.contents, replace(more, count=count))))
        assert sheet.capacity is not None
        assert (sheet.high <= sheet.capacity) is fits


@given(boxes(known=False))
def test_a_worksheet_never_changes_and_neither_does_the_box(box: Box) -> None:
    before = hash(box)
    assert work_out(box) == work_out(box)
    assert hash(box) == before
