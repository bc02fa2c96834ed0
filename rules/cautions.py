"""Cautions that come with what was described: short, with a section, and never a verdict."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Any

from boxaloud.rules.checks import stands_on_a_box
from boxaloud.rules.contents import (
    Barrier,
    Box,
    Cable,
    FixtureWires,
    Grounds,
    Marked,
    Measured,
    TableBox,
    Uncounted,
    Unmarked,
    Yoke,
)
from boxaloud.rules.data import RuleNote, note, table
from boxaloud.rules.editions import CANADIAN, editions, provisional, rule_set
from boxaloud.rules.notes import explain
from boxaloud.rules.sizes import volumes
from boxaloud.rules.table import table_row
from boxaloud.rules.work import work_out
from boxaloud.rules.worksheet import Mark, Worksheet

_CM = Decimal("2.54")
_QUARTER_INCH = _CM / 4


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
    """Depths of the boxes of known depth that it is made of, inches."""
    tabled = [table_row(part.row).depth for part in box.parts if isinstance(part, TableBox)]
    return tabled + [part.depth for part in box.parts if isinstance(part, Measured)]


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
    unsaid = [yoke for yoke in _yokes(box) if yoke.depth is None]
    words = [word for yoke in unsaid for word in row["deep_devices"] if word in _low(yoke)]
    shallow = bool(_depths(box)) and sum(_depths(box)) <= Decimal(row["depth"])
    return shallow and (bool(words) or "deep device" in box.tags)


def _shallow_for_wire(box: Box, _: Worksheet) -> bool:
    """A device on 12 or 10 AWG in less than 1-3/16 inches."""
    least = Decimal(table("cautions")["depth-wire"]["depth"])
    landed = any(yoke.awg in (12, 10) for yoke in _yokes(box))
    return landed and bool(_depths(box)) and sum(_depths(box)) < least


def _too_deep(box: Box, _: Worksheet) -> bool:
    """A device whose depth was said, with less than a quarter inch behind it."""
    least: Mapping[str, str] = table("cautions")["depth-measured"]["least"]
    room = sum(_depths(box))
    for yoke in _yokes(box):
        over = Decimal(least.get(str(yoke.awg), least["other"]))
        depth = yoke.depth
        if room and depth is not None and depth > over and depth + _QUARTER_INCH > room * _CM:
            return True
    return False


def _hangs_more(key: str, tag: str) -> Callable[[Box, Worksheet], bool]:
    """Whether what hangs from the box is heavier than a row says."""

    def heavier(box: Box, _: Worksheet) -> bool:
        over = Decimal(table("cautions")[key]["over"])
        return tag in box.tags and box.hangs is not None and box.hangs > over

    return heavier


def _fan_marked(box: Box, sheet: Worksheet) -> bool:
    heavy = _hangs_more("fan-heavy", "fan")(box, sheet)
    return not heavy and _hangs_more("fan-marked", "fan")(box, sheet)


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


def _over_by_rounding(_: Box, sheet: Worksheet) -> bool:
    """Over by less than the millilitres of Table 22 are rounded."""
    if sheet.capacity is None or sheet.margin is None:
        return False
    within = Decimal(table("cautions")["canada-rounding"]["within"]) * sheet.capacity
    return -within <= sheet.margin < 0


def _canada_from_memory(_: Box, sheet: Worksheet) -> bool:
    """Some conductor is counted at a row of Table 22 that nothing published gives."""
    return any(
        line.awg is not None and explain(f"ca-allowance-{line.awg}").mark == "from memory"
        for line in sheet.lines
        if line.subtotal
    )


_WHEN: dict[str, Callable[[Box, Worksheet], bool]] = {
    "measured-inside": lambda box, sheet: any(isinstance(p, Measured) for p in box.parts),
    "low-voltage": lambda box, sheet: (
        "low voltage" in box.tags
        or any(isinstance(c, Uncounted) and c.kind.startswith("low-volt") for c in box.contents)
    ),
    "barrier-spaces": lambda box, sheet: (
        "divided" not in box.tags and any(isinstance(part, Barrier) for part in box.parts)
    ),
    "moulded-disputed": lambda box, sheet: box.clamps == "moulded",
    "rests-on-memory": _from_memory,
    "full-box": _full,
    "canopy-splices": lambda box, sheet: "canopy splice" in box.tags,
    "fan-support": lambda box, sheet: "fan" in box.tags,
    "fan-heavy": _hangs_more("fan-heavy", "fan"),
    "fan-marked": _fan_marked,
    "luminaire-heavy": _hangs_more("luminaire-heavy", "luminaire"),
    "habitable-room": lambda box, sheet: "luminaire" in box.tags and "wall" not in box.tags,
    "depth-measured": _too_deep,
    "depth-wire": _shallow_for_wire,
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
    "canada-from-memory": _canada_from_memory,
    "canada-rounding": _over_by_rounding,
    "canada-depth": lambda box, sheet: any(yoke.depth is None for yoke in _yokes(box)),
    "canada-bonding": lambda box, sheet: any(
        isinstance(c, Grounds) and not c.isolated for c in box.contents
    ),
    "grounds-bonded": lambda box, sheet: _is_metal(box) and _has_grounds(sheet),
}


def cautions(box: Box, worked_out: Worksheet | None = None) -> tuple[Caution, ...]:
    """The cautions that what was described calls for, those about the number first.

    `worked_out` is the worksheet of just this box, where the caller has it.

    Tags looked at: `fan`, `luminaire`, `wall`, `canopy splice`, `pancake`, `deep device`,
    `low voltage`. The standing
    ones are in `STANDING`. Raises RulesError for a box that cannot be.
    """
    sheet = work_out(box) if worked_out is None else worked_out
    said = provisional(box.edition)
    first = () if said is None else (Caution(said.rule, said.says, said.section, said.mark, said),)
    return first + tuple(_caution(key) for key in _held(box.edition) if _WHEN[key](box, sheet))


@cache
def _held(edition: str) -> tuple[str, ...]:
    """The cautions that stand in an edition."""
    rows = table("cautions")
    return tuple(key for key in _WHEN if _of_this_code(rows[key], edition))


def _of_this_code(row: Mapping[str, Any], edition: str) -> bool:
    """Whether a caution stands in the code and the edition that the box is counted under."""
    first, last = row["editions"]
    if CANADIAN in (first, edition):
        return bool(first == edition)
    known = editions()
    at = rule_set(edition).follows or edition
    return known.index(first) <= known.index(at) <= known.index(last)
