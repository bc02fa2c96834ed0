"""Places said of clamps: inside or outside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.clauses.clause import Element
from boxaloud.grammar.clauses.polarity import is_negator
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.statements import Statement

PLACE_WORDS: dict[str, acts.Placing] = {
    "in": "inside",
    "out": "outside",
    "inside": "inside",
    "internal": "inside",
    "outside": "outside",
    "external": "outside",
    "exterior": "outside",
}
ALL_PLACED = lazy_pattern(
    r"(?:(?:no|i|looked|again|and|but|well|so|actually|that) )*(?:(?:both|all|each|two|<n:2>)"
    r"(?: of (?:them|those|these))?|they|those|these|them|everything)"
    r" (?:(?:is|are|actually|both|all|really|on|the) )*(inside|outside|internal|external)"
    r"(?: of it| of the box| the box)?"
)


def clamps_placed(made: list[Act], elements: Sequence[Element]) -> list[Act]:
    """ "the connectors are the kind that screw on outside the box"."""
    last = elements[-1].tag if elements else ""
    places = {
        PLACE_WORDS[e.tag]
        for e in elements
        if e.tag in PLACE_WORDS and (len(e.tag) > 3 or e.tag == last)
    }
    if len(places) == 1 and not any(map(is_negator, elements)):
        _place(made, places.pop())
    elif len(places) == 1 and (other := _NOT_THERE.get(places.pop())) and _denied_place(elements):
        _place(made, other)
    return made


_NOT_THERE: dict[acts.Placing, acts.Placing] = {"inside": "outside", "outside": "inside"}


def _denied_place(elements: Sequence[Element]) -> bool:
    """ "The clamps aren't inside": the place itself is denied, at the end of the clause."""
    last = len(elements) - 1
    return last > 0 and elements[last].tag in PLACE_WORDS and is_negator(elements[last - 1])


def place_of(found: Statement) -> acts.Placing:
    """The place that a statement names; `present` where it names none."""
    return PLACE_WORDS.get(str(found.get("where")), "present")


_THEY_ARE = ("they're", "they’re", "they are", "theyre")


def place_clamps(made: list[Act], found: Statement) -> list[Act]:
    """A place beside clamps is theirs. "Clamps outside hang on they're inside": where another is
    told already, it is a second one, and which is right is yet to be settled."""
    where = place_of(found)
    placed = [act.where for act in made if isinstance(act, acts.SetClamps)]
    told = bool(placed) and placed[-1] not in ("present", where)
    if told and found.words.lower().startswith(_THEY_ARE):
        return [acts.Place(where=where, words=found.words, span=found.span)]
    _place(made, where)
    return []


def points_back(elements: Sequence[Element], place: int) -> bool:
    """ "(Clamps inside,) wait they're outside two 14-2s": of what was said before the clause."""
    found = elements[place].found
    behind = found is not None and found.words.lower().startswith(_THEY_ARE)
    return behind and all(e.found is None or e.found.kind == "no" for e in elements[:place])


def _place(made: list[Act], where: acts.Placing) -> None:
    """ "no clamps, inside or out", "clamps all on the inside": a place beside clamps is theirs."""
    for at, act in enumerate(made):
        if isinstance(act, acts.SetClamps) and act.where == "present":
            made[at] = replace(act, where=where)
