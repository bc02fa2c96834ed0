"""The volume that an act tells of, in cubic inches, whatever unit it was said in."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.grammar.acts import AddBarrier, AddClampAssembly, AddPart, SetVolume
from boxaloud.rules import marked_in3

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
