"""Boxes that a question only names: options to choose from, and a size beside the volume."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_FIRST = lazy_pattern(r"(?i)(?:\(\s*a\s*\)|(?<![\w.])a\s*[.)](?=\s*\d))")
_SECOND = lazy_pattern(r"(?i)(?:\(\s*b\s*\)|(?<![\w.])b\s*[.)](?=\s*\d))")
#: "The choices are these. 3 x 2 x 2. 3 x 2 x 2-1/2."
_ANNOUNCED = lazy_pattern(
    r"(?i)\b(?:options|choices)(?: (?:are|here|given|i have|we have|that i have|on the truck|to"
    r" choose from))*(?: (?:these|the following|as follows))?\s*[:.,;]?\s*(?=\S*\d|(?:an?|the|one"
    r"|two|three|four)\b)"
)
_BOXES = (acts.SetSize, acts.SetVolume, acts.NameBoxKind, acts.Number, acts.Size)
_SHALLOWEST = Decimal(1)
"""Inches: every box of Table 314.16(A) is deeper."""


def without_options(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Which is the minimum: (a) 3 x 2 x 1-1/2, (b) 3 x 2 x 3-1/2": none of them is there."""
    start = _lettered(heard, made) if _FIRST.search(heard) else _announced(heard, made)
    if start is None:
        return made
    left[:] = [run for run in left if run.span[0] < start]
    return [act for act in made if act.span[0] < start or not isinstance(act, _BOXES)]


def _lettered(heard: str, made: list[Act]) -> int | None:
    """Where options begin that are listed by letters, and of which something is asked."""
    first = _FIRST.search(heard)
    if first is None or _SECOND.search(heard, first.end()) is None:
        return None
    asked = any(isinstance(act, (acts.Ask, acts.AskUnknown, acts.RoomFor)) for act in made)
    return first.start() if asked or "?" in heard else None


def _announced(heard: str, made: list[Act]) -> int | None:
    """Where options begin that are announced as such: two boxes behind the word, or more."""
    word = _ANNOUNCED.search(heard)
    if word is None:
        return None
    named = [act for act in made if isinstance(act, _BOXES) and act.span[0] >= word.end()]
    return word.end() if len(named) > 1 else None


def by_its_volume(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """A pancake's outside size beside its volume: no box of the Table, and the volume counts."""
    return [
        replace(act, acts=tuple(_without_size(act.acts))) if isinstance(act, acts.Suppose) else act
        for act in _without_size(made)
    ]


def _without_size(made: list[Act] | tuple[Act, ...]) -> list[Act]:
    marked = any(isinstance(act, acts.SetVolume) and act.volume is not None for act in made)
    return [act for act in made if not (marked and _too_shallow(act))]


def _too_shallow(act: Act) -> bool:
    depth = act.depth if isinstance(act, acts.SetSize) else None
    return isinstance(depth, Decimal) and depth < _SHALLOWEST
