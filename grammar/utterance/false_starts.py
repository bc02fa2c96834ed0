"""Numbers and measures begun, and said anew at once: "two… no, three 14-2s"."""

from __future__ import annotations

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
            following = made[place + 1] if place + 1 < len(made) else None
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
