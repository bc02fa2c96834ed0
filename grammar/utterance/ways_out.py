"""Conductors that come in and as many that go on: "five 14s come in and five go back out"."""

from __future__ import annotations

import re

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.lazy_patterns import lazy_pattern

_OUT = lazy_pattern(
    r"(?:and )?(?P<n>\w+(?:[- ]\w+)?) (?:go|goes|come|comes|going) (?:back |right )?out"
)
_IN = lazy_pattern(
    r"\b(?:com(?:e|es|ing)|go(?:es|ing)?|enter(?:s|ing)?) in\b|\bin\b", re.IGNORECASE
)
#: What makes them the same conductors, unbroken, or leaves open whether they are.
_SAME = lazy_pattern(
    r"\b(?:through|straight|unbroken|uncut|not cut|same|they|those|these|of them|of which)\b",
    re.IGNORECASE,
)


def out_again(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Five number 14s come in and five go back out": each end counts by itself, 314.16(B)(1).

    Only where nothing says that they are the same, passing through unbroken.
    """
    if not left or _SAME.search(heard):
        return made
    for run in left:
        out = _OUT.fullmatch(run.words.lower().strip())
        number = lengths.whole(out["n"] + " ", 0) if out is not None else None
        before = [act for act in made if act.span[1] <= run.span[0]]
        last = before[-1] if before else None
        if (
            number is None
            or not isinstance(last, acts.AddConductors)
            or last.count is None
            or last.path is not None
            or not _IN.search(heard[last.span[0] : run.span[0]])
        ):
            continue
        left.remove(run)
        further = acts.AddConductors(count=number[0], awg=last.awg, words=run.words, span=run.span)
        at = made.index(last) + 1
        return [*made[:at], further, *made[at:]]
    return made
