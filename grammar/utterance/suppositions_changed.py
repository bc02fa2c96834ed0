"""What is supposed over more than one clause: "what if I add a dimmer, no wait, add a GFCI", "could
we make it a 20 and add two 14-2s?". None of it is told."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.clauses.mood import is_further
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.correction_markers import is_marker

_WITHIN = (",", "", "-")
_LEAD = (
    r"^(?:(?:and|so|but|ok|okay|well|now|then|or|hey|um|uh|no|wait|actually|i mean|say|hello|hi"
    r"|please) )*"
)
_CAN_WE = lazy_pattern(_LEAD + r"(?:can|could|would) (?:we|i|they)\b")
_VERB = (
    r"(?:add|put|use|take|swap|make|remove|drop|pull|run|bring|throw|stick|change|replace|lose"
    r"|go with|land|move|switch)\b"
)
_ORDER = lazy_pattern(_LEAD + r"(?:(?:i|we|you|just|what if|if|with) )*" + _VERB)
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
    if _in_thought(clause) or _is_its_verb(parts, place) or _only_tried(parts, place):
        return True
    if not _CAN_WE.match(clause.line) or clause.closes not in _WITHIN or place + 1 == len(parts):
        return False
    following = parts[place + 1]
    return following.mood == "declarative" and _ORDER.match(following.line) is not None


_THING = r"<(?:cable|device|conductors|fitting)"
_OR_CLAMPS = r"<(?:cable|device|conductors|fitting|clamps)"
#: "What would it be": asked of what is not so.
_WOULD_BE = (
    r"(?:what|where|how(?: (?:full|much|tight|bad|close|far))?) would (?:it|that|this|things|we"
    r"|the (?:box|total|fill|number|count)) (?:all |still |then )*(?:be|come|end|sit|look|add|run)\b"
)
#: "With clamps what would it be"; a noun group of clamps has its "with" in itself.
_THOUGHT = lazy_pattern(
    _LEAD + rf"(?:(?:(?:with|without|minus|plus|add|adding) )+.*{_OR_CLAMPS}.*|{_OR_CLAMPS}.*) {_WOULD_BE}"
)
_THOUGHT_BEHIND = lazy_pattern(_LEAD + rf"{_WOULD_BE}.*{_OR_CLAMPS}")
_HEADS = ("with", "without")


def _in_thought(clause: Clause) -> bool:
    """ "With clamps what would it be", "what would it be with clamps": nothing of it is so yet."""
    if _THOUGHT_BEHIND.match(clause.line):
        return True
    if _THOUGHT.match(clause.line) is None:
        return False
    first = clause.found[0]
    named = first.words.lower().startswith(_HEADS)
    return named or not clause.line.startswith("<")


#: "Without the second switch, how full is it": what is taken away in thought.
_WITHOUT = lazy_pattern(
    rf"{_LEAD}(?:(?:without|minus|less) .*{_THING}|(?:<n:\d+> |a )?(?:less|fewer) {_THING}"
    rf"|{_THING}[^>]*:-1?|{_THING}[^>]*> (?:less|fewer)$)"
)
#: "With one more 14-2, would it fit", "with the clamps outside, would it fit".
_WITH = lazy_pattern(rf"{_LEAD}with (?:.*{_THING}|.*<clamps)")
_NEXT = lazy_pattern(
    rf"{_LEAD}with (?:a|an|the|<n:1>) (?:second|third|fourth|fifth|sixth) {_THING}"
)
_CLAMPS = lazy_pattern(r"<clamps")
#: "Take one 14-2 out, would it fit then?": an order that is only asked about.
_TAKES = lazy_pattern(
    rf"{_LEAD}(?:take|remove|lose|drop|pull|ditch|scratch|swap|change|trade|get rid of) .*{_THING}"
)
_WOULD_IT = lazy_pattern(
    _LEAD + r"would (?:it|that|this|they|the box|everything|all(?: of (?:it|that|this))?)\b"
)


def _only_tried(parts: Sequence[Clause], place: int) -> bool:
    """Whether a clause says what a question in the same sentence leaves out, or takes in."""
    clause = parts[place]
    if place + 1 == len(parts) or clause.closes not in _WITHIN or clause.mood != "declarative":
        return False
    if place and parts[place - 1].found:
        return False  # "two 14-2s, without a stud, does it fit?"
<<<<<<< HEAD
    asked = parts[place + 1]
    if asked.mood == "declarative":
        return False
    if _WITHOUT.match(clause.line):
        return True
    would = _WOULD_IT.match(asked.line) is not None
    if _WITH.match(clause.line):
        return (would and _CLAMPS.search(clause.line) is not None) or (
            is_further(clause) or _NEXT.match(clause.line) is not None
        )
    return would and _TAKES.match(clause.line) is not None
=======
    if _asked_of(clause, parts[place + 1]):
        return True
    return parts[place + 1].mood != "declarative" and _WITHOUT.match(clause.line) is not None


_WITH = lazy_pattern(_LEAD + rf"(?:(?:with|plus|add) .*)?{_THING}")
_ASKED_OF = lazy_pattern(_LEAD + _WOULD_BE)


def _asked_of(clause: Clause, question: Clause) -> bool:
    """ "With clamps, what would it be": as without the comma."""
    if not _ASKED_OF.match(question.line) or not _WITH.match(clause.line):
        return False
    return not clause.line.startswith("<") or clause.found[0].words.lower().startswith(_HEADS)


#: "Would a larger box, 21, do it?": the verb of what is asked, and no order.
_WOULD = lazy_pattern(_LEAD + r"(?:would|will|could|can|might|does|should)\b")
_DO_IT = lazy_pattern(r"(?:<do_it[^>]*>|do(?: it| that| the (?:job|trick))?|work|be enough)$")


def _is_its_verb(parts: Sequence[Clause], place: int) -> bool:
    """Whether a clause is the verb of the question that the clauses before it began."""
    if not place or not _DO_IT.match(parts[place].line):
        return False
    first = place - 1
    while first and parts[first - 1].closes in _WITHIN:
        first -= 1
    asked = any(_WOULD.match(clause.line) for clause in parts[first:place])
    return parts[place - 1].closes in _WITHIN and asked


def _is_corrected(first: Clause, marker: Clause, last: Clause) -> bool:
    within = first.closes in _WITHIN and marker.closes in _WITHIN
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
