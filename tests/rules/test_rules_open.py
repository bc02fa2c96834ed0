"""What is open: the interval, whether the verdict can still change, and what decides it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from random import Random

from boxaloud.rules import work_out
from boxaloud.rules.contents import Box, Cable, Conductors, Grounds, Marked, TerminalBlock, Yoke
from boxaloud.rules.worksheet import OpenSlot
from described import random_box
from plain import answers, fill, is_described

TWO_CABLES = (Cable(14, 2, 14, 2), Yoke("switch", None))
MIXED = (Cable(14, 2, 14, 2), Cable(12, 2, 12), Yoke("switch", None))


def slots(box: Box) -> list[str]:
    return [slot.slot for slot in work_out(box).open]


def slot(box: Box, name: str) -> OpenSlot:
    return next(slot for slot in work_out(box).open if slot.slot == name)


def marked(volume: str) -> tuple[Marked]:
    return (Marked(Decimal(volume)),)


def test_nothing_described_asks_for_contents_first() -> None:
    assert slots(Box())[:2] == ["contents", "box"]
    assert work_out(Box(parts=marked("18"))).verdict == "incomplete"


def test_the_box_comes_before_everything_but_contents() -> None:
    assert slots(Box(contents=MIXED))[0] == "box"


def test_with_one_size_the_device_is_that_size_and_not_asked() -> None:
    sheet = work_out(Box(contents=TWO_CABLES, clamps="none", parts=marked("18")))
    assert (sheet.total, sheet.open, sheet.verdict) == (Decimal("14.00"), (), "fits")


def test_with_two_sizes_the_device_is_asked() -> None:
    size = slot(Box(contents=MIXED, clamps="none", parts=marked("18.75")), "device_size")
    assert (size.least, size.most, size.subject, size.index) == (4, Decimal("4.50"), "switch", 2)
    assert size.decides


def test_a_yoke_with_no_conductor_anywhere_is_bounded_by_the_whole_table() -> None:
    size = slot(Box(contents=(Yoke("switch", None),), clamps="none"), "device_size")
    assert (size.least, size.most) == (Decimal("3.00"), Decimal("10.00"))


def test_grounds_alone_give_a_device_its_size() -> None:
    sheet = work_out(Box(contents=(Grounds(14, 2), Yoke("switch", None)), clamps="none"))
    assert sheet.total == Decimal("6.00")


def test_unknown_grounds_are_none_or_one_at_the_largest_conductor() -> None:
    box = Box(contents=(Conductors(12, 4), Conductors(14, 2)), grounds_known=False, clamps="none")
    grounds = slot(box, "grounds")
    assert (grounds.least, grounds.most) == (0, Decimal("2.25"))


def test_unknown_grounds_beside_four_known_can_add_a_quarter() -> None:
    """From 2020 the fifth ground is a quarter, 314.16(B)(5)."""
    box = Box(contents=(Cable(14, 2, 14, 4),), grounds_known=False, clamps="none")
    assert slot(box, "grounds").most == Decimal("0.50")
    assert slot(replace(box, edition="2017"), "grounds").most == 0


def test_terminal_block_of_unknown_size_is_open_from_2023_only() -> None:
    box = Box(contents=(Cable(14, 2, 14), Cable(12, 2, 12), TerminalBlock(None)), clamps="none")
    assert "block_size" in slots(box)
    assert "block_size" not in slots(replace(box, edition="2020"))


def test_over_whatever_the_clamps_are() -> None:
    sheet = work_out(Box(contents=TWO_CABLES, parts=marked("12.5")))
    assert (sheet.verdict, sheet.open[0].decides) == ("over", False)


def test_fits_whatever_the_clamps_are() -> None:
    sheet = work_out(Box(contents=TWO_CABLES, parts=marked("16")))
    assert (sheet.verdict, sheet.open[0].decides) == ("fits", False)


def test_the_clamps_decide() -> None:
    sheet = work_out(Box(contents=TWO_CABLES, parts=marked("15.9")))
    assert (sheet.verdict, sheet.open[0].slot, sheet.open[0].decides) == (
        "incomplete",
        "clamps",
        True,
    )


def test_moulded_tabs_stay_open_with_both_totals() -> None:
    """Disputed: Mike Holt forum 194030, 148368, 2566426, 2572445. No ruling found."""
    sheet = work_out(Box(contents=TWO_CABLES, clamps="moulded", parts=marked("14")))
    assert (sheet.low, sheet.high, sheet.verdict) == (14, 16, "incomplete")
    assert (sheet.open[0].slot, sheet.open[0].rule) == ("clamps", "clamps-moulded")


def test_only_a_ring_leaves_the_box_open() -> None:
    sheet = work_out(Box(contents=TWO_CABLES, parts=(Marked(Decimal(3), "plaster ring"),)))
    assert (sheet.capacity, len(sheet.volumes), sheet.open[0].slot) == (None, 1, "box")


def test_an_open_slot_decides_exactly_where_its_answer_can_turn_the_verdict() -> None:
    """Every combination of answers tried, by the plain implementation."""
    rng = Random(3905)
    seen = {True: 0, False: 0}
    for _ in range(3000):
        box = random_box(rng, known=False)
        sheet = work_out(box)
        if sheet.verdict != "incomplete" or sheet.capacity is None or not is_described(box):
            continue
        for slot in sheet.open:
            if slot.slot in ("device_size", "block_size", "jumper"):
                continue
            seen[slot.decides] += 1
            assert slot.decides is _turns(box, slot.slot, Fraction(sheet.capacity)), (box, slot)
    assert all(seen.values()), seen


def _turns(box: Box, slot: str, capacity: Fraction) -> bool:
    """Whether, with some answers to all else, this answer alone turns the verdict."""
    others = [replace(box, grounds_known=True) if slot == "grounds" else box]
    if slot == "clamps":
        pairs = [
            (replace(one, clamps="none"), replace(one, clamps="inside"))
            for one in _every(replace(box, clamps="none"))
        ]
    else:
        with_it = answers(box)
        without = [one for other in others for one in answers(other)]
        pairs = [
            (one, more)
            for one in without
            for more in with_it
            if more.clamps == one.clamps and more.contents[:-1] == one.contents
        ]
    return any(fill(least) <= capacity < fill(most) for least, most in pairs)


def _every(box: Box) -> list[Box]:
    return answers(box)
