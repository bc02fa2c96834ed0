"""The device that a box is called by at the head of what is told: it is counted where it is
listed."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.clauses.text_before import just_before
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.device_groups import called, for_unlike
from boxaloud.grammar.utterance.headings import ROOM_WORDS, ROOMS

#: Before the device: where the box is, and nothing counted.
_WHERE = lazy_pattern(
    r"(?i)\s*(?:(?:ok|okay|so|um|uh|right|now|well|this is|it's|it is|for|the|my|our|that),? )*"
    r"(?:[a-z][a-z']*[,.]? ){0,4}"
)
#: Behind it: a break, or where it is.
_HEADED = lazy_pattern(
    r"(?i)(?: (?:box|problem|job|circuit|location|question))?(?:\s*[.:]\s|\s*//|,? (?:by|at|in"
    r"|behind|near|over|under|for|of|on|above|beside|outside|there's|there is|has)\b)"
)
#: "The den outlet is in an 18 box": behind a device by which a place is called.
_SITS = lazy_pattern(
    r"(?i) (?:uses|gets|takes|holds"
    r"|(?:is|sits|lives|goes|will be|is going|was) (?:in|inside) (?:an?|this|that|the|one))\b"
)
#: "The AFCI split in the den uses", "the switch in the boys' room".
_IN_ROOM = lazy_pattern(
    r"(?i)(?: split| combo| location| box)? (?:in|at|by|near|of|behind|over|under|above|below"
    r"|beside|outside|next to)((?: (?!and\b|has\b|is\b|it\b)"
    r"[a-z]+['’]?s?){1,6})"
)
_COMMA = lazy_pattern(r"(?i)(?: (?:box|problem|job|circuit|location))?\s*,")
#: "Den switch box two 14-2 and a dimmer", as an ear gives it.
_ITS_BOX = lazy_pattern(r"(?i)\s+box\b")
#: "Lot 14 powder bath, switch box 22.5": before a device that its box is called by.
_WHICH_LOT = lazy_pattern(
    r"(?i)\s*(?:(?:lot|unit|house|plan|bldg|building|no|#) ?#?\d+[a-z]?,? )?"
    r"(?:[a-z][a-z']*[,.]? ){0,4}"
)
#: "This is the four way two fourteen threes", as an ear gives it.
_THIS_IS = lazy_pattern(r"(?i)\bthis is $|\bthis one['’]s $")
_SPLIT = lazy_pattern(r"(?i) (?:split|combo)\b")
_COUNTED_NEXT = lazy_pattern(r"(?i)\s+(?:an?|one|two|three|four|five|six|\d)\b")
#: "Should have brought the lamp. Okay, hall switch, …": a remark before the head of it.
_BACK_TO_IT = lazy_pattern(r"(?is).*[.!;]\s+(?=(?:okay|ok|alright|anyway)\b)")
PLACES = ROOMS | ROOM_WORDS
COUNTED = lazy_pattern(
    r"(?i)(?:a|an|one|two|three|four|five|six|\d|just|only|single)\b(?![- ]?way)"
)
_WIDE = ("range receptacle", "dryer receptacle")
"""Of one of these a box has no second: it is called by it, and it is listed."""
_SWITCHES = ("switch", "dimmer", "timer", "sensor", "control")


def named_by_device(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Vanity receptacle, three 12-2s, one GFI": one device, by which the box is called."""
    made = [_told_again(act, made, heard) for act in _by_several(made, heard)]
    made = _plainly_headed([_of_place(act, heard) for act in made], heard)
    first = next((act for act in made if is_thing(act)), None)
    if first is None or getattr(first, "awg", None) is not None or not _heads(first, heard):
        return made  # what lands on a size is a device
    rest = made[made.index(first) + 1 :]
    if isinstance(first, acts.AddDevice) and any(_unlike(act, first, heard) for act in rest):
        return made
    if isinstance(first, acts.AddDevice) and any(_itself(act, first) for act in rest):
        return [act for act in made if act is not first]
    boxed = _ITS_BOX.match(heard, first.span[1]) is not None
    between = next((at for at, act in enumerate(rest) if _listed(act, first, boxed)), None)
    boxed = boxed or _wired_in_place(first, rest, heard)
    if between is None and boxed and isinstance(first, acts.AddDevice) and not first.doubts:
        named = replace(first, doubts=(acts.Doubt("count", "named"),))
        return [named if act is first else act for act in made]
    if not between or any(kind_of(act) for act in rest[:between]):
        return made  # not listed, or in a list of devices
    if not any(isinstance(act, (acts.AddCable, acts.AddConductors)) for act in made):
        return made
    return [act for act in made if act is not first]


