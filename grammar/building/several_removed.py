"""Several things that one order takes out: "lose the stud and the switch"."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.clauses.act_fields import THINGS, reference_to
from boxaloud.grammar.clauses.clause import Element
from boxaloud.grammar.clauses.referring_expressions import refer

_PLACED = frozenset(
    {"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "last"}
)
_POINTS_TO_ONE = _PLACED | {"the", "that", "this", "my"}


def each_removed(covered: Sequence[Element], span: tuple[int, int], telling: Telling) -> list[Act]:
    """ "Lose the stud and the switch": each by itself, the first with the words that order it."""
    made: list[Act] = []
    for place, element in enumerate(covered):
        found = element.found
        if found is None or found.kind not in (*THINGS, "clamps", "part", "barrier"):
            continue
        first = place
        while first and covered[first - 1].tag in _POINTS_TO_ONE:
            first -= 1
        exact = _PLACED.isdisjoint(one.tag for one in covered[first:place])
        start = found.span[0] if made else min(span[0], found.span[0])
        made.append(
            acts.Remove(
                target=reference_to(found)
                if exact
                else refer(covered[first : place + 1], telling.heard),
                words=telling.heard[start : found.span[1]],
                span=(start, found.span[1]),
                function="request",
            )
        )
    return made
