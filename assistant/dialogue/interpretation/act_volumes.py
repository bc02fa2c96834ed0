"""The volume that an act tells of, in cubic inches, whatever unit it was said in."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal

from boxaloud.grammar.acts import AddBarrier, AddClampAssembly, AddPart, SetVolume
from boxaloud.rules import marked_in3, table_row
from boxaloud.rules.contents import Marked, Part, TableBox

METRIC = frozenset({"cm3", "liter"})
"""Units of a volume that are turned into cubic inches."""


def volume_of(act: SetVolume | AddPart | AddBarrier | AddClampAssembly) -> Decimal:
    """The volume of an act in cubic inches, that of all gangs where each was said."""
    value = Decimal(0) if act.volume is None else act.volume
    if act.unit == "liter":
        value *= 1000
    value = marked_in3(value) if act.unit in METRIC else value
    if isinstance(act, SetVolume) and act.each:
        value *= act.gangs or 1
    return value


def metric_of(act: SetVolume | AddPart) -> Decimal | None:
    """The cubic centimetres of a metric mark, that of all gangs where each was said; else None."""
    if act.unit not in METRIC or act.volume is None:
        return None
    value = act.volume * 1000 if act.unit == "liter" else act.volume
    gangs = act.gangs or 1
    return value * gangs if isinstance(act, SetVolume) and act.each else value


_IN_ALL = re.compile(
    r"(?i)\b(?:in all|all told|altogether|total|together|combined|mak(?:es?|ing)|com(?:es?|ing) to"
    r"|adds? up|gives?|giving|so)\b"
)


def said_in_all(act: SetVolume, box: Sequence[Part], extras: Sequence[Part], heard: str) -> bool:
    """ "A ring marked 3.5, which makes 24.5 in all": what the box and its parts come to, and no
    other box."""
    return _IN_ALL.search(heard) is not None and come_to(box, extras) == volume_of(act)


def come_to(box: Sequence[Part], extras: Sequence[Part]) -> Decimal | None:
    """What a box and the parts on it come to; None without parts, or where one has no volume."""
    sizes = [_size(part) for part in (*box, *extras)]
    known = [size for size in sizes if size is not None]
    return sum(known, Decimal(0)) if box and extras and len(known) == len(sizes) else None


def is_whole(act: SetVolume, extras: Sequence[Part], heard: str) -> bool:
    """Whether a volume is told as that of a box together with what stands on it: "a ring marked 4,
    which makes 26 in all"."""
    start = heard.find(act.words)
    if not extras or start < 0:
        return False
    return bool(_MAKES.search(heard[:start]) and _ALTOGETHER.match(heard[start + len(act.words) :]))


_MAKES = re.compile(r"(?i)\b(?:mak(?:es?|ing)|com(?:es?|ing) to|for|is|gives?|giving|so)[ ,:]*$")
_ALTOGETHER = re.compile(r"(?i)[ ,]*(?:in all|all told|altogether|total|together|combined)\b")


def _size(part: Part) -> Decimal | None:
    if isinstance(part, TableBox):
        return table_row(part.row).volume * part.gangs
    return part.volume if isinstance(part, Marked) else None
