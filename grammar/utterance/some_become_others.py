"""Of several that are there, some are another: "of the two duplexes the left one's a GFCI"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import pointed_at
from boxaloud.grammar.clauses.text_before import just_before
from boxaloud.grammar.lazy_patterns import lazy_pattern

_OF = lazy_pattern(r"(?i)(?:^|[\s,.;:])(?:out )?of $")
_THOSE = lazy_pattern(r"(?i)(?:the|those|these|my|our)\b")
_SIDE = (
    r"(?:left|right|top|bottom|upper|lower|middle|end|front|back|near|far|first|second|third|last"
    r"|other|old|new)(?:[ -]?(?:hand|most))?(?: side)?"
)
_SOME = lazy_pattern(
    rf"(?i)\s*,?\s*(?:(?:the|my|only|just|at least|it(?:['’]s| is)|that)\s+)*(?:{_SIDE}\s+)?"
    rf"(?:(?P<n>one|two|three|four|1|2|3|4)|{_SIDE})(?:\s+of\s+(?:them|those))?"
    r"(?:\s+(?:that|which))?"
    r"(?:\s*['’]s|\s*['’]re|\s+(?:is|are|was|were|will be|became|turned out to be))"
    r"(?:\s+(?:a|an|actually|really|just|now|going to be|supposed to be|to be))*\s+"
)
_COUNTS = {"one": 1, "two": 2, "three": 3, "four": 4, "1": 1, "2": 2, "3": 3, "4": 4}
_KINDS = (acts.AddDevice, acts.AddCable, acts.AddConductors)


def some_become_others(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts, in which some of those that were told of are replaced, and none comes in: each
    counts once, 314.16(B)(1) and (4)."""
    kept: list[Act] = []
    for act in made:
        at = -2 if len(kept) > 1 and isinstance(kept[-1], acts.Number) else -1
        last = kept[at] if kept else None
        changed = _changed(last, act, heard) if isinstance(last, _KINDS) else None
        if changed is not None:
            kept[at:] = [changed]
            left[:] = [run for run in left if not _within(run.span, changed.span)]
        else:
            kept.append(act)
    return kept


def _within(inner: tuple[int, int], outer: tuple[int, int]) -> bool:
    return outer[0] <= inner[0] and inner[1] <= outer[1]


def _changed(was: Act, new: Act, heard: str) -> acts.Replace | None:
    """The act for "of the two duplexes one is a GFCI"; None for other words."""
    if not _OF.search(just_before(heard, was.span[0])) or not _THOSE.match(was.words):
        return None
    thing = new.thing if isinstance(new, acts.Replace) else new
    if not isinstance(was, _KINDS) or type(thing) is not type(was) or not isinstance(thing, _KINDS):
        return None
    some = _SOME.fullmatch(heard[was.span[1] : thing.span[0]] + " ")
    if some is None:
        return None
    count = _COUNTS.get((some["n"] or "one").lower(), 1)
    span = (was.span[0], thing.span[1])
    doubts = tuple(doubt for doubt in thing.doubts if doubt.reason != "vague")
    target = replace(pointed_at(was, was.words), count=count)
    return acts.Replace(
        target=target, thing=replace(thing, count=thing.count or count, doubts=doubts),
        words=heard[slice(*span)], span=span, doubts=doubts, function="correction",
    )  # fmt: skip


#: "The left" before a cable, or at the head of what points at it: one of several.
_AT_A_SIDE = (
    r"(?i)\b(?:the|that|this|my) (?:left|right|top|bottom|upper|lower|front|back|rear|near|far"
    r"|middle)(?:[ -]?(?:hand|most|side))?"
)
_BEFORE = lazy_pattern(rf"{_AT_A_SIDE} $")
_WITHIN = lazy_pattern(rf"{_AT_A_SIDE} ")


def one_at_a_side(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The left 14-2 is really a 14-3": one of them is, wherever the others are."""
    return [_one_of_them(act, heard) for act in made]


def _one_of_them(act: Act, heard: str) -> Act:
    if not isinstance(act, acts.Replace) or act.target.count or act.target.ordinal:
        return act
    said = _BEFORE.search(just_before(heard, act.span[0])) or _WITHIN.match(act.words)
    if said is None or not isinstance(act.thing, acts.AddCable):
        return act
    thing = replace(act.thing, count=1)
    return replace(act, target=replace(act.target, count=1), thing=thing)


_SWAP = lazy_pattern(
    r"(?i)\b(?:swap|trade|change|switch|exchange|replace)(?: out| over)? (?:the |my |our )?$"
)
_FOR_THAT = lazy_pattern(
    r"(?i)(?: out| over)? (?:for|with|to|into|by) (?:that|it|this|them|those|these)"
    r"(?: one| new one)?(?: instead| then| now)?(?=\s*(?:[.,;!?]|$))"
)


def swapped_for_that(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "They pulled a 14-3 after all, so swap one of the 14-2s for that": what was named before
    comes in the other's place, and neither comes in besides."""
    kept: list[Act] = []
    for was in made:
        new = kept[-1] if kept else None
        swapped = _for_that(new, was, heard) if isinstance(new, _KINDS) else None
        if swapped is None:
            kept.append(was)
            continue
        kept[-1] = swapped
        left[:] = [run for run in left if not _within(run.span, swapped.span)]
    return kept


def _for_that(new: Act, was: Act, heard: str) -> acts.Replace | None:
    if type(was) is not type(new) or not isinstance(was, _KINDS) or not isinstance(new, _KINDS):
        return None
    order = _SWAP.search(heard, new.span[1], was.span[0])
    that = _FOR_THAT.match(heard, was.span[1])
    if order is None or that is None:
        return None
    span = (new.span[0], that.end())
    return acts.Replace(
        target=replace(pointed_at(was, was.words), count=was.count or new.count or 1), thing=new,
        words=heard[slice(*span)], span=span, doubts=new.doubts, function="correction",
    )  # fmt: skip
