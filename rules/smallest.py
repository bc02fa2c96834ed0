"""The standard boxes that would hold what is in a box, smallest first."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from decimal import Decimal

from boxaloud.rules.capacity import capacity, volume_lines
from boxaloud.rules.contents import Barrier, Box, ClampAssembly, Part, TableBox, Yoke
from boxaloud.rules.editions import is_canadian, rule_set
from boxaloud.rules.lines import ZERO
from boxaloud.rules.table import TableRow, family_named, table_boxes
from boxaloud.rules.work import work_out


@dataclass(frozen=True, slots=True)
class BoxChoice:
    """A standard box that fits. Cubic inches, the margin at the worst case of open answers."""

    row: TableRow
    gangs: int
    volume: Decimal
    """What it adds up to, less any barrier that was described."""
    margin: Decimal

    @property
    def part(self) -> TableBox:
        """The box as a part of a described box."""
        return TableBox(self.row.id, self.gangs)


def gangs_needed(box: Box) -> int:
    """Gangs that the devices of a box need to be mounted."""
    return sum(c.gangs * c.count for c in box.contents if isinstance(c, Yoke))


def smallest_boxes(box: Box, families: Collection[str] = ()) -> tuple[BoxChoice, ...]:
    """The rows of Table 314.16(A) that hold everything described, smallest volume first.

    The box by itself, without rings; barriers stay. Enough gangs for the devices: a square
    takes two with a ring, an octagon and a handy box one, the others one for each section
    (common practice). `families` limits the choice. Empty where nothing was described, and in
    Canada, whose Table 23 is not held.
    """
    if is_canadian(box.edition):
        return ()
    rules = rule_set(box.edition)
    fill = work_out(box)
    if any(slot.slot == "contents" for slot in fill.open):
        return ()
    wanted = {family_named(family)["id"] for family in families}
    barriers = tuple(p for p in box.parts if isinstance(p, Barrier | ClampAssembly))
    found = []
    for row, gangs in _candidates(gangs_needed(box)):
        if wanted and row.family not in wanted:
            continue
        # what is in the box takes the same room in every box: only the volume is worked out anew
        parts: tuple[Part, ...] = (TableBox(row.id, gangs), *barriers)
        volume = capacity(parts, volume_lines(rules, parts)) or ZERO
        if volume >= fill.high:
            found.append(BoxChoice(row, gangs, volume, volume - fill.high))
    return tuple(sorted(found, key=lambda choice: (choice.volume, choice.gangs)))


def _candidates(needed: int) -> Iterator[tuple[TableRow, int]]:
    for row in table_boxes():
        if not row.gangs:
            if needed <= family_named(row.family)["yoke_gangs"]:
                yield row, 1
            continue
        least = max(1, needed)
        for gangs in range(least, min(least + 1, 10) + 1):
            if not row.cover or (row.cover == "multiple") == (gangs > 1):
                yield row, gangs
