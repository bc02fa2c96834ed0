"""What is asked, or left open, in a few words behind what is told: "… does that matter"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.clauses.mood import find_mood
from boxaloud.grammar.lazy_patterns import lazy_pattern

_IF_IT_MATTERS = lazy_pattern(
    r" (?:if (?:that|it|this) (?:matters|counts|helps|makes (?:a|any) difference"
    r"|changes (?:anything|things)|means anything|is of any (?:use|help))"
    r"|if you (?:care|need (?:it|that|to know)"
    r"|want (?:it|that|to know)|must know|were wondering)|for what it is worth|just so you know"
    r"|in case (?:that|it) matters)$"
)
_DOES_IT = lazy_pattern(
    r" (?:and |but |so )?(?:does|do|will|would|did) (?:that|it|this|they|those) (?:even |really"
    r" |still )*(?:matter|count|change|make (?:a|any) difference|affect|mean)\b.*$"
)


def asked_apart(parts: Sequence[Clause]) -> list[Clause]:
    """The clauses, each without an "if that matters" behind it, and "does that matter" apart."""
    made: list[Clause] = []
    for clause in parts:
        if (found := _IF_IT_MATTERS.search(clause.line)) is not None and "<" in clause.line:
            made.append(_part(clause, 0, found.start(), clause.closes))
        elif (found := _DOES_IT.search(clause.line)) is not None and _tells(clause, found.start()):
            made += [
                _part(clause, 0, found.start(), ","),
                replace(_part(clause, found.start(), len(clause.line), clause.closes), opens=","),
            ]
        else:
            made.append(clause)
    return made


def _tells(clause: Clause, end: int) -> bool:
    """Whether what stands before `end` tells something of a thing."""
    return clause.mood == "declarative" and "<" in clause.line[:end]


def _part(clause: Clause, start: int, end: int, closes: str) -> Clause:
    """The clause of the words from `start` to `end`, in its own mood."""
    line = clause.line[start:end].strip()
    first = clause.line.count(" ", 0, start + 1) if start else 0
    elements = clause.elements[first : first + line.count(" ") + 1]
    part = Clause(elements, line=line, opens=clause.opens, closes=closes)
    find_mood(part)
    return part
