"""The device that a box is called by at the head of what is told: it is counted where it is
listed."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
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
_COMMA = lazy_pattern(r"(?i)(?: (?:box|problem|job|circuit|location))?\s*,")
#: "Den switch box two 14-2 and a dimmer", as an ear gives it.
_ITS_BOX = lazy_pattern(r"(?i)\s+box\b")
_PLACES = ROOMS | ROOM_WORDS
_COUNTED = lazy_pattern(r"(?i)(?:a|an|one|two|three|four|five|six|\d|just|only|single)\b")
_WIDE = ("range receptacle", "dryer receptacle")
"""Of one of these a box has no second: it is called by it, and it is listed."""
_SWITCHES = ("switch", "dimmer", "timer", "sensor", "control")


def named_by_device(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Vanity receptacle, three 12-2s, one GFI": one device, by which the box is called."""
    first = next((act for act in made if is_thing(act)), None)
    if first is None or not _heads(first, heard):
        return made
    rest = made[made.index(first) + 1 :]
    between = next((at for at, act in enumerate(rest) if _listed(act, first)), None)
    if not between or any(_kind(act) for act in rest[:between]):
        return made  # not listed, or in a list of devices
    if not any(isinstance(act, (acts.AddCable, acts.AddConductors)) for act in made):
        return made
    return [act for act in made if act is not first]


def _heads(first: Act, heard: str) -> bool:
    """Whether a device without a count stands at the head, as the name of the box."""
    if not _kind(first) or getattr(first, "count", None) is not None:
        return False
    before = heard[: first.span[0]]
    if _WHERE.fullmatch(before) is None or _COUNTED.match(first.words):
        return False
    place = bool(_PLACES.intersection(f"{before} {first.words}".lower().split()))
    named = any(p.match(heard, first.span[1]) for p in (_HEADED, _ITS_BOX))
    place = place or getattr(first, "name", None) in _WIDE
    return named or (place and _COMMA.match(heard, first.span[1]) is not None)


def _listed(act: Act, first: Act) -> bool:
    """Whether an act is the device of the heading, counted or said more closely."""
    if _kind(act) != _kind(first) or not isinstance(act, (acts.AddDevice, acts.AddTerminalBlock)):
        return False
    name = getattr(first, "name", None)
    same = getattr(act, "name", None) == name and name not in _WIDE
    return act.count is not None or (isinstance(first, acts.AddDevice) and not same)


def _kind(act: Act) -> str:
    """What sort of thing a box is called by."""
    if isinstance(act, acts.AddTerminalBlock):
        return "terminal block"
    if not isinstance(act, acts.AddDevice) or act.name is None:
        return ""
    if act.name.endswith(("receptacle", "outlet")):
        return "receptacle"
    return "switch" if act.name.endswith(_SWITCHES) else ""
