"""Orders that are not to be followed: "don't delete box one"."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar import acts
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern

_FORBIDDING = lazy_pattern(
    r"(?:(?:no|please|and|but|so|wait|well|oh|ok|okay|um|uh) )*(?:do not|never)"
)


def forbidden_order(parts: Sequence[Clause], place: int, heard: str) -> acts.Keep | None:
    """The act of "do not" and of the order behind it, which leave all as it is; None elsewhere."""
    clause = parts[place]
    if place + 1 == len(parts) or clause.closes or not _FORBIDDING.fullmatch(clause.line):
        return None
    span = (clause.span[0], parts[place + 1].span[1])
    return acts.Keep(words=heard[slice(*span)], span=span)
