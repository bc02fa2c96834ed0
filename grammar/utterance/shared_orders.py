"""One order of two things: "make the 12-3s 14-3s and the 12-2 a 14-2"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.clauses.mood import find_mood
from boxaloud.grammar.lazy_patterns import lazy_pattern

_OLD = (
    r"(?:(?:both|all|of|the|that|those|these|my|one|other|first|second|last|<n:[1-9]>) )*"
    r"<(?:cable|device|conductors):[^>]*>"
)
_INTO = r"(?:(?:to|into|for|with|a|an|be) )*"
_NEW = rf"{_INTO}<(?:cable|device|conductors):[^>]*>"
_SHARED = lazy_pattern(
    r"(?P<lead>(?:(?:and|so|but|ok|okay|now|then|please|just|no|wait|actually|let us|we|i) )*)"
    r"(?P<verb>make|change|swap|replace|switch|turn) "
    rf"(?P<first>{_OLD} {_NEW}) and (?P<second>(?:the|that|those|these|both|all|my|one) {_OLD}"
    rf" {_NEW}|<(?:cable|device|conductors):[^>]*:d> {_NEW})"
)


def orders_shared(parts: Sequence[Clause]) -> list[Clause]:
    """The clauses, with an order of two things as two orders of one thing each."""
    made: list[Clause] = []
    for clause in parts:
        found = _SHARED.fullmatch(clause.line) if " and " in clause.line else None
        if found is None:
            made.append(clause)
            continue
        verb = found["lead"].count(" ")
        until = clause.line.count(" ", 0, found.end("first")) + 1
        first = replace(
            clause,
            elements=clause.elements[:until],
            line=clause.line[: found.end("first")],
            closes=",",
        )
        second = replace(
            clause,
            elements=[clause.elements[verb], *clause.elements[until + 1 :]],
            line=f"{found['verb']} {found['second']}",
            opens=",",
        )
        for part in (first, second):
            find_mood(part)
        made += [first, second]
    return made
