"""Table 314.16(A): volumes, counts and how people name the boxes."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from boxaloud.rules import (
    NoSuchBox,
    RulesError,
    TableRow,
    allowance,
    find_rows,
    room_for,
    table_boxes,
    work_out,
)
from boxaloud.rules.contents import Box, Conductors, Marked, TableBox
from boxaloud.rules.data import table

SIZES = (18, 16, 14, 12, 10, 8, 6)
MISPRINT = ("octagon-4-1.25", 8)
"""The Electrical Box Sizing Guide (synthmind.com) prints 5; 12.5 / 3.00 is 4."""


@pytest.mark.parametrize("row", table_boxes(), ids=lambda row: row.id)
@pytest.mark.parametrize("awg", SIZES)
def test_the_volume_gives_the_printed_count(row: TableRow, awg: int) -> None:
    """Electrical Box Sizing Guide (synthmind.com) for the confirmed rows, memory for the rest."""
    empty = Box(parts=(TableBox(row.id),), clamps="none")
    follows = room_for(empty, Conductors(awg, 1)).least
    printed = row.maximums[awg]
    if (row.id, awg) == MISPRINT:
        assert (follows, printed) == (4, 5)
    else:
        assert follows == printed


def test_the_misprint_is_named_in_the_data() -> None:
    (misprint,) = table("boxes")["misprint"]
    assert (misprint["box"], misprint["awg"]) == MISPRINT


@pytest.mark.parametrize("row", table_boxes(), ids=lambda row: row.id)
def test_printed_cubic_centimetres_are_near_the_volume(row: TableRow) -> None:
    """The printed column is rounded, and from memory: within 2 of the exact conversion."""
    assert abs(row.cm3 - row.volume * Decimal("16.387064")) < 2


@pytest.mark.parametrize("awg", SIZES)
def test_printed_allowances_are_near_their_volume(awg: int) -> None:
    row = allowance(awg)
    assert abs(row.cm3 - row.in3 * Decimal("16.387064")) < Decimal("0.1")


@pytest.mark.parametrize(
    ("said", "rows"),
    [
        (("square", 4, None, Decimal("1.5")), ["square-4-1.5"]),
        (("square", 4, None, "deep"), ["square-4-2.125"]),
        (("square", 4, None, "shallow"), ["square-4-1.25", "square-4-1.5"]),
        (("four-square", 4, 4, Decimal("2.125")), ["square-4-2.125"]),
        (("square", 5, None, "deep"), ["square-4.6875-2.125"]),
        (("square", Decimal("4.6875"), None, Decimal("1.5")), ["square-4.6875-1.5"]),
        (("square", Decimal("4.69"), None, Decimal("2.13")), ["square-4.6875-2.125"]),
        (("square", None, None, "deep"), ["square-4-2.125", "square-4.6875-2.125"]),
        (("nineteen-hundred", 4, None, "deep"), ["square-4-2.125"]),
        (("nineteen-hundred", None, None, Decimal("1.5")), ["square-4-1.5"]),
        (("four-oh", None, None, "deep"), ["octagon-4-2.125"]),
        (("octagon", 4, None, Decimal("1.5")), ["octagon-4-1.5"]),
        (("round", 4, None, "deep"), ["octagon-4-2.125"]),
        (("device", 3, 2, Decimal("2.75")), ["device-3x2x2.75"]),
        (("gem", None, None, Decimal("2.5")), ["device-3x2x2.5"]),
        (("device", 2, 3, Decimal("3.5")), ["device-3x2x3.5"]),
        (("handy", 4, Decimal("2.125"), Decimal("1.875")), ["handy-4x2.125x1.875"]),
        (("masonry", None, None, "deep"), ["masonry-3.75x2x3.5"]),
        (("fs",), ["fs-single", "fs-multiple"]),
    ],
)
def test_what_is_said_finds_its_rows(said: tuple[Any, ...], rows: list[str]) -> None:
    """What the names, deep and shallow mean is common practice."""
    assert [row.id for row in find_rows(*said)] == rows


def test_gangs_tell_a_single_cover_from_a_multiple_one() -> None:
    assert [row.id for row in find_rows("fd", gangs=2)] == ["fd-multiple"]


@pytest.mark.parametrize(
    "said", [("pancake",), ("square", 6), ("square", 4, 5), ("octagon", 4, None, Decimal(3))]
)
def test_a_nonstandard_box_must_be_marked(said: tuple[Any, ...]) -> None:
    with pytest.raises(NoSuchBox, match="a measured outside size is not a volume"):
        find_rows(*said)


def test_a_depth_is_a_number_or_deep_or_shallow() -> None:
    with pytest.raises(RulesError, match="deep, or shallow"):
        find_rows("square", depth="roomy")


def test_ganged_boxes_add() -> None:
    """DIY Chatroom 378353: three gangable boxes of 14.0 make 42.0."""
    assert work_out(Box(parts=(TableBox("device-3x2x2.75", 3),))).capacity == Decimal("42.0")


def test_a_listed_extension_ring_adds_its_size() -> None:
    """EC&M, brushing up on box fill: a metal extension ring takes the volume of its size."""
    parts = (TableBox("square-4-1.5"), TableBox("square-4-1.5", label="extension ring"))
    assert work_out(Box(parts=parts)).capacity == Decimal("42.0")


def test_a_marked_ring_adds_and_an_unmarked_one_does_not() -> None:
    """IRC 2018 page 770, 314.16(A)."""
    from boxaloud.rules.contents import Unmarked

    marked = Box(parts=(TableBox("square-4-1.5"), Marked(Decimal("3.3"), "plaster ring")))
    plain = Box(parts=(TableBox("square-4-1.5"), Unmarked("plaster ring")))
    assert work_out(marked).capacity == Decimal("24.3")
    assert work_out(plain).capacity == Decimal("21.0")
