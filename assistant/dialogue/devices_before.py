"""Devices told while all wires of the box were of one size, once a smaller size is told of."""

from __future__ import annotations

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import listed, say
from boxaloud.assistant.dialogue.state import State, sizes_present
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.rules.contents import Cable, Conductors, Yoke

_SLOT = "device_size"


def left_on_their_wires(turn: Turn) -> None:
    """ "Two 12-2s … a receptacle … and a 14-2": the receptacle was on the 12s, and that is the
    worst case as well (314.16(B)(4) counts by the largest conductor landed), so that it stays on
    them, said to be assumed. Where its size would turn the verdict it is asked instead; and a
    larger size than any before makes every such assumption an open question again."""
    before, now = sizes_present(turn.base), sizes_present(turn.state)
    if before and now and now[0] < before[0]:
        kept = frozenset(one for one in turn.state.assumed if not one.startswith(f"{_SLOT} "))
        if kept != turn.state.assumed:
            turn.state = altered(turn.state, assumed=kept)
    if len(before) != 1 or len(now) < 2 or before[0] != now[0]:
        return
    there = {item.key for item in turn.base.items}
    wires = [item.key for item in turn.base.items if isinstance(item.content, Cable | Conductors)]
    devices = [
        item
        for item in turn.state.items
        if item.key in there
        and isinstance(item.content, Yoke)
        and item.content.awg is None
        and min(wires) < item.key  # told of before its wires it may be on any
        and not turn.state.takes_worst(_SLOT, item.key)
    ]
    assumed = turn.state.assumed.union(f"{_SLOT} {item.key}" for item in devices)
    staying = altered(turn.state, assumed=assumed)
    if devices and _verdict(staying) == _verdict(turn.state):
        turn.state = staying
        what = listed([item_names.bare(item.content) for item in devices])
        turn.echoes.append(say("echo.still_on", what=what, awg=now[0]))


def _verdict(state: State) -> str:
    return assess(state).verdict
