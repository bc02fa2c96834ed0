"""Cautions that come with what was described: short, with a section, and never a verdict."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from boxaloud.rules.checks import stands_on_a_box
from boxaloud.rules.contents import (
    Barrier,
    Box,
    Cable,
    FixtureWires,
    Marked,
    TableBox,
    Unmarked,
    Yoke,
)
from boxaloud.rules.data import RuleNote, note, table
from boxaloud.rules.notes import explain
from boxaloud.rules.sizes import volumes
from boxaloud.rules.table import table_row
from boxaloud.rules.work import work_out
from boxaloud.rules.worksheet import Mark, Worksheet


@dataclass(frozen=True, slots=True)
class Caution:
    """A sentence to say beside a verdict."""

    id: str
    says: str
    section: str
    mark: Mark
    note: RuleNote


def _caution(key: str) -> Caution:
    row = table("cautions")[key]
    return Caution(key, row["says"], row["section"], row["mark"], note(key, row))


STANDING: tuple[Caution, ...] = tuple(
    _caution(key) for key, row in table("cautions").items() if row.get("standing")
)
"""What goes with every verdict: power off and test, the adopted edition, who decides."""


def _depths(box: Box) -> list[Decimal]:
    """Depths of the standard boxes it is made of, inches."""
    return [table_row(part.row).depth for part in box.parts if isinstance(part, TableBox)]


def _yokes(box: Box) -> list[Yoke]:
    return [content for content in box.contents if isinstance(content, Yoke)]


def _has_grounds(sheet: Worksheet) -> bool:
    return any(line.item in ("grounds", "isolated_grounds") for line in sheet.lines)


def _is_metal(box: Box) -> bool:
    return box.nonmetallic is False or any(isinstance(part, TableBox) for part in box.parts)


def _shallow_for_large(box: Box, _: Worksheet) -> bool:
    least = Decimal(table("cautions")["depth-large"]["depth"])
    large = any(yoke.awg is not None and yoke.awg <= 8 for yoke in _yokes(box))
    return large and sum(_depths(box)) < least and bool(_depths(box))


def _deep_device(box: Box, _: Worksheet) -> bool:
    row = table("cautions")["depth-device"]
    words = [word for yoke in _yokes(box) for word in row["deep_devices"] if word in _low(yoke)]
    shallow = bool(_depths(box)) and sum(_depths(box)) < Decimal(row["depth"])
    return shallow and (bool(words) or "deep device" in box.tags)


def _low(yoke: Yoke) -> str:
    return yoke.name.lower()


def _full(_: Box, sheet: Worksheet) -> bool:
    """Fits, with less left than the smallest allowance there is."""
    return (
        sheet.verdict == "fits"
        and sheet.capacity is not None
        and sheet.capacity - sheet.high < min(volumes().values())
    )


def _rings(box: Box, _: Worksheet) -> bool:
    on_a_box = (Marked, TableBox, Unmarked)
    return any(isinstance(part, on_a_box) and stands_on_a_box(part.label) for part in box.parts)


def _loops(_: Box, sheet: Worksheet) -> bool:
    return any(line.rule == "loops-twice" for line in sheet.lines)


def _pancake(box: Box, _: Worksheet) -> bool:
    boxes = [part for part in box.parts if isinstance(part, Marked)]
    return "pancake" in box.tags or (
        not _yokes(box) and any(part.volume <= 6 and part.label == "box" for part in boxes)
    )


def _from_memory(_: Box, sheet: Worksheet) -> bool:
    counted = [line.rule for line in sheet.lines if line.subtotal]
    rules = [*counted, *(line.rule for line in sheet.volumes)]
    return any(explain(rule).mark == "from memory" for rule in rules)


_WHEN: dict[str, Callable[[Box, Worksheet], bool]] = {
    "barrier-spaces": lambda box, sheet: any(isinstance(part, Barrier) for part in box.parts),
    "moulded-disputed": lambda box, sheet: box.clamps == "moulded",
    "rests-on-memory": _from_memory,
    "full-box": _full,
    "canopy-splices": lambda box, sheet: "canopy splice" in box.tags,
    "fan-support": lambda box, sheet: "fan" in box.tags,
    "luminaire-weight": lambda box, sheet: (
        "luminaire" in box.tags or any(isinstance(c, FixtureWires) for c in box.contents)
    ),
    "depth-device": _deep_device,
    "depth-large": _shallow_for_large,
    "depth-none": _pancake,
    "free-length": _rings,
    "loop-length": _loops,
    "cable-securing": lambda box, sheet: (
        box.nonmetallic is True and any(isinstance(c, Cable) for c in box.contents)
    ),
    "grounds-bonded": lambda box, sheet: _is_metal(box) and _has_grounds(sheet),
}


def cautions(box: Box) -> tuple[Caution, ...]:
    """The cautions that what was described calls for, those about the number first.

    Tags looked at: `fan`, `luminaire`, `canopy splice`, `pancake`, `deep device`. The standing
    ones are in `STANDING`. Raises RulesError for a box that cannot be.
    """
    sheet = work_out(box)
    return tuple(_caution(key) for key, holds in _WHEN.items() if holds(box, sheet))
