"""What hangs on a cable and nobody knows: "a 14-2 with a gizmo on it"."""

from __future__ import annotations

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_OTHER = grammar_data.table("clauses")["other"]
_PASSED = frozenset(_OTHER["matter"]) | {
    "ground", "grounds", "tag", "tape", "flag", "mark", "staple", "staples", "bend", "kink",
    "jacket", "nick", "loop", "slack", "foot", "feet", "inches", "sheath", "name", "number", "date",
    "nut", "nuts", "wirenut", "wirenuts", "load", "breaker",
}  # fmt: skip
"""What is no device, or is counted with the cable itself."""
_WITH = lazy_pattern(
    r"(?i)[\s,]*(?:(?:in|down|up|out|here|there|coming in|too)[\s,]+)?"
    r"(?:and|with|w/|has|having|that has|which has)"
    r" ((?:a|an|one|its|another|some|two|three|this|these)"
    r" (?:(?!with\b|and\b|on\b|no\b)[a-z0-9./'-]+ ){1,4}?)"
    r"(?:hanging |hung |wired |hooked |attached |landed |tied |sitting |mounted |screwed )?"
    r"(?:on(?: to)?|onto|off(?: of)?|to|at the end of) (?:it|them|that|those|each|both|the end)\b"
)
#: "A twenty amp single fourteen cubes", as an ear writes it: nothing says what the single is.
_SINGLE = lazy_pattern(
    r"(?i)\b(?:an?|one|two|and|with) [a-z0-9-]+ amp singles?\b(?!-| ?(?:pole|phase|gang))"
)
ON_A_CABLE_PIECES = ("with", "and", "w/", "has", "having", "single")
"""One of them stands in what either expression finds."""


def heads_behind_with(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """No verdict stands over a thing on a cable of which nothing was made."""
    for single in _SINGLE.finditer(heard):
        _asked(single.span(), made, heard, left)
    for act in made:
        if not isinstance(act, (acts.AddCable, acts.AddConductors)):
            continue
        found = _WITH.match(heard, act.span[1])
        if found is None or _PASSED.intersection(found[1].lower().replace("'", " ").split()):
            continue
        _asked((found.start(1), found.start(1) + len(found[1].rstrip())), made, heard, left)
    return made


def _asked(span: tuple[int, int], made: list[Act], heard: str, left: list[Unread]) -> None:
    """Leave words unread, and weighing, of which no act was made."""
    spans = [one.span for one in made] + [run.span for run in left]
    if any(begin < span[1] and span[0] < end for begin, end in spans):
        return
    left.append(Unread(heard[span[0] : span[1]], span, True))
