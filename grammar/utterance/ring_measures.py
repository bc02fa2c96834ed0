"""How deep a ring is, said behind it: "the ring is two and an eighth" measures no box."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers

#: What may stand between a ring and how deep it is.
_IS = lazy_pattern(
    r"(?i)(?:'s|\s|is|was|are|it|on|about|only|just|a|an|the|raised|that|which|its|depth|of|at|like"
    r"|measures|one)*"
)
_WORDS = lazy_pattern(r"\d+-\d/\d+|\d/\d+|\d+|[a-z]+")
_DEEPEST = 5
"""No ring is so deep, in inches."""


_LIKE_THE_BOX = (
    r"(?:the )?(?:(?:very )?same(?: exact)?(?:[- ](?:size|sized|depth|dimensions|kind|thing|deep))?"
    r"|matching|identical)"
)
_SAME_BEHIND = lazy_pattern(
    r"(?i)[\s,]*(?:(?:that['’]?s|that is|which is|is|it['’]?s|on it|on top|of|also|with|in|at)"
    r"[\s,]+)*"
    rf"(?:{_LIKE_THE_BOX}|just like (?:it|that|the box)|to match|as deep(?: as the box)?)\b"
)
_SAME_BEFORE = lazy_pattern(rf"(?i)\b{_LIKE_THE_BOX}\s*$")
_AHEAD = lazy_pattern(r"(?i)(?:with |and |an? |the |of )*")


_LARGEST_PLASTER_RING = Decimal(14)
"""Cubic inches: no plaster ring adds more, common practice; a number above is the box's mark."""


def ring_too_large(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "With a mud ring, marked 21.0": the ring's mark or the box's, which adds or does not,
    314.16(A); the number waits to be told again."""
    kept: list[Act] = []
    for act in made:
        ring = isinstance(act, acts.AddPart) and act.name == "plaster ring"
        if isinstance(act, acts.AddPart) and ring and (act.volume or 0) > _LARGEST_PLASTER_RING:
            left.append(Unread(act.words, act.span, True))
            act = replace(act, volume=None)
        kept.append(act)
    return kept


def ring_like_box(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A four square, inch and a half, with an extension ring of the same size": as deep as the
    box that it is on (a ring adds its own volume, 314.16(A))."""
    box: acts.SetSize | None = None
    kept: list[Act] = []
    for act in made:
        if isinstance(act, acts.SetSize) and isinstance(act.depth, Decimal):
            box = act
        elif box is not None and isinstance(act, acts.AddPart) and _is_same(act, heard):
            act = replace(act, family=box.family, width=box.width, depth=box.depth)
        kept.append(act)
    return kept


def _is_same(ring: acts.AddPart, heard: str) -> bool:
    """Whether a ring is said to be as large as the box."""
    if ring.name != "extension ring" or (ring.depth, ring.volume) != (None, None):
        return False
    start = ring.span[0]
    inside = _AHEAD.sub("", ring.words, count=1)
    return (
        _SAME_BEHIND.match(heard, ring.span[1]) is not None
        or _SAME_BEFORE.search(heard[:start]) is not None
        or re.match(rf"(?i){_LIKE_THE_BOX}\b", inside) is not None
    )


def ring_measured(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The ring is two and an eighth": the ring's depth, and the box stays what it was."""
    kept: list[Act] = []
    for act in made:
        ring = kept[-1] if kept else None
        depth = _depth_of(act)
        if (
            depth is not None
            and isinstance(ring, acts.AddPart)
            and _follows(ring, act.span[0], heard)
        ):
            kept[-1] = _measured(ring, depth, act.span[1])
            continue
        kept.append(act)
    return [_by_unread(act, heard, left) for act in kept]


def _by_unread(act: Act, heard: str, left: list[Unread]) -> Act:
    """A ring with the depth that was left unread behind it."""
    if not isinstance(act, acts.AddPart):
        return act
    for run in left:
        depth = _value(run.words)
        if depth is not None and _follows(act, run.span[0], heard):
            left.remove(run)
            return _measured(act, depth, run.span[1])
    return act


def _follows(ring: acts.AddPart, start: int, heard: str) -> bool:
    """Whether what begins at `start` is said of the ring before it."""
    if "ring" not in (ring.name or "") or (ring.depth, ring.volume) != (None, None):
        return False
    between = heard[ring.span[1] : start]
    told = re.search(r"(?i)'s|\bis\b|\bwas\b", between + ring.words[-2:])
    return told is not None and _IS.fullmatch(between) is not None


def _depth_of(act: Act) -> Decimal | str | None:
    """The depth that an act says, where it says no more."""
    if isinstance(act, acts.Number) and act.value is not None:
        return act.value if act.value < _DEEPEST and act.value != int(act.value) else None
    if isinstance(act, acts.SetSize) and act.family is None and act.width is None:
        return act.depth if act.gangs is None else None
    return None


def _value(words: str) -> Decimal | None:
    value = numbers.value(tuple(_WORDS.findall(words.lower())))
    return value if value is not None and 0 < value < _DEEPEST and value != int(value) else None


def _measured(ring: acts.AddPart, depth: Decimal | str, end: int) -> Act:
    shape = depth if isinstance(depth, Decimal) or ring.name == "extension ring" else None
    return replace(ring, depth=shape, span=(ring.span[0], end))
