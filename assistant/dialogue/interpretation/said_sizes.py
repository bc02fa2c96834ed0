"""The size that was said once for all wires: "all number twelve", and then "six wires"."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.belief import held_acts
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act

#: "Only number tens", "all #14": conductors, of which it is open how many there are.
_ALL_OF = re.compile(r"(?i)\b(?:only|just|all|nothing but|everything)\b[^.;]*$")
_AND_NO_OTHER = re.compile(r"(?i),? only\b")


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


def open_count(turn: Turn, act: acts.Size, awg: int) -> Act | None:
    """The conductors of an empty box that are said to be of one size, and not how many."""
    state = turn.state
    before, behind = turn.heard[: act.span[1]], turn.heard[act.span[1] :]
    said = _ALL_OF.search(before) or _AND_NO_OTHER.match(behind)
    if state.items or state.pending or turn.supposed or not said:
        return None
    doubt = acts.Doubt("count", "vague")
    made = acts.AddConductors(awg=awg, words=act.words, span=act.span)
    return replace(made, doubts=(*act.doubts, doubt))
