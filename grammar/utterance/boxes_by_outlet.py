"""The outlet that a place in a building is called by, and the device that is in it: "the mixer
outlet, two 12/2, one single receptacle" is one device, 314.16(B)(4)."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.device_groups import called, for_unlike

_LEAD = lazy_pattern(
    r"(?i)\W*(?:(?:ok|okay|so|um|uh|hello|hi|please|thanks|oh|yeah|yes|no|actually|wait"
    r"|alrighty|right|now|well|and|hey|alright|this is|here is|it's|it is|next"
    r"|for|at|on|the|this|that|my|our)\b[,.]? ?)*"
)
#: Words before a device that say what it is, and not what its box is called by.
_OF_ITSELF = frozenset(
    [
        "amp",
        "amps",
        "volt",
        "volts",
        "single",
        "double",
        "pole",
        "duplex",
        "tamper",
        "weather",
        "resistant",
        "proof",
        "old",
        "new",
        "first",
        "last",
        "second",
        "third",
        "other",
        "another",
        "more",
        "extra",
        "smart",
        "plain",
        "regular",
        "standard",
        "wall",
        "light",
        "toggle",
        "commercial",
        "spec",
        "grade",
        "hospital",
        "isolated",
        "ground",
        "grounded",
        "combination",
        "combo",
        "usb",
        "gfci",
        "gfi",
        "big",
        "large",
        "small",
        "heavy",
        "duty",
        "one",
        "two",
        "three",
        "four",
        "five",
        "six",
        "way",
        "metal",
        "plastic",
        "white",
        "black",
        "ivory",
        "almond",
        "brown",
        "gray",
        "grey",
        "red",
        "yellow",
        "just",
        "only",
        "with",
    ]
)
_SWITCHES = ("switch", "dimmer", "timer", "sensor", "control")
_WORDS = lazy_pattern(r"(?i)[a-z][a-z'’]*|\d{1,4}[a-z]?")
_FURTHER = lazy_pattern(
    r"(?i)\b(?:and|plus|another|more|second|other|also|extra|with|add|then|too|besides)\b"
)
#: What is told of how wide it is, and of the word "outlet" that names it.
_NAMING = lazy_pattern(
    r"(?i)\b(?:outlet|receptacle|plug|duplex|switch|sensor|dimmer|timer|gfci|gfi"
    r"|(?:three|four|[34])[- ]?way)\b"
)
_BY = lazy_pattern(r"(?i)\s*(?:by|in|at|on|near|behind|over|under|outside|above|up|down|for)\b")
_WIRES = (acts.AddCable, acts.AddConductors)
_BOXES = (acts.SetSize, acts.SetVolume, acts.Number)


def in_its_outlet(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Ok room 214 outlet by the door, two 14/2 and a duplex": the duplex is that outlet."""
    things = [act for act in made if is_thing(act) or isinstance(act, acts.Restate)]
    first = things[0] if things else None
    if not isinstance(first, acts.AddDevice) or not _calls(first, heard):
        return made
    devices = [act for act in things[1:] if _device(act) is not None]
    if not any(isinstance(act, _WIRES) for act in made):
        if devices or not any(isinstance(act, _BOXES) for act in made):
            return made
        named = replace(first, doubts=(acts.Doubt("count", "named"),))
        return [named if act is first else act for act in made]
    told = _told(first, devices, made, heard)
    if told is None:
        return made
    if told.name in ("device", None):
        told = replace(told, name=first.name)
    told = replace(told, awg=told.awg or first.awg, gangs=told.gangs or first.gangs)
    last = devices[-1]
    return [
        told if act is last else act for act in made if act is last or act not in (first, *devices)
    ]


def _told(
    first: acts.AddDevice, devices: Sequence[Act], made: Sequence[Act], heard: str
) -> acts.AddDevice | None:
    """The device that is in the outlet, said once or, one way and another, several times."""
    told: acts.AddDevice | None = None
    for act in devices:
        device = _device(act)
        if device is None or _kind(device) not in (_kind(first), "any"):
            return None
        if for_unlike(called(first, heard), called(device, heard)):
            return None
        if _FURTHER.match(act.words) or (told is not None and device.count not in (None, 1)):
            return None
        before = heard[first.span[1] : act.span[0]]
        if device.count is None and not any(
            isinstance(one, _WIRES) and first.span[1] <= one.span[0] < act.span[0] for one in made
        ):
            return None  # "kitchen outlet, switch, GFCI": a list
        if act is devices[0]:
            adjoining = re.search(r"(?i)\b(?:and|plus|with)(?: an?)?\s*$", before)
            if adjoining and len(re.findall(r"\w+", before)) < 4:
                return None  # "the hall outlet and a GFCI"
        elif _FURTHER.search(heard[devices[0].span[1] : act.span[0]]):
            return None
        if told is not None and not (_general(told) or _general(device)):
            return None
        told = device if told is None or not _general(device) else told
    return told


def _general(device: acts.AddDevice) -> bool:
    return device.name in (None, "device", "receptacle", "single receptacle", "switch")


def _device(act: Act) -> acts.AddDevice | None:
    thing = act.thing if isinstance(act, acts.Restate) else act
    return thing if isinstance(thing, acts.AddDevice) else None


def _calls(first: acts.AddDevice, heard: str) -> bool:
    """Whether a device is named by what it feeds or where it is, and not counted."""
    if first.count is not None or first.awg is not None or _kind(first) in ("", "any"):
        return False  # what lands on a size is a device
    lead = _LEAD.match(heard)
    naming = _NAMING.search(heard, first.span[0], first.span[1])
    if lead is None or naming is None or lead.end() > naming.start():
        return False
    before = heard[lead.end() : naming.start()]
    if re.search(r"[.;:!?]|,.*,", before):
        return False
    words = _WORDS.findall(before.lower())
    if len(words) > 5 or {"a", "an", "no", "not", "has", "is", "got", "with"}.intersection(words):
        return False
    own = [word for word in words if word not in _OF_ITSELF]
    the_one = re.search(r"(?i)\b(?:the|this) $", heard[: lead.end()]) is not None
    placed = _BY.match(heard, first.span[1]) is not None
    return any(not word.isdigit() for word in own) or ((the_one or bool(own)) and placed)


def _kind(act: acts.AddDevice) -> str:
    name = act.name or "device"
    if name in ("device", "combination device"):
        return "any"
    if name.endswith(("receptacle", "outlet")):
        return "receptacle"
    return "switch" if name.endswith(_SWITCHES) else ""


_TYPE = lazy_pattern(r"(?i)\s*(?:type|style|kind|model|mounted type)\b(?! of\b)")


def said_of_its_type(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The sensor, wall switch type": what sort it is, and no switch besides."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(act, acts.AddDevice)
            and isinstance(last, acts.AddDevice)
            and act.count is None
            and _TYPE.match(heard, act.span[1])
            and not heard[last.span[1] : act.span[0]].strip(" ,;.-")
        ):
            continue
        kept.append(act)
    return kept


_ORDERED = lazy_pattern(r"(?i)\b(?:add|adding|put in|throw in|install)\s+$")


def further_by_order(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Add a GFCI": one besides that by which its box is called, so that the order stands in its
    words."""
    kept: list[Act] = []
    for act in made:
        ordered = (
            _ORDERED.search(heard, 0, act.span[0])
            if isinstance(act, acts.AddDevice) and act.count
            else None
        )
        if ordered is not None and heard[slice(*act.span)] == act.words:
            span = (ordered.start(), act.span[1])
            act = replace(act, words=heard[slice(*span)], span=span)
        kept.append(act)
    return kept
