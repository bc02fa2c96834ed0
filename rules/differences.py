"""What another edition would count otherwise, line by line."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal

from boxaloud.rules.contents import Box
from boxaloud.rules.editions import is_canadian
from boxaloud.rules.errors import RulesError
from boxaloud.rules.lines import ZERO, tidy
from boxaloud.rules.work import work_out
from boxaloud.rules.worksheet import Line, VolumeLine, Worksheet

_VOLUME = "volume"


@dataclass(frozen=True, slots=True)
class Difference:
    """An item that two editions count differently. Cubic inches."""

    item: str
    """As `Line.item`, or `volume` where the capacity differs."""
    here: Decimal
    """Subtotal under the edition of the box."""
    there: Decimal
    """Subtotal under the other edition."""
    section: str
    here_what: str
    """What the lines here count, empty where there is no line."""
    there_what: str
    rules: tuple[str, ...]
    """The rules of both editions, for `rules.explain`."""
    at_most: bool = False
    """The figures are the most that an open answer could make them."""

    @property
    def change(self) -> Decimal:
        """What the other edition adds to the subtotal; negative where it takes away."""
        return tidy(self.there - self.here)


def differences(box: Box, other_edition: str) -> tuple[Difference, ...]:
    """What changes when the same box is worked out under `other_edition`, section by section.

    Empty where both give the same lines. Raises NoSuchEdition for one not held, RulesError
    for a box that cannot be, and where one of the two is the Canadian code.
    """
    if is_canadian(box.edition) != is_canadian(other_edition):
        raise RulesError(
            "Rule 12-3034 of the Canadian code is no edition of 314.16, so the two are not set "
            "against each other line by line."
        )
    here, there = work_out(box), work_out(replace(box, edition=other_edition))
    found = [
        difference
        for item in dict.fromkeys(line.item for line in here.lines + there.lines)
        if item != "not_counted"
        and (difference := _between(item, _of(here, item), _of(there, item), here, there))
    ]
    volumes = _between(_VOLUME, here.volumes, there.volumes, here, there)
    return (*found, *_open(here, there), *([volumes] if volumes else []))


def _of(sheet: Worksheet, item: str) -> tuple[Line, ...]:
    return tuple(line for line in sheet.lines if line.item == item)


def _amount(line: Line | VolumeLine) -> Decimal:
    return line.subtotal if isinstance(line, Line) else line.volume


def _between(
    item: str,
    here: tuple[Line, ...] | tuple[VolumeLine, ...],
    there: tuple[Line, ...] | tuple[VolumeLine, ...],
    here_sheet: Worksheet,
    there_sheet: Worksheet,
) -> Difference | None:
    ours, theirs = _total(here), _total(there)
    if ours == theirs:
        return None
    changed = [line for line in (*here, *there) if not (line in here and line in there)]
    rules = [line.rule for line in changed]
    if not here or not there:
        other = there_sheet if here else here_sheet
        rules += [line.rule for line in other.lines if _same_thing(line, changed)]
    return Difference(
        item=item,
        here=ours,
        there=theirs,
        section=changed[0].section,
        here_what=", ".join(line.what for line in here if line in changed),
        there_what=", ".join(line.what for line in there if line in changed),
        rules=tuple(dict.fromkeys(rules)),
    )


def _same_thing(line: Line, changed: Iterable[Line | VolumeLine]) -> bool:
    """Whether `line` takes nothing for what the changed lines give an allowance to."""
    return line.item == "not_counted" and any(line.what == other.what for other in changed)


def _total(lines: Iterable[Line | VolumeLine]) -> Decimal:
    return tidy(sum((_amount(line) for line in lines), ZERO))


def _open(here: Worksheet, there: Worksheet) -> list[Difference]:
    """Terminal blocks of unknown size count in one edition only, so no line shows them."""
    sums = []
    for sheet in (here, there):
        slots = [slot for slot in sheet.open if slot.slot == "block_size"]
        sums.append((sum((slot.most for slot in slots), ZERO), slots))
    (ours, our_slots), (theirs, their_slots) = sums
    if ours == theirs:
        return []
    slots = our_slots or their_slots
    what = "terminal blocks of unknown size"
    return [
        Difference(
            item="terminal_blocks",
            here=ours,
            there=theirs,
            section="314.16(B)(6)",
            here_what=what if our_slots else "",
            there_what=what if their_slots else "",
            rules=(slots[0].rule,),
            at_most=True,
        )
    ]
