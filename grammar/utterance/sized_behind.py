"""Cables counted first and sized behind: "just the one cable so far, a fourteen two"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_BETWEEN = lazy_pattern(
    r"(?i)(?: (?:so far|for now|yet|in it|in here|in there|in this one|in the box|here|there|now"
    r"|total|right now|coming in|to start|at the moment))*\s*[,:;–-]+\s*"
    r"(?:(?:and |so )?(?:it|that|they|those)(?:['’]s|['’]re| is| are) )?"
    r"(?:(?:just|all|both|each) )*"
)


def sized_behind(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The cables whose sizes follow at once, as many as were counted: those, and no further."""
    for place, act in enumerate(made):
        count = _unsized(act)
        sizes = made[place + 1 :]
        if count is None or not sizes or not all(map(_is_sized, sizes[:1])):
            continue
        if not _BETWEEN.fullmatch(heard, act.span[1], sizes[0].span[0]):
            continue
        named = 0
        for other in sizes:
            if not _is_sized(other):
                break
            named += _count(other)
        if named == count:
            return [*made[:place], *made[place + 1 :]]
        if len(sizes) == 1 and _count(sizes[0]) == 0:
            only = replace(sizes[0], count=count, doubts=())  # type: ignore[call-arg]
            return [*made[:place], only]
    return made


def _unsized(act: Act) -> int | None:
    """How many cables without a size are counted."""
    thing = act.thing if isinstance(act, acts.Restate) else act
    if not isinstance(thing, acts.AddCable) or thing.awg is not None:
        return None
    return thing.count


def _is_sized(act: Act) -> bool:
    return isinstance(act, acts.AddCable) and act.awg is not None and act.conductors is not None


def _count(act: Act) -> int:
    return act.count or 0 if isinstance(act, acts.AddCable) else 0
