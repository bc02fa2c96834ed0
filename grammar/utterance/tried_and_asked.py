"""What is tried in thought by the question that it stands beside: "with clamps, what would it be",
"minus one 14-2, would it fit in a 21", "take one out, would it fit then". None of it is told."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.clauses.mood import is_further
from boxaloud.grammar.lazy_patterns import lazy_pattern

WITHIN = (",", "", "-")
"""Breaks within a sentence."""
LEAD = (
    r"^(?:(?:and|so|but|ok|okay|well|now|then|or|hey|um|uh|no|wait|actually|i mean|say|hello|hi"
    r"|please) )*"
)
"""What may stand before all that is said."""
_THING = r"<(?:cable|device|conductors|fitting)"
_OR_CLAMPS = r"<(?:cable|device|conductors|fitting|clamps)"
#: "What would it be": asked of what is not so.
_WOULD_BE = (
    r"(?:what|where|how(?: (?:full|much|tight|bad|close|far))?) would (?:it|that|this|things|we"
    r"|the (?:box|total|fill|number|count)) (?:all |still |then )*"
    r"(?:be|come|end|sit|look|add|run)\b"
)
#: "With clamps what would it be"; a noun group of clamps has its "with" in itself.
_THOUGHT = lazy_pattern(
    LEAD + rf"(?:(?:(?:with|without|minus|plus|add|adding) )+.*{_OR_CLAMPS}.*|{_OR_CLAMPS}.*)"
    rf" {_WOULD_BE}"
)
_THOUGHT_BEHIND = lazy_pattern(LEAD + rf"{_WOULD_BE}.*{_OR_CLAMPS}")
_HEADS = ("with", "without")
#: "Without the second switch, how full is it": what is taken away in thought.
_WITHOUT = lazy_pattern(
    rf"{LEAD}(?:(?:without|minus|less) .*{_THING}|(?:<n:\d+> |a )?(?:less|fewer) {_THING}"
    rf"|{_THING}[^>]*:-1?|{_THING}[^>]*> (?:less|fewer)$)"
)
#: "With one more 14-2, would it fit", "with the clamps outside, would it fit".
_WITH = lazy_pattern(rf"{LEAD}with .*{_OR_CLAMPS}")
_NEXT = lazy_pattern(rf"{LEAD}with (?:a|an|the|<n:1>) (?:second|third|fourth|fifth|sixth) {_THING}")
_CLAMPS = lazy_pattern(r"<clamps")
#: "Take one 14-2 out, would it fit then?": an order that is only asked about.
_TAKES = lazy_pattern(
    rf"{LEAD}(?:take|remove|lose|drop|pull|ditch|scratch|swap|change|trade|get rid of) .*{_THING}"
)
_WOULD_IT = lazy_pattern(
    LEAD + r"would (?:it|that|this|they|the box|everything|all(?: of (?:it|that|this))?)\b"
)
_BESIDE = lazy_pattern(LEAD + rf"(?:(?:with|plus|add) .*)?{_OR_CLAMPS}")
_ASKED_OF = lazy_pattern(LEAD + _WOULD_BE)


def only_tried(parts: Sequence[Clause], place: int) -> bool:
    """Whether a clause, or the question behind it in the same sentence, asks what would be with
    what it names, or without."""
    clause = parts[place]
    if _in_thought(clause):
        return True
    if place + 1 == len(parts) or clause.closes not in WITHIN or clause.mood != "declarative":
        return False
    if place and parts[place - 1].found:
        return False  # "two 14-2s, without a stud, does it fit?"
    asked = parts[place + 1]
    return _beside(clause, asked) or (asked.mood != "declarative" and _before(clause, asked))


def _in_thought(clause: Clause) -> bool:
    """ "With clamps what would it be", "what would it be with clamps": nothing of it is so yet."""
    if _THOUGHT_BEHIND.match(clause.line):
        return True
    if _THOUGHT.match(clause.line) is None:
        return False
    return _with_said(clause)


def _beside(clause: Clause, asked: Clause) -> bool:
    """ "With clamps, what would it be": as without the comma."""
    if not _ASKED_OF.match(asked.line) or not _BESIDE.match(clause.line):
        return False
    return _with_said(clause)


def _with_said(clause: Clause) -> bool:
    first = clause.found[0]
    return not clause.line.startswith("<") or first.words.lower().startswith(_HEADS)


def _before(clause: Clause, asked: Clause) -> bool:
    """ "With one more 14-2, would it fit": what a question takes in or leaves out."""
    if _WITHOUT.match(clause.line):
        return True
    would = _WOULD_IT.match(asked.line) is not None
    if _WITH.match(clause.line):
        further = is_further(clause) or _NEXT.match(clause.line) is not None
        return further or (would and _CLAMPS.search(clause.line) is not None)
    return would and _TAKES.match(clause.line) is not None
