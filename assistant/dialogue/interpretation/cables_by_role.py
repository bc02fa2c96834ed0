"""A cable that is told of by what it does: "the switch leg is a 14-3", of one that is there."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference
from boxaloud.rules.contents import Cable

_TOLD = re.compile(
    r"(?i)(?:the|my|our|that|this)\s+(?P<role>[a-z ]+?)"
    r"(?:['’]s|,?\s+(?:that|it|this)(?:['’]s|\s+is|\s+was)|\s+(?:is|was|are|turns out to be))\b"
)
_NAMES = {
    "feed": ("feed", "power in", "home run", "line", "source", "power"),
    "switch leg": ("switch leg", "switched leg", "switch loop"),
    "load": ("load",),
    "traveller": ("traveller", "traveler"),
}


def resized(turn: Turn, act: Act) -> Act:
    """The cable that was named by what it does, in place of which another is told; any other act as
    it is: each cable counts once, 314.16(B)(1)."""
    told = act.thing if isinstance(act, acts.Restate) else act
    if not isinstance(told, acts.AddCable) or told.role is None or told.awg is None:
        return act
    named = _TOLD.match(told.words)
    if named is None or told.count not in (None, 1):
        return act
    item = _named(turn, told.role, named["role"])
    if item is None:
        return act
    target = Reference("cable", count=1, item=item.key, words=named.group())
    thing = replace(told, count=1, role=None, doubts=())
    return acts.Replace(
        target=target, thing=thing, words=act.words, span=act.span, doubts=told.doubts,
        function="correction",
    )  # fmt: skip


def _named(turn: Turn, role: str, said: str) -> Item | None:
    """The only cable that was called so when it was told."""
    names = {*_NAMES.get(role, (role,)), said.lower().split(" ")[-1]}
    found = [
        item
        for item in turn.state.items
        if isinstance(item.content, Cable)
        and any(re.search(rf"\b{re.escape(name)}\b", item.words.lower()) for name in names)
    ]
    return found[0] if len(found) == 1 else None
