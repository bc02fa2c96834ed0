"""A report that is asked for in the form of a question."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.clauses.act_fields import act_of
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern

_ORDERED = lazy_pattern(r"\b(?:can|could|would|will|may) (?:you|i|we)\b")
_HOW = lazy_pattern(r"\bhow\b")


def report_asked(clause: Clause, words: str, span: tuple[int, int]) -> list[Act]:
    """ "Can you send me the report" is an order put politely; "should I print it" is none."""
    if _HOW.search(clause.line):
        return [acts.Ask(about="how_report", words=words, span=span)]
    if clause.mood == "conditional" or not _ORDERED.search(clause.line):
        return [acts.AskUnknown(words=words, span=span)]
    found = (*clause.asked, *clause.found)
    return [act for one in found if one.kind == "report" and (act := act_of(one)) is not None]
