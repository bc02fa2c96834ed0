"""A thing that is told of: one more of it, the size of one that is there, or how many there are."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.tracker import added_items, counts, device_landing
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import AddCable, AddDevice, Thing


def mention(turn: Turn, thing: Thing) -> None:
    """Enter a thing, unless the words are of one that the box holds already."""
    if isinstance(thing, AddCable) and thing.awg is None:
        counts.unsized_cables(turn, thing)
        return
    if isinstance(thing, AddDevice) and thing.count is None and thing.awg is not None:
        known = references.find(turn.state, references.to_thing(replace(thing, awg=None)))
        if known is not None and getattr(known.content, "awg", 0) is None:
            device_landing.land_item(turn, known, thing.awg, None, thing.words)
            return
    added_items.enter(turn, thing)
