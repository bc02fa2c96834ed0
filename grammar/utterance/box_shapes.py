"""The shape, the face and the gangs of a box that are said beside its size or its volume."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern


def shape_beside_volume(act: Act, made: list[Act]) -> bool:
    """ "A 21 cubic inch four square": what shape it has, where its volume stands right before."""
    place = made.index(act)
    before = made[place - 1] if place else None
    return (
        isinstance(act, acts.SetSize)
        and (act.depth, act.height) == (None, None)
        and act.function == "inform"
        and isinstance(before, acts.SetVolume)
        and not before.doubts
    )


def its_kind(act: Act) -> Act:
    """What a size without a depth says of a box whose volume is known: its gangs, its material."""
    if not isinstance(act, acts.SetSize):
        return act
    return acts.NameBoxKind(gangs=act.gangs, material=act.material, words=act.words, span=act.span)


def gangs_of(kind: acts.NameBoxKind, last: acts.SetSize) -> bool:
    """ "A masonry box, 3-1/2 deep, single gang": so many gangs of the size said before it."""
    return (
        last.family in ("masonry", "device", "handy")
        and last.gangs is None
        and (kind.family, kind.material) == (None, None)
    )


def face_beside_depth(first: acts.SetSize, other: acts.SetSize) -> acts.SetSize:
    """ "A masonry box, 3-1/2 deep, 3-3/4 by 2": where the depth is said, two measures more are the
    face."""
    face = other.width is not None and other.height is None and other.family is None
    if (
        first.family in ("masonry", "device", "handy")
        and first.width is None
        and isinstance(first.depth, Decimal)
        and isinstance(other.depth, Decimal)
        and face
    ):
        return replace(other, height=other.depth, depth=None)
    return other


_DEEP = lazy_pattern(r"(?i)\b(?:deep|depth|shallow)\b")
_CUBIC = lazy_pattern(r"(?i)\bcu\b|\bcub|\bin3\b|in³|\bci\b")
_DEEPEST = 6


def depth_not_volume(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Change to octagon deep 2-1/8": a fraction of inches beside "deep" is a depth, and no
    volume, Table 314.16(A)."""
    return [_as_depth(act) for act in made]


def _as_depth(act: Act) -> Act:
    value = act.volume if isinstance(act, acts.SetVolume) else None
    if not isinstance(act, acts.SetVolume) or value is None or act.unit is not None:
        return act
    eighths = value * 8
    if value >= _DEEPEST or value == int(value) or eighths != int(eighths):
        return act
    if not _DEEP.search(act.words) or _CUBIC.search(act.words):
        return act
    return acts.SetSize(
        family=act.family, depth=value, material=act.material, gangs=act.gangs,
        words=act.words, span=act.span, function=act.function,
    )  # fmt: skip
