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
    if told.count not in (None, 1):
        return act
    if named is not None:
        item = _named(turn, told.role, named["role"])
    else:
        item = _same_way(turn, act, told)
    if item is None:
        return act
    words = named.group() if named is not None else told.words
    target = Reference("cable", count=1, item=item.key, words=words)
    thing = replace(told, count=1, role=None, doubts=())
    return acts.Replace(
        target=target, thing=thing, words=act.words, span=act.span, doubts=told.doubts,
        function="correction",
    )  # fmt: skip


_POINTED_OUT = re.compile(
    r"(?i)(?:(?:and|then|so|ok|okay),? )*(?:this|that)(?:['’]s|(?: one)? is| one['’]s) an? "
)
_WAY = re.compile(r"(?i)\b(?:from|to|for|into|towards?) (?:the |my |our |an? )?(?P<end>[a-z ]+)")


def further(turn: Turn, act: Act) -> Act:
    """ "That's a 12-2 to the light", behind "this is a 12-2 from the panel": one more, since it
    goes another way; of another size the same way, it is that one. Any other act as it is: each
    cable counts once, 314.16(B)(1)."""
    told = act.thing if isinstance(act, acts.Restate) else None
    if not isinstance(told, acts.AddCable) or told.count != 1 or not _POINTED_OUT.match(act.words):
        return act
    if (way := _end_of(told.words)) is None:
        return act
    cables = [item for item in turn.state.items if isinstance(item.content, Cable)]
    same_way = [item for item in cables if _end_of(item.words) == way]
    alike = [item for item in cables if _size(item.content) == (told.awg, told.conductors)]
    if alike and not same_way and None not in (_end_of(item.words) for item in alike):
        return told
    if len(same_way) == 1 and same_way[0] not in alike and same_way[0].content.count == 1:
        target = Reference("cable", count=1, item=same_way[0].key, words=told.words)
        return acts.Replace(
            target=target, thing=told, words=act.words, span=act.span, function="correction"
        )
    return act


def _end_of(words: str) -> str | None:
    """Where a cable comes from or goes to, as it was said; None where nothing was."""
    found = _WAY.search(words)
    return None if found is None else found["end"].strip().lower()


def _size(content: object) -> tuple[int, int] | None:
    """The size and the number of conductors of a cable."""
    return (content.awg, content.conductors) if isinstance(content, Cable) else None


def _same_way(turn: Turn, act: Act, told: acts.AddCable) -> Item | None:
    """ "I mean 12-3 in", of "12-2 in": the only cable of another size that was said to go that
    way; None where the cable comes on top."""
    if not isinstance(act, acts.Restate) or told.role not in ("in", "out"):
        return None
    found = [
        item
        for item in turn.state.items
        if isinstance(item.content, Cable)
        and item.content.count == 1
        and re.search(rf"(?i)\b{told.role}\b", item.words)
    ]
    other = len(found) == 1 and _size(found[0].content) != (told.awg, told.conductors)
    return found[0] if other else None


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
