"""The size of cables that were counted before it was said: "three cables", "they are 12-2"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act


def sized(turn: Turn, act: Act) -> Act:
    """The cables whose size is asked, where an act says it; any other act as it is.

    A cable said with a count of its own is left as it was said.
    """
    thing = act.thing if isinstance(act, (acts.Restate, acts.Replace)) else act
    if not isinstance(thing, acts.AddCable) or thing.awg is None or not _tells_size(act, thing):
        return act
    for pending in turn.held_before:
        held = pending.act
        if (
            pending in turn.state.pending
            and pending.reason == "unsized"
            and isinstance(held, acts.AddCable)
        ):
            doubts = tuple(doubt for doubt in thing.doubts if doubt.slot != "count")
            return replace(thing, count=held.count, words=act.words, span=act.span, doubts=doubts)
    return act


def _tells_size(act: Act, thing: acts.AddCable) -> bool:
    """Whether it says of what size they are, and not how many more there are."""
    low = act.words.lower()
    if isinstance(act, acts.Replace) and act.target.which not in ("both", "all"):
        return False
    return thing.count is None or (thing.count == 2 and low.startswith("both "))
