"""Devices said over several clauses: headings, sums, one yoke."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern

_ACTIVITY = lazy_pattern(
    r"\b(?:replac|install|swapp|chang|wir|hook|mount|add|putt|fix|repair|upgrad|troubleshoot"
    r"|redo|connect)ing(?: up| in| out)? (?:a |an |the |my |some |new |old |out |another )*$"
)
_ACTIVITY_REACH = 200


def _activity_before(act: Act, heard: str) -> bool:
    """Whether an activity stands right before; not looked for through all that was said."""
    end = act.span[0] + _article(act)
    return _ACTIVITY.search(heard[max(0, end - _ACTIVITY_REACH) : end].lower()) is not None


def without_activity(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Replacing a light switch. … 1 switch": the work said first is no second switch."""
    kept: list[Act] = []
    if "ing " not in heard.lower():
        return made
    for place, act in enumerate(made):
        if isinstance(act, acts.AddDevice) and _activity_before(act, heard):
            later = [other for other in made[place + 1 :] if isinstance(other, acts.AddDevice)]
            if any(same_device(act, other) for other in later):
                continue
        kept.append(act)
    return kept


def _article(act: Act) -> int:
    """How far into its words an act's article reaches."""
    found = re.match(r"(?i)(?:a|an|the|my|one) ", act.words)
    return found.end() if found else 0


_PURPOSES = frozenset(
    (
        *grammar_data.table("clauses")["purposes"]["words"],
        *grammar_data.table("clauses")["rooms"]["names"],
    )
)
_LEAD = lazy_pattern(r"(?:[A-Za-z]+ ){0,2}$")
_LEAD_REACH = 24
_DEVICE = lazy_pattern(r"(?i)^(?P<before>.*?)\b(?:switch|recep|outlet|plug|dimmer|timer|gfci)")


def purposes(words: str) -> frozenset[str]:
    """What a device is called by before its name.

    >>> purposes("the disposal switch is on twelve")
    frozenset({'disposal'})
    """
    named = _DEVICE.match(words)
    return _PURPOSES.intersection(named["before"].lower().split()) if named else frozenset()


def called(act: acts.AddDevice, heard: str) -> str:
    """A device's words with the two before them in its clause: "vent switch"."""
    start = act.span[0]
    lead = _LEAD.search(heard, max(0, start - _LEAD_REACH), start)
    return (lead[0] if lead else "") + act.words


def for_unlike(one: str, other: str) -> bool:
    """Whether two devices are each called by a purpose, and by none in common: "the pump switch"
    and "the porch switch" are two."""
    first, second = purposes(one), purposes(other)
    return bool(first and second) and not first & second


def same_device(one: acts.AddDevice, other: acts.AddDevice) -> bool:
    """Whether two devices may be one: the name of the one says no more than the other's."""
    if for_unlike(one.words, other.words):
        return False
    names = (one.name or "device", other.name or "device")
    return names[0].endswith(names[1]) or names[1].endswith(names[0])


def called_alike(one: acts.AddDevice, other: acts.AddDevice, heard: str) -> bool:
    """Whether two devices may be one by their names and by what each is called by."""
    return same_device(one, other) and not for_unlike(called(one, heard), called(other, heard))


#: "Left, switch. Right, receptacle.": at which side of the box, or in which gang.
_SIDE = lazy_pattern(
    r"(?i)\b(?:left|right|top|bottom|upper|lower|middle|first|second|third|gang (?:one|two|1|2))"
    r"(?: (?:hand|side|gang|hand side|one|yoke))*(?: (?:is|gets|has))?\W*$"
)


def each_placed(one: acts.AddDevice, other: acts.AddDevice, heard: str) -> bool:
    """Whether each of two devices is said to be at a side of its own: neither is a heading."""
    return all(_SIDE.search(heard, 0, act.span[0]) for act in (one, other))


_QUAD = lazy_pattern("quad|fourplex")
_JOINED_ON = lazy_pattern(r"(?i)\b(?:and|plus|also|another|with|then)(?: (?:a|an|one|another))* $")


def _two_duplexes(act: Act) -> bool:
    thing = act.thing if isinstance(act, acts.Restate) else act
    return (
        isinstance(thing, acts.AddDevice) and thing.name == "duplex receptacle" and thing.count == 2
    )


def _is_quad(act: Act) -> bool:
    thing = act.thing if isinstance(act, acts.Restate) else act
    return isinstance(thing, acts.AddDevice) and thing.name == "quad receptacle"


def _joined_on(heard: str, act: Act) -> bool:
    """ "Two duplexes and a quad": one more, and no other name of those."""
    return _JOINED_ON.search(heard, 0, act.span[0] + _article(act)) is not None


def _as_duplexes(quad: acts.AddDevice) -> acts.AddDevice:
    return replace(quad, name="duplex receptacle", count=2 * (quad.count or 1), doubts=())


