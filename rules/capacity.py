"""The volume of a box, 314.16(A): its sections, what is marked on it, its barriers."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.rules.checks import stands_on_a_box, validate_part
from boxaloud.rules.contents import (
    Barrier,
    Box,
    ClampAssembly,
    Marked,
    Measured,
    Part,
    TableBox,
    Unmarked,
)
from boxaloud.rules.editions import RuleSet
from boxaloud.rules.lines import ZERO, tidy
from boxaloud.rules.table import table_row
from boxaloud.rules.words import counted
from boxaloud.rules.worksheet import VolumeLine


def volume_lines(rules: RuleSet, parts: tuple[Part, ...]) -> tuple[VolumeLine, ...]:
    """One line a part, cubic inches; a barrier takes away. Raises RulesError for a wrong part."""
    made = []
    for part in parts:
        validate_part(part)
        if type(part) is Marked:
            made.append(_marked(rules, part))
        elif type(part) is TableBox:
            made.append(_table_box(rules, part))
        elif type(part) is Barrier:
            made.append(_barrier(rules, part))
        elif type(part) is Measured:
            made.append(_measured(rules, part))
        elif type(part) is ClampAssembly:
            made.append(_assembly(rules, part))
        elif type(part) is Unmarked:
            rule = rules.rules["unmarked_part"]
            made.append(VolumeLine(f"unmarked {part.label}", ZERO, rule.section, rule.id))
    return tuple(made)


def capacity(parts: tuple[Part, ...], volumes: tuple[VolumeLine, ...]) -> Decimal | None:
    """Cubic inches in all; None while only rings, covers and barriers are known."""
    for part in parts:
        if is_box(part):
            return sum((line.volume for line in volumes[1:]), volumes[0].volume)
    return None


def is_box(part: Part) -> bool:
    """Whether a part is the box itself, not something that stands on it or in it."""
    boxes = (Marked, TableBox, Measured)
    return isinstance(part, boxes) and not stands_on_a_box(part.label)


def must_be_marked(box: Box) -> bool:
    """True for a nonmetallic box known only by its dimensions: 314.16(A)(2) has it marked."""
    return box.nonmetallic is True and any(isinstance(part, Measured) for part in box.parts)


def _marked(rules: RuleSet, part: Marked) -> VolumeLine:
    rule = rules.rules["marked_part" if stands_on_a_box(part.label) else "marked_volume"]
    return VolumeLine(f"marked {part.label}", part.volume, rule.section, rule.id)


def _table_box(rules: RuleSet, part: TableBox) -> VolumeLine:
    row = table_row(part.row)
    volume = row.volume * part.gangs
    gangs = f", {part.gangs} gangs" if part.gangs > 1 else ""
    if stands_on_a_box(part.label):
        rule = rules.rules["table_ring"]
        return VolumeLine(f"{part.label} like a {row.name}", volume, rule.section, rule.id)
    return VolumeLine(row.name + gangs, volume, row.note.section, row.id)


def _barrier(rules: RuleSet, part: Barrier) -> VolumeLine:
    rule = rules.rules[part.material if part.volume is None else "marked"]
    taken = rule.volume
    if part.volume is not None and rule.id == "barrier-marked":
        taken = part.volume
    return VolumeLine(f"{part.material} barrier", -taken, rule.section, rule.id)


def _measured(rules: RuleSet, part: Measured) -> VolumeLine:
    rule = rules.rules["measured_volume"]
    sides = " by ".join(_plain(side) for side in (part.width, part.height, part.depth))
    return VolumeLine(f"{part.label} {sides} inside", tidy(part.volume), rule.section, rule.id)


def _plain(side: Decimal) -> str:
    text = format(side, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def _assembly(rules: RuleSet, part: ClampAssembly) -> VolumeLine:
    rule = rules.rules["clamp_assembly"]
    what = counted(part.count, "clamp assembly")
    return VolumeLine(what, -tidy(part.volume * part.count), rule.section, rule.id)
