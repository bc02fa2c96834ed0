""" "The dimmer on the 12", "both switches on the 14": of devices that are there, that they land
there; no further ones."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference
from boxaloud.rules.contents import Yoke

_POINTING = re.compile(
    r"(?:the|that|those|these|this|my|both|all|one of|two of|three of|half of)\b"
)
_FURTHER = re.compile(r"\b(?:another|more|second|extra|additional)\b")


def landed(state: State, act: Act) -> acts.Land | None:
    """The landing that a device named with a size is, where the words point at some that are in
    the box; None where they tell of one more."""
    thing = act.thing if isinstance(act, acts.Restate) else act
    if not isinstance(thing, acts.AddDevice) or thing.awg is None:
        return None
    low = thing.words.lower()
    there = known(state, thing)
    if not there or not _POINTING.match(low) or _FURTHER.search(low):
        return None
    if "other" in low.split() and not _others_stand(there):
        return None  # "one switch is on the 14, the other on the 12": it comes in only now
    whole = low.startswith(("both", "all"))
    target = Reference(
        "device",
        thing.name,
        count=None if whole else thing.count,
        which="all" if whole else "said",
        words=re.split(r" (?:is|are|on|to|goes|go)\b", low)[0],
    )
    return acts.Land(
        target=target, awg=thing.awg, words=act.words, span=act.span, function="correction"
    )


def widened(state: State, act: Act) -> acts.Widen | None:
    """ "The receptacle is two gangs wide" of the one that is in the box, by its name or the last
    words of it, 314.16(B)(4); None where it tells of one more."""
    if not isinstance(act, acts.AddDevice) or act.gangs in (None, 1) or act.count is not None:
        return None
    low = act.words.lower()
    if not _POINTING.match(low) or _FURTHER.search(low) or not act.name:
        return None
    there = [i for i in state.items if isinstance(i.content, Yoke) and _called(i.content, act.name)]
    if len(there) != 1:
        return None
    target = Reference("device", item=there[0].key, words=act.words)
    return acts.Widen(
        target=target, gangs=act.gangs, words=act.words, span=act.span, function="correction"
    )


def _called(yoke: Yoke, name: str) -> bool:
    return yoke.name == name or yoke.name.endswith(f" {name}")


def known(state: State, thing: acts.AddDevice) -> list[Item]:
    """The devices in the box that have the name, whatever they land on."""
    like = replace(references.to_thing(thing), awg=None, words="")
    return [i for i in references.find_all(state, like) if isinstance(i.content, Yoke)]


def _others_stand(items: list[Item]) -> bool:
    """Whether there are several, all of which stand on a size."""
    several = sum(item.content.count for item in items) > 1
    return several and all(getattr(item.content, "awg", None) is not None for item in items)
