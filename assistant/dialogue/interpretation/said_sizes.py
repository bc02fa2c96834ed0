"""The size that was said once for all wires: "all number twelve", and then "six wires"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.belief import held_acts
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts


def of_all(turn: Turn, act: acts.AddConductors) -> acts.AddConductors:
    """Wires without a size, with the one that was said for all of them, whose number is then
    open no longer; as they are where none was said."""
    for waiting in turn.state.pending:
        held = waiting.act
        if not isinstance(held, acts.AddConductors) or held.count is not None or not held.awg:
            continue
        if waiting.reason == "vague":
            held_acts.drop(turn, waiting)
            doubts = tuple(doubt for doubt in act.doubts if doubt.slot != "awg")
            return replace(act, awg=held.awg, doubts=doubts)
    return act
