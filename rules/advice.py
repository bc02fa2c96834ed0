"""What can be done about a box that is over or tight, each way tried and worked out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import lru_cache
from typing import Literal, TypeAlias

from boxaloud.rules.capacity import is_box
from boxaloud.rules.checks import validate_part
from boxaloud.rules.contents import (
    Barrier,
    Box,
    Cable,
    ClampAssembly,
    Conductors,
    Content,
    FixtureWires,
    Marked,
    TableBox,
    Yoke,
)
from boxaloud.rules.editions import is_canadian
from boxaloud.rules.errors import RulesError
from boxaloud.rules.notes import explain
from boxaloud.rules.smallest import smallest_boxes
from boxaloud.rules.table import table_boxes, table_row
from boxaloud.rules.units import marked_in3
from boxaloud.rules.words import counted
from boxaloud.rules.work import work_out
from boxaloud.rules.worksheet import Unit, Worksheet

AdviceKind: TypeAlias = Literal[
    "bigger_box", "extension_ring", "marked_ring", "clamp_outside", "check_clamps", "move_device",
    "move_cable", "move_splice", "check_canopy", "marked_box",
]  # fmt: skip
"""What a way to gain room changes."""


@dataclass(frozen=True, slots=True)
class Advice:
    """One way to gain room, in the unit of the worksheet, at the worst case of every open
    answer."""

    kind: AdviceKind
    what: str
    """What to do, in a few words that can follow "you could"."""
    saves: Decimal
    margin: Decimal
    """The margin it would leave."""
    enough: bool
    """Whether the box would fit."""
    section: str
    rule: str
    changed: Box
    """The box as it would be, to work out or to enter."""
    unit: Unit = "in3"


_Way = tuple[AdviceKind, str, str, Box]
"""Kind, what to do, rule, and the changed box."""


@lru_cache(maxsize=64)  # a reply and a report ask for the same box, and boxes are much alike
def advise(box: Box) -> tuple[Advice, ...]:
    """Every way that gains room, the one that saves most first.

    Each is worked out anew on the changed box, so that what it saves takes account of the
    largest conductor and of quarter grounds. Empty while the volume of the box is unknown. In
    Canada clamps and rings of the Table gain nothing: a box counts by its mark.
    Raises RulesError for a box that cannot be.
    """
    before = work_out(box)
    if before.capacity is None:
        return ()
    left = before.capacity - before.high
    found = []
    ways = _canadian_ways(box, before) if is_canadian(box.edition) else _ways(box, -left)
    for kind, what, rule, changed in ways:
        after = work_out(changed)
        if after.capacity is None:
            continue
        margin = after.capacity - after.high
        if margin > left:
            section = explain(rule).section
            saves = margin - left
            enough = margin >= 0
            found.append(
                Advice(kind, what, saves, margin, enough, section, rule, changed, before.unit)
            )
    return tuple(sorted(found, key=lambda advice: -advice.saves))


def _ways(box: Box, short: Decimal) -> Iterator[_Way]:
    yield from _clamps(box)
    for place, content in enumerate(box.contents):
        yield from _contents(box, place, content)
    ring = Marked(max(short, Decimal("0.1")), "ring")
    if short > 0 and _can_be(ring):
        yield (
            "marked_ring",
            f"add a ring or cover marked with at least {short} cubic inches",
            "marked-part",
            replace(box, parts=(*box.parts, ring)),
        )
    yield from _extension_ring(box)
    yield from _bigger_box(box)


def _canadian_ways(box: Box, sheet: Worksheet) -> Iterator[_Way]:
    """What gains room by Rule 12-3034: less in the box, or a box marked with more."""
    for place, content in enumerate(box.contents):
        for kind, what, _, changed in _contents(box, place, content):
            if kind in _CANADIAN:
                yield kind, what, _CANADIAN[kind], changed
    if sheet.capacity is not None and sheet.high > sheet.capacity:
        larger = Marked(marked_in3(sheet.high), cm3=sheet.high)
        if _can_be(larger):
            what = f"use a box marked with at least {sheet.high} millilitres"
            kept = tuple(part for part in box.parts if isinstance(part, Barrier | ClampAssembly))
            yield "marked_box", what, "ca-marked", replace(box, parts=(larger, *kept))


_CANADIAN: dict[AdviceKind, str] = {
    "move_device": "ca-straps",
    "move_cable": "ca-conductors",
    "move_splice": "ca-conductors",
}
"""Ways that gain room in Canada too, and the rule each goes by there."""


def _can_be(ring: Marked) -> bool:
    """False where no ring is made that large."""
    try:
        validate_part(ring)
    except RulesError:
        return False
    return True


def _clamps(box: Box) -> Iterator[_Way]:
    outside = replace(box, clamps="outside")
    if box.clamps == "inside":
        what = "use a connector that clamps outside the box"
        yield "clamp_outside", what, "clamps-outside", outside
    elif box.clamps == "unknown":
        what = "see whether the clamps are outside the box"
        yield "check_clamps", what, "clamps-outside", outside
    elif box.clamps == "moulded":
        what = "ask the inspector whether the moulded tabs count"
        yield "check_clamps", what, "clamps-moulded", replace(box, clamps="none")


def _contents(box: Box, place: int, content: Content) -> Iterator[_Way]:
    if isinstance(content, Yoke):
        what = f"move {counted(1, content.name)} to another box"
        yield "move_device", what, "yokes-twice", _fewer(box, place, content, 1)
    elif isinstance(content, Cable) and content.path == "ends":
        name = f"{content.awg}-{content.conductors} cable"
        what = f"move {counted(1, name)} and its splices to another box"
        yield "move_cable", what, "conductors-end", _fewer(box, place, content, 1)
    elif isinstance(content, Conductors) and content.path == "ends" and content.count > 1:
        what = f"move a splice of {counted(2, f'{content.awg} AWG conductor')} to another box"
        yield "move_splice", what, "conductors-end", _fewer(box, place, content, 2)
    elif isinstance(content, FixtureWires) and not content.canopy:
        what = "see whether the fixture wires come from a domed canopy and end in this box"
        swapped = _swap(box, place, replace(content, canopy=True))
        yield "check_canopy", what, "canopy-wires", swapped


def _fewer(box: Box, place: int, content: Yoke | Cable | Conductors, by: int) -> Box:
    if content.count <= by:
        return _swap(box, place, None)
    return _swap(box, place, replace(content, count=content.count - by))


def _swap(box: Box, place: int, content: Content | None) -> Box:
    kept = () if content is None else (content,)
    return replace(box, contents=box.contents[:place] + kept + box.contents[place + 1 :])


def _extension_ring(box: Box) -> Iterator[_Way]:
    """A ring made from a listed box of the same outline, the shallowest that is enough."""
    bases = [part for part in box.parts if isinstance(part, TableBox) and is_box(part)]
    if not bases or table_row(bases[0].row).gangs:
        return
    base = table_row(bases[0].row)
    same = [r for r in table_boxes() if (r.family, r.width) == (base.family, base.width)]
    rows = [row for row in same if row.depth >= Decimal("1.5")]
    for row in rows:
        ring = TableBox(row.id, label="extension ring")
        changed = replace(box, parts=(*box.parts, ring))
        sheet = work_out(changed)
        if row is rows[-1] or (sheet.capacity is not None and sheet.capacity >= sheet.high):
            what = f"add an extension ring like a {row.name}"
            yield "extension_ring", what, "table-ring", changed
            return


def _bigger_box(box: Box) -> Iterator[_Way]:
    for choice in smallest_boxes(box)[:1]:
        gangs = f" of {counted(choice.gangs, 'gang')}" if choice.gangs > 1 else ""
        what = f"use a {choice.row.name}{gangs}, {choice.volume} cubic inches"
        barriers = tuple(p for p in box.parts if isinstance(p, Barrier | ClampAssembly))
        yield "bigger_box", what, choice.row.id, replace(box, parts=(choice.part, *barriers))
