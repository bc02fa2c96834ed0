"""What the groups of a pattern stand for: numbers, things, references."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from typing import TypeAlias

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Thing
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.clauses.act_fields import thing_of
from boxaloud.grammar.clauses.clause import Element
from boxaloud.grammar.clauses.referring_expressions import number_in, refer
from boxaloud.grammar.lexer import numbers
from boxaloud.grammar.patterns.patterns import Match

#: Makes acts of a pattern; None where it is not of its kind after all, and the next is tried.
Builder: TypeAlias = Callable[[Match, Telling], list[Act] | None]


def pieces(match: Match, group: str) -> list[Element]:
    """The elements that a group of a pattern stands for."""
    return [match.clause.elements[place] for place in match.places(group)]


def words_of(match: Match, telling: Telling) -> tuple[str, tuple[int, int]]:
    """The words that a pattern covers, and their place in the utterance."""
    elements = [match.clause.elements[place] for place in match.covered()]
    start, end = elements[0].start, elements[-1].end
    return telling.heard[start:end], (start, end)


def target_of(match: Match, telling: Telling, group: str = "ref") -> Reference:
    """What a group points at; without the group, what all that is covered points at."""
    if match.has(group):
        return refer(pieces(match, group), telling.heard)
    return refer([match.clause.elements[place] for place in match.covered()], telling.heard)


def number_of(match: Match, group: str = "n") -> Decimal | None:
    """The number of a group; None where there is none."""
    if not match.has(group):
        return None
    text = match.found.group(group)
    if text == "both":
        return Decimal(2)
    for element in pieces(match, group):
        value = number_in(element.tag)
        if value is not None:
            return value
    return None


_LOOSE_COUNT = ("to ", "too ", "for ", "fore ")


def thing_in(match: Match, group: str) -> Thing | None:
    """The first thing of a group; None where there is none."""
    for element in pieces(match, group):
        if element.found is not None:
            thing = thing_of(element.found)
            if thing is not None and element.found.words.lower().startswith(_LOOSE_COUNT):
                # "change the 14-2s to 12-2s": the word that sounds like two is none
                return replace(
                    thing, count=None, doubts=tuple(d for d in thing.doubts if d.slot != "count")
                )
            return thing
        if element.tag.startswith("<pair:"):
            awg, conductors = numbers.pair(element.tag[6:-1])
            return acts.AddCable(
                awg=awg,
                conductors=conductors,
                words=element.tag[6:-1],
                span=(element.start, element.end),
            )
    return None


def doubts_in(match: Match, group: str = "n") -> tuple[acts.Doubt, ...]:
    """The doubts of what stands in a group."""
    for element in pieces(match, group):
        if element.found is not None and element.found.doubts:
            return element.found.doubts
    return ()