def _by_several(made: list[Act], heard: str) -> list[Act]:
    """ "Porch and hall switches, two gang, …": what a box is called by before its contents are
    told; how many there are is said then."""
    first = made[0]
    if not isinstance(first, acts.AddDevice) or any(is_thing(act) for act in made[1:]):
        return made
    vague = [doubt for doubt in first.doubts if doubt.reason != "vague"]
    if not first.doubts or vague or not _heads(first, heard):
        return made
    return [replace(first, doubts=(acts.Doubt("count", "named"),)), *made[1:]]


def _unlike(act: Act, first: acts.AddDevice, heard: str) -> bool:
    """ "The pump switch, a 12-2, the porch switch, a 14-2": two, each called by its own."""
    return isinstance(act, acts.AddDevice) and for_unlike(called(act, heard), called(first, heard))


def _in_a_room(device: Act, heard: str) -> bool:
    """Whether a device is said to be in a room, before or behind it."""
    before = just_before(heard, device.span[0]).lower().split()[-1:]
    if PLACES.intersection([*before, *device.words.lower().split()]):
        return True
    behind = _IN_ROOM.match(heard, device.span[1])
    return bool(behind and (ROOMS - {"box"}).intersection(behind[1].lower().split()))


def _wired_in_place(first: Act, rest: list[Act], heard: str) -> bool:
    """ "The three-way in the garage has two 12-3s on it", "bathroom outlet, two 12-2s": a device by
    its place, and the cables at it, and no other of its kind."""
    if any(kind_of(act) for act in rest):
        return False
    told = [act.thing if isinstance(act, acts.Restate) else act for act in rest]
    wired = any(isinstance(act, (acts.AddCable, acts.AddConductors)) for act in told)
    return wired and _in_a_room(first, heard)


#: "Two 14-2s in the bedroom switch": the box by its device.
_IN_THE = lazy_pattern(r"(?i)\b(?:in|at|into|inside)$")
_THE = lazy_pattern(r"(?i)(?:the|that|this|my) ")


#: "Behind the switch in the boys' room and it's one single pole".
_BEHIND_THE = lazy_pattern(r"(?i)\b(?:behind|for|at|to)$")
_HAS_IT = lazy_pattern(r"(?i)\b(?:has|gets|holds|takes|it['’]?s|it is)(?: just| only)? $")
#: "It's a four-way in the upstairs hall": what is at a place, before anything else is told.
_IT_IS = lazy_pattern(
    r"(?i)\W*(?:(?:ok|okay|so|well|um|uh|now|hello|hi|hey),? )*(?:it['’]?s|it is|this is) "
)


def _told_again(act: Act, made: list[Act], heard: str) -> Act:
    """A device by which a place is called at which cables are, where what is there is told behind;
    or that a place is said to have, before anything else."""
    if not isinstance(act, acts.AddDevice) or act.doubts or not kind_of(act):
        return act
    before = heard[: act.span[0]]
    if act.count == 1 and act is made[0] and _IT_IS.fullmatch(before):
        named = _in_a_room(act, heard) and _wired_in_place(act, made[1:], heard)
        return replace(act, doubts=(acts.Doubt("count", "named"),)) if named else act
    if act.count is not None or not _THE.match(act.words) or not _BEHIND_THE.search(before.strip()):
        return act
    later = [one for one in made if kind_of(one) and one.span[0] > act.span[1]]
    if len(later) != 1 or not _in_a_room(act, heard):
        return act
    if not _HAS_IT.search(heard[: later[0].span[0]]):
        return act
    return replace(act, doubts=(acts.Doubt("count", "named"),))


