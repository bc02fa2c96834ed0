"""Wires told by their size alone, "#10 THHN", of which nobody said how many there are."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Doubt, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

#: "#10 THHN", "12 gauge wire", and not "the 12 gauge wire" or "a #12".
_BY_SIZE = lazy_pattern(
    r"(?i)(?:(?:#|no\.?|number|gauge|awg|stranded|solid|copper|thhn|thwn)\s*)*"
    r"(?:\d|six\b|eight\b|ten\b|twelve\b|fourteen\b|sixteen\b|eighteen\b)"
)
#: What says which wire it is, or that it is one.
_SAID_WHICH = lazy_pattern(
    r"(?i)\b(?:the|an?|one|another|that|this|my|its|each|every|to|on|of|for|with|from|same)\s+$"
)


def wires_uncounted(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "#10 THHN, no grounds": each conductor counts, 314.16(B)(1), so that it is asked how many
    there are. Where wires are counted beside it, their size is told."""
    if any(map(_counts_wires, made)):
        return made
    return [_asked(act, heard) for act in made]


def _counts_wires(act: Act) -> bool:
    return isinstance(act, (acts.AddConductors, acts.Number)) and _count(act) is not None


def _count(act: acts.AddConductors | acts.Number) -> object:
    return act.value if isinstance(act, acts.Number) else act.count


def _asked(act: Act, heard: str) -> Act:
    if not isinstance(act, acts.AddConductors) or act.awg is None or act.doubts or act.role:
        return act
    if not _BY_SIZE.match(act.words) or _SAID_WHICH.search(heard[: act.span[0]]):
        return act
    return replace(act, doubts=(Doubt("count", "vague"),))
