"""Conductors and cables that come in, and others that go on: "five 14s come in and five go out"."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.lazy_patterns import lazy_pattern

_OUT = lazy_pattern(
    r"(?i)(?:[,;]|\b(?:and|then|with|plus))\s+(?:then |and |another |also )*(?P<n>\w+(?:[- ]\w+)?)"
    r"(?: of the same| more)? (?:(?:(?:go|goes|come|comes|going|coming|head|heads|heading|run|runs)"
    r" (?:back |right |straight |on |over )*(?:out|on|off|away)|leav(?:es?|ing)|exit(?:s|ing)?)\b)"
)
WAY_OUT_PIECES = ("out", "on", "off", "away", "leav", "exit")
"""One of them stands in what that finds."""
_IN = lazy_pattern(
    r"(?i)\b(?:com(?:e|es|ing)|go(?:es|ing)?|enter(?:s|ing)?|run(?:s|ning)?|arriv(?:e|es|ing))"
    r"(?: back| right)? in\b|\b(?:enter(?:s|ing)?|arriv(?:e|es|ing)|in)\b"
)
#: What makes them the same conductors, unbroken, or leaves open whether they are.
_SAME = lazy_pattern(
    r"(?i)\b(?:through|straight|unbroken|uncut|not cut|same|they|those|these|of them|of which)\b"
)
#: Another number between: "three cables, two come in" counts those that come in once more.
_NUMBER = lazy_pattern(
    r"(?i)\d|\b(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|both|each|all"
    r"|some|half)\b"
)
_COMING = (acts.AddConductors, acts.AddCable)


def out_again(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Five number 14s come in and five go back out": each end counts by itself, 314.16(B)(1).

    Only where nothing says that they are the same, passing through unbroken.
    """
    made = _ends_told(made, heard, left)
    for out in _OUT.finditer(heard):
        number = lengths.whole(out["n"].lower() + " ", 0)
        place = _before(made, heard, out)
        if number is None or place is None:
            continue
        last = made[place]
        if not isinstance(last, _COMING):
            continue
        span = (out.start("n"), out.end())
        left[:] = [run for run in left if not _within(run.span, span)]
        kept = [
            act for act in made if not (isinstance(act, acts.Number) and _within(act.span, span))
        ]
        further = replace(last, count=number[0], words=heard[slice(*span)], span=span)
        at = kept.index(last) + 1
        return [*kept[:at], further, *kept[at:]]
    return made


#: "Five in, five out": how the conductors that were counted are shared out.
_BOTH_ENDS = lazy_pattern(
    r"(?i)(?P<in>\w+) in,? (?:and |with )?(?P<out>\w+)(?: back)? out\b(?! of)"
)


def _ends_told(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Ten 14s in a box, five in five out": five inches of no box."""
    for ends in _BOTH_ENDS.finditer(heard):
        span = ends.span()
        made = [
            act
            for act in made
            if not (isinstance(act, acts.SetSize | acts.Number) and _within(act.span, span))
        ]
        left[:] = [run for run in left if not _within(run.span, span)]
    return made


def _before(made: list[Act], heard: str, out: re.Match[str]) -> int | None:
    """The place of what comes in, where others go out; None where they may be the same."""
    before = [n for n, act in enumerate(made) if act.span[1] <= out.start("n")]
    if not before or _SAME.search(heard):
        return None
    last = made[before[-1]]
    if isinstance(last, acts.Number) and len(before) > 1:
        return None
    told = any(act.span[0] < out.end() and act.span[1] > out.start("n") for act in made
               if not isinstance(act, acts.Number))  # fmt: skip
    if told or not isinstance(last, _COMING) or last.count is None:
        return None
    if isinstance(last, acts.AddConductors) and last.path is not None:
        return None
    between = heard[last.span[1] : out.start()]
    comes = _IN.search(heard[last.span[0] : out.start()])
    if comes is None or _NUMBER.search(between) or re.search(r"[.!?]\s", between):
        return None
    return before[-1]


def _is_number(act: Act) -> bool:
    return isinstance(act, acts.Number)


def _within(inner: tuple[int, int], outer: tuple[int, int]) -> bool:
    return outer[0] <= inner[0] and inner[1] <= outer[1]