def _of_place(act: Act, heard: str) -> Act:
    """A device by which the box is called that something is in, so that it is not counted again
    where it is told by itself."""
    if not isinstance(act, acts.AddDevice) or act.count is not None or act.doubts:
        return act
    the = _THE.match(act.words)
    if the is None or not _IN_THE.search(heard[: act.span[0]].rstrip()) or not kind_of(act):
        return act
    if PLACES.isdisjoint(act.words[the.end() :].lower().split()):
        return act
    return replace(act, doubts=(acts.Doubt("count", "named"),))


def _plainly_headed(made: list[Act], heard: str) -> list[Act]:
    """ "This is the four-way. Two 14-3s …": at the head of what is told it corrects nothing."""
    first = next((act for act in made if is_thing(act) or isinstance(act, acts.Restate)), None)
    if not isinstance(first, acts.Restate) or first.instead_of is not None:
        return made
    told = any(isinstance(act, (acts.AddCable, acts.AddConductors)) for act in made)
    if not told or not isinstance(first.thing, acts.AddDevice) or not _heads(first.thing, heard):
        return made
    return [first.thing if act is first else act for act in made]


def _itself(act: Act, first: acts.AddDevice) -> bool:
    """ "… the three-way and a switch", of a box that is called the three-way."""
    plain = isinstance(act, acts.AddDevice) and act.name == first.name and act.count is None
    return plain and act.words.lower().startswith(("the ", "that "))


def _heads(first: Act, heard: str) -> bool:
    """Whether a device without a count stands at the head, as the name of the box."""
    if not kind_of(first) or getattr(first, "count", None) is not None:
        return False
    before = heard[: first.span[0]]
    if (back := _BACK_TO_IT.match(before)) is not None:
        before = before[back.end() :]
    where = _WHICH_LOT if _ITS_BOX.match(heard, first.span[1]) else _WHERE
    if where.fullmatch(before) is None or COUNTED.match(first.words):
        return False
    place = bool(PLACES.intersection(f"{before} {first.words}".lower().split()))
    named = any(p.match(heard, first.span[1]) for p in (_HEADED, _ITS_BOX))
    named = named or (place and _SITS.match(heard, first.span[1]) is not None)
    named = named or bool(_SPLIT.match(heard, first.span[1]) and _in_a_room(first, heard))
    named = named or bool(_THIS_IS.search(before) and _COUNTED_NEXT.match(heard, first.span[1]))
    place = place or getattr(first, "name", None) in _WIDE
    return named or (place and _COMMA.match(heard, first.span[1]) is not None)


def _listed(act: Act, first: Act, boxed: bool) -> bool:
    """Whether an act is the device of the heading, counted or said more closely; where the box is
    called by it, said once more."""
    if kind_of(act) != kind_of(first) or not isinstance(
        act, (acts.AddDevice, acts.AddTerminalBlock)
    ):
        return False
    if boxed and act.count in (None, 1):
        return True
    name = getattr(first, "name", None)
    same = getattr(act, "name", None) == name and name not in _WIDE
    return act.count is not None or (isinstance(first, acts.AddDevice) and not same)


def kind_of(act: Act) -> str:
    """What sort of thing a box is called by."""
    if isinstance(act, acts.AddTerminalBlock):
        return "terminal block"
    if not isinstance(act, acts.AddDevice) or act.name is None:
        return ""
    if act.name.endswith(("receptacle", "outlet")):
        return "receptacle"
    return "switch" if act.name.endswith(_SWITCHES) else ""
