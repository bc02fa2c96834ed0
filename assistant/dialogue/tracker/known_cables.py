"""Things told of that bring nothing in: "the 14-3", which is there, where a cable goes to."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import AddCable, AddDevice, More, Resize, Restate, Thing
from boxaloud.rules.contents import Cable, Yoke

_POINTED_AT = re.compile(r"(?:the|that|this) ", re.IGNORECASE)
_BEFORE = re.compile(r"\b([a-z]+)\s*$", re.IGNORECASE)
_AFTER = re.compile(r"\s*([a-z]+)", re.IGNORECASE)
_BRINGS_IN = re.compile(
    r"and|plus|add|adding|also|with|w|then|got|have|has|get|put|another|more|is|are|needs?|run|bring"
    r"|include|count|so|or|now|ok|okay|but|too|in|s"
)
"""Words before "the 14-3" with which it may come in."""
_LISTS = re.compile(
    r"and|plus|with|or|to|from|for|feeding|feeds|going|coming|running|too|also|as|in|out|then|that"
    r"|which|headed|heading"
)
"""Words behind it with which it may be one that nobody named before."""


def told_of(turn: Turn, thing: Thing) -> bool:
    """Whether a thing is told of that is no further one: it is there, or elsewhere."""
    if isinstance(thing, AddCable):
        return _is_known(turn, thing) or _sized_now(turn, thing) or _further_explained(turn, thing)
    return isinstance(thing, AddDevice) and _led_to(turn, thing)


def _led_to(turn: Turn, thing: AddDevice) -> bool:
    """ "A 12-3 going to the porch switch", where the box has a device: that one is elsewhere."""
    if not any(doubt.reason == "elsewhere" for doubt in thing.doubts):
        return False
    ahead = any(isinstance(act, AddDevice) for act in turn.ahead)
    return ahead or any(isinstance(item.content, Yoke) for item in turn.state.items)


def _sized_now(turn: Turn, thing: AddCable) -> bool:
    """ "That's 14 wire, not 12. Three 14-2s", of three that were 12-2s: those three."""
    if not any(isinstance(act, Restate | Resize) for act in turn.done):
        return False
    like = references.to_thing(replace(thing, count=None))
    for item in references.find_all(turn.state, like):
        was = turn.began.item(item.key)
        if was is not None and isinstance(item.content, Cable) and isinstance(was.content, Cable):
            resized = was.content.awg != item.content.awg
            return resized and was.content.count == item.content.count == thing.count
    return False


_ON_TOP = re.compile(r"(?i)\b(?:and|plus|also|then|or)\b")
_ANOTHER = re.compile(r"(?i)(?:another|one more)\b")


def _further_explained(turn: Turn, thing: AddCable) -> bool:
    """ "There's a third cable behind it, another 14-2": the same one, said in other words."""
    before = turn.done[-2] if len(turn.done) > 1 else None
    last = turn.state.item(turn.state.last)
    if not isinstance(before, More) or before.target.kind != "cable" or before.count != 1:
        return False
    if last is None or not _ANOTHER.match(thing.words):
        return False
    between = turn.heard[before.span[1] : thing.span[0]]
    apart = "," in between and "." not in between and not _ON_TOP.search(between)
    return (
        apart
        and thing.count in (None, 1)
        and references.agrees(last, replace(references.to_thing(thing), count=None, words=""))
    )


def _is_known(turn: Turn, thing: AddCable) -> bool:
    """Whether "the 14-3 got pulled tight" is of the only one that was in the box before."""
    if thing.count is not None or thing.awg is None or not _POINTED_AT.match(thing.words):
        return False
    like = references.to_thing(replace(thing, count=None))
    before = {item.key for item in turn.began.items}
    known = [item for item in references.find_all(turn.state, like) if item.key in before]
    if len(known) != 1 or not isinstance(known[0].content, Cable) or known[0].content.count != 1:
        return False
    ahead = _BEFORE.search(turn.heard[: thing.span[0]])
    behind = _AFTER.match(turn.heard, thing.span[1])
    if ahead is not None and _BRINGS_IN.fullmatch(ahead[1].lower()):
        return False
    if behind is not None and _LISTS.fullmatch(behind[1].lower()):
        return False
    return ahead is not None or behind is not None
