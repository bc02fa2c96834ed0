"""Clamps that there may be: "might have clamps in" does not say where they are."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

#: Characters before a thing in which it is hedged: no clause is longer.
_HEDGE_WITHIN = 200
_HEDGED = lazy_pattern(r"(?i)\b(?:might|may|maybe|perhaps|possibly|could(?! you))\b[^,.;:]*$")


def hedged_clamps(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Might have clamps in": where they are is not known by that, and stays to be asked."""
    kept = [
        act
        for act in made
        if not (isinstance(act, acts.SetClamps) and _HEDGED.search(_before(heard, act)))
    ]
    return kept or [acts.DontKnow(words=heard, span=(0, len(heard)))]


def _before(heard: str, act: Act) -> str:
    return heard[max(0, act.span[0] - _HEDGE_WITHIN) : act.span[0]]
