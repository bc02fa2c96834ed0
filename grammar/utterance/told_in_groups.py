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
Told: TypeAlias = acts.AddCable | acts.AddConductors | acts.AddDevice
#: What joins a device and wires, so that the wires are the device's own.
_JOINED = lazy_pattern(
    r"(?i)\s*(?:(?:and|with|plus|to|on|onto|into|for|at|feeding|dead-?ending|ending|ends|landing"
    r"|lands|land|tied|wired|hooked|going|straight)\s+)*(?:(?:an?|the|one|my)\s+)?"
)
_LEADS_TO = lazy_pattern(r"(?i)\b(?:with|to|on|onto|into|for|at|feeding)\s")
_COMMA = lazy_pattern(r"[,;]")
_STOP = lazy_pattern(r"[.;!?\n](?!\d)")
_AND = lazy_pattern(r"(?i)\b(?:and|plus)\s")
_SEVERAL = 2
_FAR, _NEAR, _NEXT, _JOINED_BY, _TIED = 4, 3, 2, 1, 0
"""How far two things stand apart: a sentence, a comma, nothing, an "and", a word that ties them."""


def told_in_groups(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts with each device on the size of the wires that it is told with, where every device
    of what was said has wires of its own and the sizes differ."""
    told = [act for act in made if _is_told(act)]
    groups = _groups(told)
    if len(groups) < _SEVERAL:
        return made
    sizes = [_size(group, heard) for group in groups]
    if None in sizes or len(set(sizes)) == 1:
        return made
    within = max(_distance(*pair, heard) for group in groups for pair in pairwise(group))
    between = min(_distance(one[-1], other[0], heard) for one, other in pairwise(groups))
    if between <= within:
        return made
    landed: dict[int, Act] = {}
    for group, awg in zip(groups, sizes, strict=True):
        for act in group:
            if isinstance(act, acts.AddDevice) and act.awg is None:
                landed[id(act)] = replace(act, awg=awg)
    return [landed.get(id(act), act) for act in made]


def size_told_with(made: Sequence[Act], heard: str) -> int | None:
    """The size of the wires of an utterance that tells of one group alone: "and two 14-2s with a
    switch". None where it tells of more, or of wires of several sizes."""
    told = [act for act in made if _is_told(act)]
    groups = _groups(told)
    if len(groups) != 1 or any(_distance(*pair, heard) == _FAR for pair in pairwise(told)):
        return None
    return _size(groups[0], heard)


def _groups(told: Sequence[Told]) -> list[list[Told]]:
    """What is told, cut into wires and their devices, or devices and their wires, whichever comes
    first; none where something is left over."""
    if not told:
        return []
    first = _is_wires(told[0])
    groups: list[list[Told]] = []
    for before, act in pairwise([told[-1], *told]):
        if not groups or (_is_wires(act) == first and _is_wires(before) != first):
            groups.append([])
        groups[-1].append(act)
    if first and len(groups) > 1 and _is_wires(groups[-1][-1]):
        groups.pop()  # wires behind the last device, which land on none
    whole = all(_is_wires(group[-1]) != first for group in groups)
    return groups if whole else []


def _size(group: Sequence[Told], heard: str) -> int | None:
    """The one size of a group; None where it has several, or where something else stands between
    its devices and its wires."""
    found = {act.awg for act in group if act.awg is not None}
    before, after = next(
        pair for pair in pairwise(group) if _is_wires(pair[0]) != _is_wires(pair[1])
    )
    between = heard[before.span[1] : after.span[0]].lstrip(",")
    return found.pop() if len(found) == 1 and _JOINED.fullmatch(between) else None


def _distance(before: Act, after: Act, heard: str) -> int:
    between = heard[before.span[1] : after.span[0]]
    if _STOP.search(between):
        return _FAR
    if _COMMA.search(between):
        return _NEAR
    if _LEADS_TO.search(between):
        return _TIED
    return _JOINED_BY if _AND.search(between) else _NEXT


def _is_wires(act: Act) -> TypeGuard[Wires]:
    return isinstance(act, acts.AddCable | acts.AddConductors)


def _is_told(act: Act) -> TypeGuard[Told]:
    return isinstance(act, acts.AddDevice) or (_is_wires(act) and act.awg is not None)
