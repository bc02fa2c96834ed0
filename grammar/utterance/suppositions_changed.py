"""What is supposed over more than one clause: "what if I add a dimmer, no wait, add a GFCI", "could
we make it a 20 and add two 14-2s?". None of it is told."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.correction_markers import is_marker
from boxaloud.grammar.utterance.tried_and_asked import LEAD, WITHIN, only_tried

_CAN_WE = lazy_pattern(LEAD + r"(?:can|could|would) (?:we|i|they)\b")
_VERB = (
    r"(?:add|put|use|take|swap|make|remove|drop|pull|run|bring|throw|stick|change|replace|lose"
    r"|go with|land|move|switch)\b"
)
_ORDER = lazy_pattern(LEAD + r"(?:(?:i|we|you|just|what if|if|with) )*" + _VERB)
_ADDS = lazy_pattern(
    r"\b(?:add|added|adding|put|stick|throw|run|bring|have|had|use|with|there is|there was)\b"
)


def suppositions_changed(parts: Sequence[Clause]) -> list[Clause]:
    """The clauses, with what corrects a supposition, or goes on with it, supposed as well."""
    kept = list(parts)
    for place, clause in enumerate(kept):
        if _goes_on(kept, place):
            kept[place] = replace(clause, mood="conditional", modal=True)
    place = 0
    while place + 2 < len(kept):
        if _is_corrected(*kept[place : place + 3]):
            kept[place : place + 3] = _corrected(*kept[place : place + 3])
        place += 1
    return kept


def _goes_on(parts: Sequence[Clause], place: int) -> bool:
    """ "Could we make it a 20 and add two 14-2s?": the second is asked as the first is."""
    clause = parts[place]
    if only_tried(parts, place) or _is_its_verb(parts, place):
        return True
    if not _CAN_WE.match(clause.line) or clause.closes not in WITHIN or place + 1 == len(parts):
        return False
    following = parts[place + 1]
    return following.mood == "declarative" and _ORDER.match(following.line) is not None


#: "Would a larger box, 21, do it?": the verb of what is asked, and no order.
_WOULD = lazy_pattern(LEAD + r"(?:would|will|could|can|might|does|should)\b")
_DO_IT = lazy_pattern(r"(?:<do_it[^>]*>|do(?: it| that| the (?:job|trick))?|work|be enough)$")


def _is_its_verb(parts: Sequence[Clause], place: int) -> bool:
    """Whether a clause is the verb of the question that the clauses before it began."""
    if not place or not _DO_IT.match(parts[place].line):
        return False
    first = place - 1
    while first and parts[first - 1].closes in WITHIN:
        first -= 1
    asked = any(_WOULD.match(clause.line) for clause in parts[first:place])
    return parts[place - 1].closes in WITHIN and asked


def _is_corrected(first: Clause, marker: Clause, last: Clause) -> bool:
    within = first.closes in WITHIN and marker.closes in WITHIN
    return (
        first.mood == "conditional" and within and is_marker(marker)
        and last.mood == "declarative" and last.closes != "?" and bool(last.found)
    )  # fmt: skip


def _corrected(first: Clause, marker: Clause, last: Clause) -> list[Clause]:
    """What stands in place of a supposition; where it has no verb of its own, all of it is only
    asked."""
    if _ORDER.match(last.line) or _ADDS.search(first.line):
        return [replace(last, mood="conditional", modal=True)]
    return [first, marker, replace(last, closes="?")]
