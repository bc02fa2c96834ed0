"""Cables pointed out one by one: "that's a 12-2 from the panel, that's a 12-2 to the light"."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_POINTED = lazy_pattern(
    r"(?i)(?:(?:and|then|so|ok|okay|well|now),? )*(?:this|that)(?:['’]s|(?: one)? is| one['’]s)"
    r" (?:an?|the|my|your|one|another) "
)
_TAKEN_BACK = lazy_pattern(
    r"(?i)\b(?:no|not|wait|sorry|actually|mean|meant|rather|wrong)\b|n['’]t\b"
)


def pointed_out(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """Each of two or more that are pointed out is a cable of its own; of one alone, "that's a
    14-3" says what the last is."""
    places = [place for place, act in enumerate(made) if _points(act)]
    if len(places) < 2 or _TAKEN_BACK.search(heard):
        return made
    return [
        act.thing if place in places and isinstance(act, (acts.Restate, acts.Replace)) else act
        for place, act in enumerate(made)
    ]


def _points(act: Act) -> bool:
    """Whether an act points one cable out."""
    if isinstance(act, acts.Restate):
        bare = act.instead_of is None
    else:
        bare = isinstance(act, acts.Replace) and act.target.which == "said"
    if not bare or not isinstance(act, (acts.Restate, acts.Replace)):
        return False
    one = isinstance(act.thing, acts.AddCable) and act.thing.count == 1
    return one and _POINTED.match(act.words) is not None
