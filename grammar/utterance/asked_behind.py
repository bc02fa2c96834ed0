"""What is asked, or left open, in a few words behind what is told: "… does that matter"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.clauses.mood import find_mood
from boxaloud.grammar.clauses.most_wanted import most_asked_behind
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
_CHOOSES = lazy_pattern(
    r"^(?:(?:and|so|but|ok|okay|well|now|then|or|hey) )*(?:which|what|whose|who|is|are|does|do)\b"
)
_OR = lazy_pattern(
    r"(?:(?:the|that|this|it|a|an|one|those|these|mine|old|new|other|<[^>]*>) )+or"
    r"(?: (?:the|that|this|it|a|an|one|those|these|mine|old|new|other|<[^>]*>))+(?: then)?"
)
_OF_THAT = lazy_pattern(
    r"^(?:(?:and|so|but|ok|okay|well|now|then|or|hey) )*(?:is|are|does|do|did|was|were|has|have"
    r"|will|would|should|how|why|what|when|where)\b.*\b(?:that|it|they|this|those|these|them)\b"
)
_NAMED_AFTER = lazy_pattern(
    r"<(?:device|terminal_block|fitting|clamps|grounds|jumper|conductors)[^>]*:d>"
    r"|(?:the|those|these|that|this) <(?:device|terminal_block|fitting|clamps|grounds|jumper"
    r"|conductors|uncounted)[^>]*>"
)


_BY_THE_WAY = lazy_pattern(r"(?:please|then|now|thanks|thank you|though)(?: .*)?")


def _goes_on(asked: Clause, clause: Clause, behind: Sequence[Clause]) -> bool:
    """ "Which is roomier, that or the 18", "is that new, the terminal block": what is asked of."""
    if asked.mood != "interrogative" or asked.closes not in (",", ""):
        return False
    ends = not behind or (len(behind) == 1 and _BY_THE_WAY.fullmatch(behind[0].line) is not None)
    if not ends and clause.closes not in ("?", "."):
        return False
    if _CHOOSES.match(asked.line) and _OR.fullmatch(clause.line):
        return True
    return bool(_OF_THAT.match(asked.line) and _NAMED_AFTER.fullmatch(clause.line))


def _as_one(asked: Clause, clause: Clause) -> Clause:
    """The question with what it is asked of."""
    elements = [*asked.elements, *clause.elements]
    line = f"{asked.line} {clause.line}"
    whole = Clause(elements, line=line, opens=asked.opens, closes=clause.closes)
    find_mood(whole)
    return whole


def asked_apart(parts: Sequence[Clause]) -> list[Clause]:
    """The clauses, each without an "if that matters" behind it, and "does that matter" apart;
    what is asked of behind its question, "which is roomier, that or the 18", joined to it."""
    made: list[Clause] = []
    for place, clause in enumerate(parts):
        if made and _goes_on(made[-1], clause, parts[place + 1 :]):
            made[-1] = _as_one(made[-1], clause)
        elif (found := _IF_IT_MATTERS.search(clause.line)) is not None and "<" in clause.line:
            made.append(_part(clause, 0, found.start(), clause.closes))
        elif (found := _DOES_IT.search(clause.line)) is not None and _tells(clause, found.start()):
            made += [
                _part(clause, 0, found.start(), ","),
                replace(_part(clause, found.start(), len(clause.line), clause.closes), opens=","),
            ]
        elif (start := most_asked_behind(clause.line)) and (
            _part(clause, 0, start, ",").mood == "declarative"
        ):
            made += [
                _part(clause, 0, start, ","),
                replace(_part(clause, start, len(clause.line), clause.closes), opens=","),
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
