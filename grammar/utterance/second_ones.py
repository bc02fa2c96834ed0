"""A second one behind a mark of correction: "wait, a second 14-2 leaves out the bottom"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_SECOND = lazy_pattern(r"(?i)\ba (?:second|2nd)\s+(?:\S+\s*)?$")
_WITHIN = lazy_pattern(r"(?i)(?:and )?a (?:second|2nd)\b")
_REACH = 14


def second_ones(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts with a second one told as one more: it puts nothing right, whatever mark of a
    correction leads it in, for each conductor of each cable counts, 314.16(B)(1)."""
    return [_as_told(act, heard) for act in made]


def _as_told(act: Act, heard: str) -> Act:
    if not isinstance(act, acts.Restate) or act.instead_of is not None:
        return act
    thing, start = act.thing, act.span[0]
    before = heard[max(0, start - _REACH) : start]
    second = _WITHIN.match(act.words) is not None or _SECOND.search(before) is not None
    if not second or not isinstance(thing, acts.AddCable | acts.AddDevice):
        return act
    return replace(thing, count=1, words=act.words, span=act.span)
