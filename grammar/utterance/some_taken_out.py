"""So many of those that are there, and that they went: "two of those are dead, I cut them out"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_COUNTS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5}
#: Of those that were told of, what is said of some, and why they go.
_SOME = lazy_pattern(
    r"(?i)\b(?P<some>(?P<n>one|two|three|four|five|[1-5])\s+of\s+(?:those|them|these|['’]em"
    r"|(?:the|those|these|my)\s+(?:two|three|four|five|six|seven|eight|\d)(?:\s+(?:cables?|wires?|runs?))?"
    r"|(?:the|those|these|my)\s+(?:cables?|wires?|runs?)))"
    r"(?:['’](?:s|re)\b|\s+(?:is|are|was|were|goes?|has|have|had|got|looks?|turns?|comes?|came|that"
    r"|which|i|we|just|never|don['’]?t|doesn['’]?t|isn['’]?t|aren['’]?t)\b)(?P<why>[^.;?]*?)[\s,.;–—-]*(?:(?:so|and|then|just|now|which)\s+)*$"
)
_ITSELF = lazy_pattern(r"(?i)\b(?:it|them|that|those|that one|those ones)\b")
_OF_CABLES = lazy_pattern(
    r"(?i)\b(?:abandoned|dead|cut|pull(?:ed|ing)?|live|feed(?:s|ing)?"
    r"|goes? (?:to )?no(?:where|thing)|to nothing|stub(?:s|bed)?|spare|nothing on"
    r"|cables?|wires?|runs?)\b"
)
_BACK = lazy_pattern(r"(?i)back to\b")


def some_taken_out(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts in which so many go as were told of, and neither all of them nor one unknown."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if isinstance(act, acts.OpenBox) and _goes_back(last, act, heard):
            continue  # "I cut it back to the basement"
        some = _SOME.search(heard[: act.span[0]]) if _of_those(act) else None
        if some is None or not isinstance(act, acts.Remove):
            kept.append(act)
            continue
        start = some.start("some")
        kept = [one for one in kept if one.span[0] < start]
        left[:] = [run for run in left if not start <= run.span[0] < act.span[1]]
        kept.append(_gone(act, some["some"], some["n"], heard[start : act.span[1]], start))
    return kept


def _of_those(act: Act) -> bool:
    """ "I cut it out": an order for what was told of just before."""
    return (
        isinstance(act, acts.Remove)
        and act.target.kind == "anything"
        and act.target.count is None
        and act.target.ordinal is None
        and _ITSELF.search(act.words) is not None
    )


def _gone(order: acts.Remove, some: str, count: str, words: str, start: int) -> acts.Remove:
    kind: acts.ThingKind = "wire" if _OF_CABLES.search(words) else "anything"
    number = int(count) if count.isdecimal() else _COUNTS[count.lower()]
    target = replace(order.target, kind=kind, count=number, words=some)
    return replace(order, target=target, words=words, span=(start, order.span[1]))


def _goes_back(last: Act | None, act: Act, heard: str) -> bool:
    return (
        isinstance(last, acts.Remove)
        and _BACK.match(act.words) is not None
        and not heard[last.span[1] : act.span[0]].strip()
    )
