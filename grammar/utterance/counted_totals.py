"""How many there are in all: "so three total", "three cables total"."""

from __future__ import annotations

import re

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.building.requests import counted_in_all
from boxaloud.grammar.lazy_patterns import lazy_pattern

_BETWEEN = lazy_pattern(r"\s*(?:of them|of those)?\s*(?:in|a)?\s*", re.IGNORECASE)
MOST = 9
"""Things that anybody counts up; more is a volume or a size."""


_SAID_TOTAL = lazy_pattern(
    r"\s*[,.;…?–-]*\s*(?:(?:so|and|now|that's|thats|that is|that makes|makes|which makes"
    r"|what's that|what is that|what|it's)\b,?\s*)+",
    re.IGNORECASE,
)
_WIRES = acts.AddConductors
_MOST_WIRES = 25
"""Wires are counted up further than things."""
_COUNTED = (acts.AddCable, acts.AddConductors, acts.AddDevice)
#: "Two 14-2s and two": so many more, or of something else; it is left to be asked.
_ONE_MORE = lazy_pattern(r"\s*[,–-]?\s*(?:and|plus)\s*", re.IGNORECASE)


def totals_checked(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "… and another twelve, what's that, nine?": so many in all, of what was counted last. It is
    held against what is there, and asked where it is another number."""
    kept: list[Act] = []
    for act in made:
        asked = [one for one in kept if isinstance(one, (acts.DontKnow, acts.Ask))]
        before = kept[: len(kept) - len(asked)]
        last = before[-1] if before and kept == before + asked else None
        number = isinstance(act, acts.Number) or (
            isinstance(act, acts.RestateNumber) and act.instead_of is None and act.of is None
        )
        if (
            number
            and isinstance(last, _COUNTED)
            and last.count is not None
            and isinstance(act, (acts.Number, acts.RestateNumber))
            and act.value in range(2, _MOST_WIRES if isinstance(last, _WIRES) else MOST + 1)
            and _SAID_TOTAL.fullmatch(heard, last.span[1], _number_start(act, heard))
            and not _ONE_MORE.fullmatch(heard, last.span[1], _number_start(act, heard))
        ):
            kept = [*before, counted_in_all(int(act.value or 0), act.words, act.span)]
        else:
            kept.append(act)
    return kept


_SO = lazy_pattern(r"(?i)(?:^|[.;,!?…–-])\s*(?:(?:and|ok|okay|yes|right),? )*so(?: it['’]s|,)?\s*$")


def sum_agrees(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Six number tens, I left out a pair. So six.": how many were just told, once more."""
    last = made[-1] if made else None
    told = [act for act in made[:-1] if isinstance(act, _COUNTED)]
    if (
        isinstance(last, (acts.Number, acts.RestateNumber))
        and len(told) == 1
        and told[0].count == last.value
        and _SO.search(heard[: _number_start(last, heard)])
        and heard[last.span[1] :].strip(" ,.!?").lower() in ("", "please")
    ):
        return made[:-1]
    return made


def _number_start(act: Act, heard: str) -> int:
    """Where the number itself stands in the words of an act: "that's ten"."""
    said = act.words.rstrip(" ?.!,")
    return act.span[0] + (said.rfind(" ") + 1)


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
            of = kept[-2] if len(kept) > 1 else None
            if isinstance(of, _COUNTED) and of.count == last.value:
                span = (of.span[0], act.span[1])  # "three 12-2s. Three total": those are all
                kept[-2:] = [
                    acts.Restate(
                        thing=of, instead_of=just_like(of), words=heard[slice(*span)], span=span,
                        doubts=of.doubts, function="correction",
                    )
                ]  # fmt: skip
            else:
                kept[-1] = counted_in_all(int(last.value or 0), heard[slice(*span)], span)
        elif not isinstance(last, (acts.Restate, acts.Recount, acts.AddCable, acts.AddDevice)):
            kept.append(act)
    return kept
