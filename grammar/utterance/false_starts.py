"""Numbers and measures begun, and said anew at once: "two… no, three 14-2s"."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import counted, is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern


def false_starts(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "two… no, three 14-2s, yeah three": a number taken back, or said once more."""
    kept: list[Act] = []
    for place, act in enumerate(made):
        after = made[place + 1 : place + 3]
        if isinstance(act, acts.Number):
            taken_back = any(isinstance(one, (acts.Restate, acts.RestateNumber)) for one in after)
            again = any(counted(getattr(one, "thing", one)) == act.value for one in kept[-2:])
            said_yes = bool(kept) and isinstance(kept[-1], acts.Yes)
            rest = (one for one in made[place + 1 :] if not isinstance(one, _PASSED))
            following = next(rest, None)
            stuttered = (
                is_thing(following)
                and following.count == act.value
                and bool(heard[act.span[1] : following.span[0]].strip())
            )
            begun = _begins_measure(act, following, heard)
            if (taken_back and not kept) or (again and said_yes) or stuttered or begun:
                continue
        kept.append(act)
    return kept


_NODS = (acts.Yes, acts.No, acts.Social)
_NODDED = lazy_pattern(
    r"(?i)(?:\W|\b(?:ok|okay|yes|yeah|yep|no|so|here|it['’]?s|it is|that['’]?s|that is|says|there"
    r"|right|sure|uh|um|oh|well|now|then|all right|alright)\b)*"
)


#: Behind it a break: "three total" is how many there are in all, "two connectors" are others.
_ENDS = lazy_pattern(r"\s*(?:$|[,;!?…]|\.(?!\d))")


def _told(act: Act) -> Decimal | int | None:
    """The number that an act tells: a count, or the volume of the box."""
    if isinstance(act, acts.RestateNumber):
        return act.value
    if isinstance(act, acts.SetVolume):
        return act.volume if act.unit is None else None
    return act.count if is_thing(act) else None


def said_twice(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "No, two, ok two", "it says sixteen here, sixteen": the number just told, once more."""
    kept: list[Act] = []
    for act in made:
        told = [at for at, one in enumerate(kept) if not isinstance(one, _NODS)]
        if isinstance(act, acts.Number) and told and act.value is not None:
            last = kept[told[-1]]
            between = heard[last.span[1] : act.span[0]]
            apart = between.strip() and _ENDS.match(heard, act.span[1])
            if apart and _told(last) == act.value and _NODDED.fullmatch(between):
                del kept[told[-1] + 1 :]
                continue
        kept.append(act)
    return kept


_PASSED = (acts.Yes, acts.Social)
"""What may stand between a number and what it counts: "three… yes three 12-2s"."""
_BROKEN_OFF = lazy_pattern(
    r"\s*(?:\.{2,}|…|\s[–—-]+)\s*(?:(?:no|uh|um|er|i mean|sorry|wait)[\s,]+)*"
)
_AT_ONCE = lazy_pattern(r"\s*,?\s*(?:yes\s+|yeah\s+|just\s+|plain\s+)?")


def devices_said_anew(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "One three-way... single pole, single pole": broken off, and the other said twice over:
    one device, of the name that is said last."""
    kept: list[Act] = []
    for act in made:
        before = kept[-2:]
        if (
            len(before) > 1
            and all(isinstance(one, acts.AddDevice) for one in (*before, act))
            and _insists(before[0], before[1], act, heard)
        ):
            kept[-2:] = [replace(act, count=getattr(before[0], "count", None))]  # type: ignore[call-arg]
            continue
        if before and _says_it_again(before[-1], act, heard):
            continue
        kept.append(act)
    return kept


def _says_it_again(last: Act, act: Act, heard: str) -> bool:
    """ "No, duplex, plain duplex": one, said anew and once more."""
    thing = last.thing if isinstance(last, acts.Restate) else None
    return (
        isinstance(thing, acts.AddDevice)
        and isinstance(act, acts.AddDevice)
        and (act.name, act.count) == (thing.name, None)
        and _AT_ONCE.fullmatch(heard[last.span[1] : act.span[0]]) is not None
    )


def _insists(first: Act, second: Act, third: Act, heard: str) -> bool:
    names = [getattr(one, "name", None) for one in (first, second, third)]
    counts = [getattr(one, "count", None) for one in (second, third)]
    return (
        names[1] == names[2] != names[0]
        and counts == [None, None]
        and _BROKEN_OFF.fullmatch(heard[first.span[1] : second.span[0]]) is not None
        and _AT_ONCE.fullmatch(heard[second.span[1] : third.span[0]]) is not None
    )


_I_MEAN = lazy_pattern(
    r"(?i)\W*(?:(?:i mean|i meant|sorry|no|wait|rather|uh|um|or|the|a|an|well|it['’]?s|that['’]?s)"
    r"\b\W*)+"
)


def _begins_measure(number: acts.Number, following: Act | None, heard: str) -> bool:
    """ "Eleven sixteenths, I mean the four and eleven sixteenths square": a part of a measure that
    is said whole at once."""
    if not isinstance(following, acts.SetSize) or number.value is None:
        return False
    between = heard[number.span[1] : following.span[0]]
    part = number.words.lower().strip(" ,.")
    whole = " " in part or "/" in part
    return whole and part in following.words.lower() and _I_MEAN.fullmatch(between) is not None


_DOUBTED = lazy_pattern(
    r"(?i)(?:.*\b(?:is|was|are|were) (?:it|that|there|they)\b.*\b(?:yes|yeah|yep)\b.*"
    r"|(?: (?:as well|too|more|also|you (?:say|said)|is it|right|then))*\s*\?\s*"
    r"(?:yes|yeah|yep|right|yup)[ ,.!]+(?:(?:that['’]s|it['’]s|he says|there are) )?)"
)


def said_after_doubt(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Three fourteen twos is it three yes three fourteen twos": those, and no more of them."""
    kept: list[Act] = []
    for act in made:
        place = len(kept) - 1
        while place >= 0 and isinstance(kept[place], _PASSED):
            place -= 1
        first = kept[place] if place >= 0 else None
        if (
            is_thing(act)
            and is_thing(first)
            and replace(act, words="", span=(0, 0)) == replace(first, words="", span=(0, 0))
            and _DOUBTED.fullmatch(heard[first.span[1] : act.span[0]])
        ):
            del kept[place + 1 :]
            continue
        kept.append(act)
    return kept