#: "Quad box, …", "quad, fifty-three": what a box is called, before its volume.
_QUAD_BOX = lazy_pattern(
    r"(?i)(?:a |the |this )?quad(?: box\b|[\s,:]+(?:(?:box|it'?s|marked|stamped|says)[\s,:]+)?"
    r"(?:(?:[2-9]\d|1[5-9])(?![-/]\d)|twenty|thirty|forty|fifty|sixty|seventy))"
)
_GANGS = range(3, 5)
"""As many yokes as fill such a box, or leave one gang blank: two more are too many for it."""


def _names_the_box(act: Act, made: list[Act], heard: str) -> bool:
    """ "Quad box, fifty-three, four switches": the box has four gangs, and those devices are in
    it; with fewer beside it a quad is two duplexes."""
    if not isinstance(act, acts.AddDevice) or act.name != "quad receptacle" or act.count:
        return False
    others = [one for one in made if isinstance(one, acts.AddDevice) and one is not act]
    return (
        _QUAD_BOX.match(heard, act.span[0]) is not None
        and sum(one.count or 1 for one in others) in _GANGS
    )


#: "Island quad, …", "peninsula quad." at the head of what is told, or behind a break.
_PLACED_QUAD = lazy_pattern(
    r"(?i)(?:^|.*[.;:!?,]\s)\s*(?:(?:ok|okay|so|now|and|for|the|this is|it's),? )*"
    r"(?P<where>(?:[a-z']+ ){1,3})(?:quad|fourplex)"
)
_QUAD_ENDS = lazy_pattern(r"(?i)(?: box| location)?\s*(?:[.,:;]|$)")


def _by_its_place(act: Act, heard: str) -> bool:
    """ "Peninsula quad": what a box may be called by, told again where its devices are listed."""
    found = _PLACED_QUAD.fullmatch(heard, 0, act.span[1])
    if found is None or getattr(act, "count", None) is not None:
        return False
    return bool(
        _PURPOSES.intersection(found["where"].lower().split())
        and _QUAD_ENDS.match(heard, act.span[1])
    )


def _listed_behind(made: list[Act]) -> bool:
    """ "Sink quad, …, a GFI and a regular duplex": those are the two of the quad."""
    devices = [act for act in made if isinstance(act, acts.AddDevice) and not _is_quad(act)]
    outlets = [act.count or 1 for act in devices if str(act.name).endswith("receptacle")]
    return sum(outlets) == _TWO and all(act.count or act.words[:2] == "a " for act in devices)


_TWO = 2


def quads_as_duplexes(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """A quad receptacle is two duplexes on two yokes, 314.16(B)(4)."""
    kept: list[Act] = []
    if any(map(_two_duplexes, made)):  # "garage quad: …, two duplexes": one and the same
        made = [act for act in made if not _is_quad(act) or _joined_on(heard, act)]
    made = [act for act in made if not _names_the_box(act, made, heard)]
    first = next((act for act in made if is_thing(act) or isinstance(act, acts.Restate)), None)
    headed = first is not None and _is_quad(first) and _by_its_place(first, heard)
    if headed and _listed_behind(made):
        made = [act for act in made if act is not first]
    for act in made:
        last = kept[-1] if kept else None
        quad = isinstance(last, acts.AddDevice) and _QUAD.search(last.words.lower()) is not None
        if (
            quad
            and isinstance(act, acts.AddDevice)
            and act.name == "duplex receptacle"
            and act.count == 2
        ):
            continue  # "a quad, I mean two duplexes"
        if isinstance(act, acts.AddDevice) and act.name == "quad receptacle":
            named = (acts.Doubt("count", "named"),) if headed and act is first else ()
            act = replace(_as_duplexes(act), doubts=named)
        thing = act.thing if isinstance(act, (acts.Restate, acts.Replace)) else None
        if isinstance(thing, acts.AddDevice) and thing.name == "quad receptacle":
            act = replace(act, thing=_as_duplexes(thing))  # type: ignore[call-arg]
        kept.append(act)
    return kept


_SUMMED = lazy_pattern(r"\s*(?:,|:|so)? ?(?:so|a |one |:)")


def without_heading_devices(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "two devices, a switch and a duplex": the sum said first is no further device."""
    kept: list[Act] = []
    for place, act in enumerate(made):
        summed = (
            isinstance(act, acts.AddDevice)
            and _SUMMED.match(heard[act.span[1] : act.span[1] + 8]) is not None
            and " for " not in act.words  # "a switch for the fan and one for the light, a dimmer"
        )
        if (
            isinstance(act, acts.AddDevice)
            and (act.name in (None, "device") or (summed and act.name in ("receptacle", "switch")))
            and (act.count or 0) > 1
        ):
            named = 0
            for later in made[place + 1 :]:
                if (
                    not isinstance(later, acts.AddDevice)
                    or later.name in (None, "device")
                    or later.name == act.name
                    or named == act.count
                ):
                    break
                named += later.count or 1
            if named == act.count:
                continue
        kept.append(act)
    return kept
