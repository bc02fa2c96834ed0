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
