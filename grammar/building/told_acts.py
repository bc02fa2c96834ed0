"""The acts of a clause that tells: what is entered, denied, corrected, taken out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.building.builders import BUILDERS
from boxaloud.grammar.building.plain_things import plain_acts
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.clauses.act_fields import THINGS, act_of
from boxaloud.grammar.clauses.clause import Clause, Element
from boxaloud.grammar.patterns.patterns import Match, matches


def tell(telling: Telling) -> list[Act]:
    """The acts of a clause, in the order said."""
    asked = [act for found in telling.clause.asked if (act := act_of(found)) is not None]
    told: list[Act] = []
    left: Telling | None = telling
    while left is not None:  # a loop: a clause may go on a thousand times
        made, left = _first_told(left)
        told += made
    return [*told, *asked]


def _first_told(telling: Telling) -> tuple[list[Act], Telling | None]:
    """What the pattern that decides makes, and what is still to be told behind it."""
    for match in matches(telling.clause):
        made = BUILDERS[match.act](match, telling)
        if made is not None:
            return _with_rest(match, made, telling)
    return plain_acts(telling, telling.clause.elements), None


def _with_rest(match: Match, made: list[Act], telling: Telling) -> tuple[list[Act], Telling | None]:
    """What a pattern made, with what the clause tells by itself before it; and the rest."""
    covered = match.covered()
    before = telling.clause.elements[: covered.start]
    after = telling.clause.elements[covered.stop :]
    plain = replace(telling, corrective=False)
    beside = _unused(match) if match.act in _LEAVING else []
    told = [*plain_acts(plain, [*before, *beside], rest=True), *made]
    if len(after) > 2 and any(
        element.found is not None or element.tag[0] == "<" for element in after
    ):
        if after[0].tag in ("and", "but", "so", "then"):
            after = after[1:]
        line = " ".join([element.tag for element in after])
        return told, replace(plain, clause=Clause(after, line=line))
    return [*told, *plain_acts(plain, after, rest=True)], None


#: Patterns that may pass over a thing without saying anything of it: it is told by itself.
_LEAVING = frozenset({"box_number", "restate_number", "canopy", "more"})


def _unused(match: Match) -> list[Element]:
    """The things within a pattern that no part of it is about."""
    used: set[int] = set()
    for group in match.found.re.groupindex:
        if match.has(group):
            used |= set(match.places(group))
    return [
        match.clause.elements[place]
        for place in match.covered()
        if place not in used and (found := match.clause.elements[place].found) is not None
        and found.kind in THINGS
    ]  # fmt: skip


def parts_of(made: Sequence[Act]) -> Iterator[Act]:
    """The acts, those of suppositions among them."""
    for act in made:
        yield act
        if isinstance(act, acts.Suppose):
            yield from parts_of(act.acts)
