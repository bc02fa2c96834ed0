"""Devices told with wires of their own, in a box that has others: "and two 14-2s with a switch"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import listed, say
from boxaloud.assistant.dialogue.state import sizes_present
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import Act
from boxaloud.grammar.utterance.told_in_groups import size_told_with
from boxaloud.rules.contents import Yoke


def landed_beside(turn: Turn, told: Sequence[Act]) -> None:
    """Devices that came in one breath with wires of one size, while the box has other sizes: they
    land on those (314.16(B)(4)), said to be assumed. Where that would turn the verdict it is asked
    instead."""
    sizes = sizes_present(turn.state)
    awg = size_told_with(told, turn.heard)
    if awg not in sizes or len(sizes) == 1:
        return
    there = {item.key for item in turn.base.items}
    landed, devices = turn.state, []
    for item in turn.state.items:
        content = item.content
        if item.key not in there and isinstance(content, Yoke) and content.awg is None:
            landed = landed.with_content(item.key, replace(content, awg=awg))
            devices.append(item)
    if devices and assess(landed).verdict == assess(turn.state).verdict:
        turn.state = landed
        what = listed([item_names.bare(item.content) for item in devices])
        turn.echoes.append(say("echo.told_with", what=what, awg=awg))
