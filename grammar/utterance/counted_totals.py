"""How many there are in all: "so three total", "three cables total"."""

from __future__ import annotations

import re

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.building.requests import counted_in_all
from boxaloud.grammar.lazy_patterns import lazy_pattern

_BETWEEN = lazy_pattern(r"\s*(?:of them|of those)?\s*(?:in|a)?\s*", re.IGNORECASE)
MOST = 9
"""Things that anybody counts up; more is a volume or a size."""


def totals(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The word "total" behind a number or a counted thing asks for no total: it says that there
    are so many in all."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        said = isinstance(act, acts.Ask) and act.words.lower().strip() in ("total", "in total")
        if last is None or not said or not _BETWEEN.fullmatch(heard, last.span[1], act.span[0]):
            kept.append(act)
        elif isinstance(last, acts.Number) and last.value in range(1, MOST + 1):
            span = (last.span[0], act.span[1])
            kept[-1] = counted_in_all(int(last.value or 0), heard[slice(*span)], span)
        elif not isinstance(last, (acts.Restate, acts.Recount, acts.AddCable, acts.AddDevice)):
            kept.append(act)
    return kept
