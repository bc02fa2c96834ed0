"""A further one that is asked after and answered at once: "second stud? No. There's only one"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.building.neighbouring_words import is_further_one
from boxaloud.grammar.clauses.act_fields import THINGS, reference_to
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern

_NONE = "(?:no|nope|nah|negative)"
_ONLY = (
    r"(?:(?:there|it|we|i|is|are|has|have|got|that|they)(?: |$))*(?:just|only)"
    r"(?: (?:the|got|have|has))* <n:(?P<count>\d+)>(?: (?:there|in (?:it|there|here)|of them))?"
)
_DENIED = lazy_pattern(rf"{_NONE}(?: {_ONLY})?")
_COUNTED = lazy_pattern(_ONLY)


def further_denied(parts: Sequence[Clause], place: int, heard: str) -> tuple[int, list[Act]] | None:
    """Where reading goes on behind "second stud? no. only one", and its acts; None where the
    clause at that place asks after no further one, or the next does not deny it.

    "No" answers the question just put: what is there stays, and "only one" says how many it is.
    """
    clause = parts[place]
    last = len(clause.elements) - 1
    found = clause.elements[-1].found
    if clause.closes not in ("?", "") or place + 1 == len(parts) or found is None:
        return None
    if found.kind not in THINGS or not is_further_one(clause.elements, last):
        return None
    answer = _DENIED.fullmatch(parts[place + 1].line)
    if answer is None:
        return None
    end, counted = place + 2, answer
    if answer["count"] is None and end < len(parts):
        only = _COUNTED.fullmatch(parts[end].line)
        if only is not None:
            end, counted = end + 1, only
    if not clause.closes and end < len(parts):
        return None  # heard without its mark, "another 14-2 no" may begin a correction
    span = (clause.span[0], parts[end - 1].span[1])
    words = heard[slice(*span)]
    if counted["count"] is None:
        return end, [acts.Keep(words=words, span=span)]
    target = replace(reference_to(found), count=None)
    recount = acts.Recount(
        target=target, count=int(counted["count"]), words=words, span=span, function="correction"
    )
    return end, [recount]
