"""The device that a box is named by, told by itself: the same one, and no further."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import item_changes
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import AddDevice, Replace
from boxaloud.rules.contents import Yoke

_FURTHER = re.compile(
    r"\b(?:another|more|second|third|extra|additional|other|add|adding|put|install)\b"
)
_FURTHER_BEFORE = re.compile(r"\b(?:another|second|third|fourth|extra|additional|other)\s+$")


#: In a later breath: one beside the one that the box is named by.
_BESIDE_IT = re.compile(
    r"(?i)\b(?:too|also|plus|another|next to|beside|besides|other|else|along with)\b"
)
_AND_ONE = re.compile(
    r"(?i)\W*(?:(?:ok|okay|so|oh|well|yeah|um|uh|wait|hello|hi|hey|please|now)\b\W*)*and\b"
)
_THE_ONE = re.compile(r"(?i)(?:the|that|its) ")
_PLAIN = ("receptacle", "duplex receptacle", "switch", "single-pole switch", "device")


def _one_beside(turn: Turn, thing: AddDevice, item: Item) -> bool:
    """ "Bath outlet, two 12-2s", and then "a GFCI too", "and a GFCI": a further one."""
    if all(one.key != item.key for one in turn.began.items):
        return False
    begins = max(turn.heard.rfind(stop, 0, thing.span[0]) for stop in ".;!?") + 1
    single = (thing.count or 1) == 1 == item.content.count
    other = single and thing.name not in (*_PLAIN, references.called(item))
    joined = other and _AND_ONE.match(turn.heard, begins) is not None
    if joined and turn.state.name_open == item.key and _THE_ONE.match(thing.words):
        joined = False  # "island plug", and then "and the GFI": what that plug is
    return joined or _BESIDE_IT.search(turn.heard) is not None


_CONTROLS = re.compile(r"\b(?:switch|dimmer|timer|sensor|control)$")
_ALONE = re.compile(
    r"(?i)\W*(?:(?:ok|okay|so|well|um|uh|hello|hi|hey|please|just|only|there['’]?s|there is|has|"
    r"with)\b\W*)*(?:an?|one)?\W*"
)

_NOTHING = re.compile(r"(?i)\W*(?:please|thanks)?\W*")


def _which_switch(turn: Turn, thing: AddDevice, named: Yoke) -> bool:
    """ "Den switch, two 14-2s", and then "dimmer" and nothing else: what sort of switch it is."""
    start, end = thing.span
    alone = _ALONE.fullmatch(turn.heard[:start]) and _NOTHING.fullmatch(turn.heard[end:])
    yokes = [one for one in turn.state.items if isinstance(one.content, Yoke)]
    return (
        bool(alone)
        and named.name == "switch"
        and _CONTROLS.search(thing.name or "") is not None
        and thing.count in (None, 1)
        and thing.awg in (None, named.awg)
        and len(yokes) == 1
        and not turn.supposed
    )


def said_by_itself(turn: Turn, thing: AddDevice) -> bool:
    """ "The hall 3-way: … one 3-way": so many of those that the box is named by, the first time
    that they are said by themselves; False where they are others."""
    item = turn.state.item(turn.state.named_by)
    if item is None or not isinstance(item.content, Yoke) or thing.name is None:
        return False
    before = turn.heard[: thing.span[0]].lower()
    further = _FURTHER.search(thing.words.lower()) or _FURTHER_BEFORE.search(before)
    if further or _one_beside(turn, thing, item):
        return False
    alike = references.same_name(item.content.name, thing.name)
    if not alike and not _which_switch(turn, thing, item.content):
        return False
    turn.state = altered(turn.state, named_by=0)
    awg = item.content.awg if thing.awg is None else thing.awg
    name = item.content.name if alike else thing.name
    content = replace(item.content, count=thing.count or 1, awg=awg, name=name)
    if content == item.content:
        turn.understood.append(thing.words)
    else:
        item_changes.change_content(turn, item, content, thing.words)
    return True


_FOR_IT = re.compile(r"(?i)\bfor the (?:three|four|[34])[- ]?way\b")


def for_the_way(turn: Turn, thing: AddDevice) -> bool:
    """ "One of those needs to be a 14-3 for the three-way", where one plain switch is in the box:
    that is it."""
    if thing.name not in ("three-way switch", "four-way switch") or thing.count is not None:
        return False
    if turn.supposed or not _FOR_IT.search(turn.heard):
        return False
    if not any(isinstance(one, Replace) for one in turn.done):
        return False
    there = [one for one in turn.began.items if isinstance(one.content, Yoke)]
    item = turn.state.item(there[0].key) if len(there) == 1 else None
    if item is None or not isinstance(item.content, Yoke):
        return False
    if item.content.count != 1 or item.content.name != "switch":
        return False
    content = replace(item.content, name=thing.name)
    item_changes.change_content(turn, item, content, thing.words)
    return True


_TAILS_TO = re.compile(
    r"(?i)\b(?:pig ?-?)?tail(?:s|ed)?(?: (?:are|is|go|goes|going|run|come|comes))?"
    r"(?: (?:off|out|up|over))* (?:to|for|onto|into|on)\s+(?:the|that|its)?\s*$"
)
_DEFINITE = re.compile(r"(?i)(?:the|that|its)\b")


def pigtailed(turn: Turn, thing: AddDevice) -> bool:
    """ "The joints are tailed off to the plug", where there is one: that plug, and no further."""
    before = turn.heard[: thing.span[0]]
    definite = _DEFINITE.match(thing.words) or re.search(r"(?i)\b(?:the|that|its)\s+$", before)
    if thing.count is not None or thing.name is None or not definite:
        return False
    if not _TAILS_TO.search(before):
        return False
    there = [one.content for one in turn.state.items if isinstance(one.content, Yoke)]
    if not any(references.same_name(one.name, thing.name) for one in there):
        return False
    turn.understood.append(thing.words)
    return True
