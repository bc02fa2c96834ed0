"""How many clamps, and where: one or more inside are one allowance, 314.16(B)(2)."""

from __future__ import annotations

import re

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_SOME = lazy_pattern(r"\b(?:other|others|rest|some|one|half)\b")


def clamps_on_some(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Clamps inside on one, connectors outside on the others": one inside is one allowance,
    314.16(B)(2), whatever the others have."""
    told = [act for act in made if isinstance(act, acts.SetClamps)]
    places = {act.where for act in told}
    if (
        len(told) < 2
        or places != {"inside", "outside"}
        or any(act.function == "correction" for act in told)
    ):
        return made
    between = heard[min(act.span[0] for act in told) :].lower()
    if not _SOME.search(between) or re.search(r"\b(?:no|wait|actually|sorry|mean)\b", between):
        return made
    return [act for act in made if not (isinstance(act, acts.SetClamps) and act.where == "outside")]


_SOME_OF_THEM = lazy_pattern(r"(?i)(?:just |only )?\w+ of (?:them|those|these|'?em)\b")


def clamps_counted(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Clamps inside, one of them": one or more are one allowance, 314.16(B)(2)."""
    return [
        act
        for place, act in enumerate(made)
        if not (
            isinstance(act, acts.Number)
            and place
            and isinstance(made[place - 1], acts.SetClamps)
            and _SOME_OF_THEM.match(heard, made[place - 1].span[1] + 1 + _gap(made, place, heard))
        )
    ]


def _gap(made: list[Act], place: int, heard: str) -> int:
    """The breaks between an act and the one before it."""
    behind = heard[made[place - 1].span[1] + 1 :]
    return len(behind) - len(behind.lstrip(" ,.-"))


_ON_EACH = lazy_pattern(
    r"(?i)[\s,.;:–—-]+(?:(?:with|and|it is|it's|just|so|that is)\s+)*(?:one|1|two|2|a pair)"
    r"(?: (?:clamp|of them))?\s+(?:on|for|per|to|at|by|in)\s+(?:each|every|the|a)?\s*"
    r"(?:side|end|cable|wire|run|line|one|knockout|hole|corner|entry)s?\b"
)


def one_on_each(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Clamps inside, one on each cable": how they sit; they are one allowance, 314.16(B)(2)."""
    for clamps in made:
        found = (
            _ON_EACH.match(heard, clamps.span[1]) if isinstance(clamps, acts.SetClamps) else None
        )
        if found is None:
            continue
        start, end = clamps.span[1], found.end()
        left[:] = [run for run in left if not start <= run.span[0] < end]
        return [act for act in made if not (_counts_none(act) and start <= act.span[0] < end)]
    return made


def _counts_none(act: Act) -> bool:
    """Whether an act is a number, or cables that are only spoken of."""
    if isinstance(act, acts.AddCable):
        return act.awg is None
    return isinstance(act, (acts.Number, acts.Recount))
