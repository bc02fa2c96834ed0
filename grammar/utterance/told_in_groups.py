"""Devices told in groups with the wires of one size that are each one's own: "12-2 in and out to
the GFCI, 14-2 in and out to the switch". A device goes by the largest conductor landed on it,
314.16(B)(4)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TypeAlias, TypeGuard

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

Wires: TypeAlias = acts.AddCable | acts.AddConductors
#: What joins a device and wires, so that the wires are the device's own.
_JOINED = lazy_pattern(
    r"(?i)\s*(?:(?:and|with|plus|to|on|onto|into|for|at|feeding|dead-?ending|ending|ends|landing"
    r"|lands|land|tied|wired|hooked|going|straight)\s+)*(?:(?:an?|the|one|my)\s+)?"
)
_COMMA = lazy_pattern(r"[,;]")
_STOP = lazy_pattern(r"[.;!?\n](?!\d)")
_FAR, _NEAR, _CLOSE = 2, 1, 0
"""How far two things stand apart: a sentence, a comma, a word or none."""


def told_in_groups(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts with each device on the size of the wires that it is told with, where every device
    of what was said has wires of its own and the sizes differ."""
    told = [place for place, act in enumerate(made) if _is_wires(act) or _is_device(act)]
    groups = _groups([made[place] for place in told], heard)
    if groups is None:
        return made
    kept = list(made)
    for place, awg in zip(told, groups, strict=True):
        act = kept[place]
        if isinstance(act, acts.AddDevice) and act.awg is None:
            kept[place] = replace(act, awg=awg)
    return kept


def _groups(told: Sequence[Act], heard: str) -> list[int] | None:
    """The size of each thing's group; None where they are not told in groups of their own."""
    if len(told) < len("CDCD"):
        return None
    first = _is_wires(told[0])
    cut = [
        place
        for place in range(1, len(told))
        if _is_wires(told[place]) == first and _is_wires(told[place - 1]) != first
    ]
    if not cut or _is_wires(told[-1]) == first:
        return None
    sizes: list[int] = []
    groups = [told[start:end] for start, end in zip([0, *cut], [*cut, len(told)], strict=True)]
    for group in groups:
        found = {act.awg for act in group if act.awg is not None}  # type: ignore[attr-defined]
        if len(found) != 1 or not _is_joined(group, heard):
            return None
        sizes += [*found] * len(group)
    within = max(_apart(group, heard) for group in groups)
    between = min(_distance(before[-1], after[0], heard) for before, after in pairwise(groups))
    return sizes if between > within and len(set(sizes)) > 1 else None


def _is_joined(group: Sequence[Act], heard: str) -> bool:
    """Whether the device and the wires of a group stand together with nothing else between."""
    place = next(
        place for place in range(1, len(group)) if _is_wires(group[place]) != _is_wires(group[0])
    )
    between = heard[group[place - 1].span[1] : group[place].span[0]]
    return _JOINED.fullmatch(between.lstrip(",")) is not None


def _apart(group: Sequence[Act], heard: str) -> int:
    return max(_distance(before, after, heard) for before, after in pairwise(group))


def _distance(before: Act, after: Act, heard: str) -> int:
    between = heard[before.span[1] : after.span[0]]
    if _STOP.search(between):
        return _FAR
    return _NEAR if _COMMA.search(between) else _CLOSE


def _is_wires(act: Act) -> TypeGuard[Wires]:
    return isinstance(act, acts.AddCable | acts.AddConductors) and act.awg is not None


def _is_device(act: Act) -> TypeGuard[acts.AddDevice]:
    return isinstance(act, acts.AddDevice)
