"""How many boxes there are like the one that is described: it says nothing of what is in it."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern

#: "We have 120 of them like this", "times six in this unit": how many boxes there are like it.
_ALIKE = (
    r" (?:(?:are|is|all|just|exactly|made|done) )*(?:like (?:this|that|it)|(?:the )?same|identical"
    r"|alike|(?:on|in) (?:this|the|that|each|every) "
)
_UNIT = r"(?:floor|unit|building|house|job|wing|apartment|hall|corridor|hallway)"
_BOXES_LIKE_IT = lazy_pattern(
    rf"^(?:[a-z]+ ){{0,4}}<n:\d+> boxes{_ALIKE}{_UNIT})\b[a-z ]*$"
    rf"|^(?:so |and |this )*(?:times|x) <n:\d+> (?:on|in|for|per)"
    rf" (?:this|the|that|each|every) {_UNIT}\b[a-z ]*$"
    r"|^(?:[a-z]+ ){0,4}box(?:es)? (?:times|x) <n:\d+>$"
)
#: The same at the head, where it is of nothing that was told before.
_THEM_LIKE_IT = lazy_pattern(
    rf"^(?:[a-z]+ ){{0,4}}<n:\d+> of (?:them|these|those)(?: boxes)?{_ALIKE}{_UNIT})\b[a-z ]*$"
)


def counts_boxes(parts: Sequence[Clause], place: int) -> bool:
    """Whether a clause says only how many boxes there are like this one."""
    line = parts[place].line
    if _BOXES_LIKE_IT.search(line):
        return True
    if any(clause.found for clause in parts[:place]):
        return False
    return _THEM_LIKE_IT.search(line) is not None
