"""Lists that are said anew: "it's two 12-2s and a receptacle", "no, two 12-2s and one switch"."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TypeAlias

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_Listed: TypeAlias = acts.AddCable | acts.AddDevice

_JOINED = lazy_pattern(
    r"\s*(?:,\s*)?(?:and|plus|with|along with|as well as|&|,)?\s*", re.IGNORECASE
)
#: One that is there: the last word of it names no several.
_THE_ONE = lazy_pattern(r"(?:the|that|this|my) (?!.*(?<!s)s$)", re.IGNORECASE)
_FURTHER = lazy_pattern(r"\b(?:more|another|extra|additional|other|also|too)\b", re.IGNORECASE)


_NOT_BUT = lazy_pattern(r"\W*(?:no,? )?not\b", re.IGNORECASE)


def restated_list(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """What is joined to a thing said anew is said anew with it, and does not come on top of what
    was there: one list of the cables and devices there are."""
    if _NOT_BUT.match(heard):
        return made  # "not two 14-2s: one 14-2 and one 14-3" says what each comes in place of
    kept: list[Act] = []
    listed: list[_Listed] = []
    for act in made:
        thing = _said(act, going_on=bool(listed))
        goes_on = (
            bool(listed)
            and kept[-1].span[1] <= act.span[0]
            and _JOINED.fullmatch(heard, kept[-1].span[1], act.span[0])
        )
        if thing is not None and goes_on and not _FURTHER.search(act.words):
            listed.append(thing)
            span = (kept[-1].span[0], act.span[1])
            kept[-1] = acts.RestateList(
                things=tuple(listed), words=heard[slice(*span)], span=span, function="correction",
                doubts=tuple(doubt for one in listed for doubt in one.doubts),
            )  # fmt: skip
            continue
        begins = isinstance(act, acts.Restate) and _of_all(act)
        first = _said(act)
        listed = [first] if begins and first is not None else []
        kept.append(act)
    return kept


def _said(act: Act, going_on: bool = False) -> _Listed | None:
    """The cable or device that an act names with its number; None for any other."""
    thing = act.thing if isinstance(act, acts.Restate) else act
    if going_on and isinstance(act, acts.Restate) and act.words != thing.words:
        return None  # "make it two 14-2s make it …": each begins anew
    if (
        going_on
        and _THE_ONE.match(thing.words)
        and isinstance(thing, (acts.AddCable, acts.AddDevice))
    ):
        thing = replace(thing, count=thing.count or 1)  # "… plus the 12-3", which is there
    if not isinstance(thing, (acts.AddCable, acts.AddDevice)) or thing.count is None:
        return None
    if isinstance(thing, acts.AddDevice):
        return thing if thing.name not in (None, "device") and thing.awg is None else None
    return thing if thing.awg is not None and thing.path is None else None


def _of_all(act: acts.Restate) -> bool:
    """Whether nothing else is named that the thing comes in place of."""
    instead = act.instead_of
    return instead is None or instead.words == act.thing.words
