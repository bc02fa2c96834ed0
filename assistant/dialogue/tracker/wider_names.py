"""Devices counted by a name that holds more than they are: a three-way is a switch too."""

from __future__ import annotations

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import listed, say
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import item_changes
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Thing
from boxaloud.rules.contents import Yoke

#: What is called a switch too, by those who do not look closely.
_SWITCHES = frozenset({"dimmer", "timer", "fan control", "occupancy sensor"})


def counted(turn: Turn, thing: Thing, item: Item) -> bool:
    """ "There's just the one switch", of a three-way: how many there are, and not what it is. Where
    a dimmer is there too, which of them is meant is asked."""
    if not isinstance(thing, acts.AddDevice) or thing.awg is not None or thing.count is None:
        return False
    wider = thing.name is not None and references.called(item) != thing.name
    if not wider or thing.words.lower().startswith(("a ", "an ")):
        return False
    like = [
        one
        for one in turn.state.items
        if isinstance(one.content, Yoke)
        and (
            references.same_name(references.called(one), thing.name or "")
            or (thing.name == "switch" and references.called(one) in _SWITCHES)
        )
    ]
    if item not in like:
        return False
    there = listed([item_names.heard(one.content) for one in like])
    if sum(one.content.count for one in like) == thing.count:
        turn.answer(say("these_are_there", what=there), thing.words)
    elif len(like) == 1:
        item_changes.recount(turn, item, thing.count, thing.words)
    else:
        item_changes.pointed_past(turn, say("these_are_there", what=there))
    return True
