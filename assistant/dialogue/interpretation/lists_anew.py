"""Lists of cables and devices that stand in place of what was said, by what there is already.

"Two 14-2s and a 14-3", of three 14-2s: as many in all, so one of them was the 14-3. "Three 14-2s,
a 14-3 and two switches, that's the lot", of two 14-2s, a 14-3 and a switch: all that there is.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias, TypeGuard

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, AddCable, AddDevice
from boxaloud.rules.contents import Cable, Yoke

_Listed: TypeAlias = AddCable | AddDevice

_ON_TOP = re.compile(
    r"(?i)\b(?:more|another|extra|additional|other|also|plus|add(?:ed|ing)?|second|third)\b|^\W*and\b"
)
_ALL_THERE_IS = re.compile(
    r"(?i)\b(?:that'?s|that is|and that'?s|is) (?:the (?:lot|whole (?:lot|thing|list))"
    r"|all of (?:it|them)|everything|all|it|the list"
    r"|what'?s (?:in )?there|all there is)(?:,? please)?\W*$"
    r"|\b(?:is|are) (?:all )?(?:that'?s|what'?s|what is|what i['’]?ve|what we['’]?ve|what i"
    r"|all i['’]?ve) (?:(?:really|actually|truly) )?(?:in (?:there|here|it|this (?:box|one))|there"
    r"|here|got|have|see|count)(?: (?:in (?:there|here|it)|right now|now))*\W*$"
    r"|\b(?:in total|total|all told|altogether|in all)(?:,? please)?\W*$"
)


def restated(turn: Turn, told: Sequence[Act]) -> Sequence[Act]:
    """The acts, where the list that they give is of what there is already."""
    listed = [act for act in told if plain(act)]
    if len(listed) < 2 or not turn.state.items or _ON_TOP.search(turn.heard):
        return told
    cables = [act for act in listed if isinstance(act, AddCable)]
    if _ALL_THERE_IS.search(turn.heard) and _names_all(turn.state, listed):
        return [in_place(act) if plain(act) else act for act in told]
    if len(cables) > 1 and (anew := _parts_of(turn.state, cables)):
        return [in_place(act) if plain(act) and act in anew else act for act in told]
    return told


def plain(act: Act) -> TypeGuard[_Listed]:
    """A counted cable or device that is named so exactly that one line can be meant."""
    if act.function != "inform" or act.doubts or getattr(act, "count", None) is None:
        return False
    if isinstance(act, AddCable):
        return act.awg is not None and act.conductors is not None and act.path is None
    return isinstance(act, AddDevice) and act.name not in (None, "device")


def line_of(state: State, act: _Listed) -> Item | None:
    """The only line of the box that a thing named can be."""
    like = references.to_thing(act)
    found = [
        item
        for item in state.items
        if references.agrees(item, like) and isinstance(item.content, Cable | Yoke)
    ]
    return found[0] if len(found) == 1 else None


def _names_all(state: State, listed: Sequence[_Listed]) -> bool:
    """Whether every cable and device of the box, or every cable where cables alone are listed, and
    two lines at least, are in the list."""
    devices = any(isinstance(act, AddDevice) for act in listed)
    kinds = (Cable, Yoke) if devices else (Cable,)
    there = {item.key for item in state.items if isinstance(item.content, kinds)}
    named = {line.key for act in listed if (line := line_of(state, act)) is not None}
    return len(there) > 1 and there == named


def _parts_of(state: State, cables: Sequence[AddCable]) -> list[AddCable]:
    """The cables listed that are there in greater number, where all that are listed are as many
    as those; the others are what some of them are."""
    lines = {act: line for act in cables if (line := line_of(state, act)) is not None}
    fewer = [act for act, line in lines.items() if (act.count or 0) < line.content.count]
    counted = sum(act.count or 0 for act in cables)
    there = sum(line.content.count for line in lines.values())
    if not fewer or len(lines) == len(cables) or counted != there:
        return []
    return list(lines)


def in_place(act: _Listed | acts.AddConductors) -> Act:
    """The act as one that puts right how many of those there are."""
    like = replace(references.to_thing(act), count=None)
    return acts.Restate(
        thing=act, instead_of=like, words=act.words, span=act.span, function="correction"
    )
