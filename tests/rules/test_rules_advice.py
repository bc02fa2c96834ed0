"""What to do about a box: advice, the smallest box that fits, and the room that is left."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from boxaloud.rules import (
    CANADIAN,
    RulesError,
    advise,
    explain,
    room_for,
    smallest_boxes,
    table_boxes,
    work_out,
)
from boxaloud.rules.contents import (
    Barrier,
    Box,
    Cable,
    ClampAssembly,
    Conductors,
    FixtureWires,
    Grounds,
    Marked,
    SupportFitting,
    TableBox,
    Uncounted,
    Yoke,
)
from described import boxes
from hypothesis import given

FOUR_SQUARE = (TableBox("square-4-1.5"),)
OVERFULL = Box(
    FOUR_SQUARE,
    (Cable(12, 2, 12, 3), Yoke("receptacle", None), FixtureWires(18, 2, canopy=False)),
    "inside",
)
"""13.50 + 4.50 + 2.25 grounds + 2.25 clamps + 3.00 tails = 25.50 of 21.0."""


def test_advice_is_ranked_by_what_it_saves() -> None:
    found = {one.kind: (one.saves, one.margin, one.enough) for one in advise(OVERFULL)}
    assert found == {
        "extension_ring": (Decimal("21.0"), Decimal("16.50"), True),
        "bigger_box": (Decimal("4.5"), Decimal("0.00"), True),
        "marked_ring": (Decimal("4.50"), Decimal("0.00"), True),
        "move_device": (Decimal("4.50"), Decimal("0.00"), True),
        "move_cable": (Decimal("4.50"), Decimal("0.00"), True),
        "check_canopy": (Decimal("3.00"), Decimal("-1.50"), False),
        "clamp_outside": (Decimal("2.25"), Decimal("-2.25"), False),
    }
    saved = [one.saves for one in advise(OVERFULL)]
    assert saved == sorted(saved, reverse=True)


def test_advice_in_canada_takes_out_conductors_or_a_larger_mark() -> None:
    """Rule 12-3034(1), (2)(b), (2)(c): 6 x 28.7 + 28.7 for the pair + 2 x 28.7 = 258.3 mL."""
    box = Box(
        (Marked(Decimal("12.2"), cm3=Decimal(200)),),
        (Cable(12, 2, 12, 3), Yoke("receptacle", None), Uncounted("wire connector", 2)),
        "inside",
        edition=CANADIAN,
    )
    found = {one.kind: (one.saves, one.enough, one.section) for one in advise(box)}
    assert found == {
        "marked_box": (Decimal("58.30"), True, "Rule 12-3034"),
        "move_device": (Decimal("57.40"), False, "Rule 12-3034(2)(c)"),
        "move_cable": (Decimal("57.40"), False, "Rule 12-3034(1)"),
    }
    assert {one.unit for one in advise(box)} == {"mL"}


@given(boxes(known=False))
def test_advice_promises_what_working_out_gives(box: Box) -> None:
    for one in advise(box):
        sheet = work_out(one.changed)
        assert sheet.capacity is not None
        assert one.margin == sheet.capacity - sheet.high
        assert one.enough == (one.margin >= 0)
        assert one.saves > 0
        assert explain(one.rule).section == one.section


def test_moving_the_only_large_conductor_lowers_what_is_counted_at_it() -> None:
    """One 10-2 among 14s: 5.00 of wires, and clamps and grounds fall from 2.50 to 2.00."""
    box = Box(FOUR_SQUARE, (Cable(14, 2, 14, 2), Cable(10, 2, 10)), "inside")
    moved = [one for one in advise(box) if one.kind == "move_cable"]
    assert moved[0].what == "move one 10-2 cable and its splices to another box"
    assert moved[0].saves == Decimal("6.00")


def test_an_open_answer_is_advised_as_something_to_look_at() -> None:
    kinds = {one.kind for one in advise(replace(OVERFULL, clamps="unknown"))}
    assert "check_clamps" in kinds
    moulded = [one for one in advise(replace(OVERFULL, clamps="moulded")) if "clamp" in one.kind]
    assert moulded[0].rule == "clamps-moulded"


def test_no_advice_before_the_volume_is_known() -> None:
    assert advise(Box(contents=(Cable(14, 2, 14),))) == ()


def test_a_splice_of_single_conductors_can_move() -> None:
    box = Box((Marked(Decimal(6)),), (Conductors(14, 6),), "none")
    assert "move_splice" in {one.kind for one in advise(box)}


@given(boxes())
def test_the_smallest_box_fits_and_everything_smaller_does_not(box: Box) -> None:
    choices = smallest_boxes(box)
    assert list(choices) == sorted(choices, key=lambda choice: choice.volume)
    barriers = tuple(part for part in box.parts if isinstance(part, (Barrier, ClampAssembly)))
    for choice in choices:
        sheet = work_out(replace(box, parts=(choice.part, *barriers)))
        assert (sheet.verdict, sheet.margin) == ("fits", choice.margin)
    if choices and not barriers:
        total = work_out(box).high
        smaller = [row for row in table_boxes() if total <= row.volume < choices[0].volume]
        assert all(
            row.cover == "multiple" or any(isinstance(c, Yoke) for c in box.contents)
            for row in smaller
        )


def test_two_devices_need_two_gangs() -> None:
    box = Box(contents=(Cable(14, 2, 14, 2), Yoke("switch", None, count=2)), clamps="none")
    first = smallest_boxes(box, ["device"])[0]
    assert (first.row.id, first.gangs, first.volume) == ("device-3x2x2", 2, Decimal("20.0"))
    assert smallest_boxes(box, ["handy", "octagon"]) == ()


def test_nothing_described_has_no_smallest_box() -> None:
    assert smallest_boxes(Box()) == ()


def test_room_goes_by_quarter_grounds() -> None:
    """After four grounds a 14-2 takes 4.50: 42.0 less 16 and 2 leaves 24, five of them."""
    box = Box((TableBox("square-4.6875-2.125"),), (Cable(14, 2, 14, 4),), "none")
    assert room_for(box, Cable(14, 2, 14)).least == 5
    assert room_for(replace(box, edition="2017"), Cable(14, 2, 14)).least == 6


def test_a_larger_conductor_raises_the_clamps_and_the_grounds() -> None:
    """A 10-2 into 20.0 with one 14-2 and clamps: 4 + 5 + 2.5 + 2.5 = 14, then 19 for two."""
    box = Box((Marked(Decimal(20)),), (Cable(14, 2, 14),), "inside")
    room = room_for(box, Cable(10, 2, 10))
    assert (room.least, room.most, room.margin) == (2, 2, Decimal("6.00"))


def test_room_says_the_worst_and_the_best_of_open_answers() -> None:
    box = Box((Marked(Decimal(18)),), (Cable(14, 2, 14, 2),))
    room = room_for(box, Conductors(14, 1))
    assert (room.least, room.most) == (3, 4)


def test_more_of_a_fitting_already_counted_takes_nothing() -> None:
    box = Box((Marked(Decimal(18)),), (Cable(14, 2, 14), SupportFitting("hickey")), "none")
    assert room_for(box, SupportFitting("hickey")).unlimited
    assert not room_for(box, Grounds(14, 1)).unlimited


def test_room_before_the_volume_is_known_is_refused() -> None:
    with pytest.raises(RulesError, match="before the volume"):
        room_for(Box(contents=(Cable(14, 2, 14),)), Cable(14, 2, 14))
