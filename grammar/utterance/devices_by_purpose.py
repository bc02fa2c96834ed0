"""Devices told by what each is for: "a switch for the fan and one for the light" are two, and "two
switches, one for the fan and one for the light" are no more than two. Each yoke counts,
314.16(B)(4), so that the one said with no name is not lost."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.masked_words import masked

#: Words that say by themselves that something more is told.
PIECES = ("one", "another", "second")

_WORD = (
    r"(?!(?:and|or|plus|with|then|but|one|another|is|are|has|which|that|so|no|not|both|two|three"
    r"|four|goes|comes)\b)[a-z][a-z'-]*"
)
_PURPOSE = (
    r"(?: (?:for|controlling|running|feeding|working"
    r"|(?:that|which) (?:runs|works|controls|feeds|kills|is for))"
    rf"(?: (?:the|my|her|his|their|our|an?|those|these))?(?: X+|(?: {_WORD}){{1,4}})"
    r"| (?:on|at) the (?:left|right|top|bottom)(?: side)?| (?:up|on) top| below| above"
    r"| underneath)"
)
_ONE = r"(?P<one> (?:another one|another|one more|one|1|a second one|a second))"
_FIRST = lazy_pattern(_PURPOSE)
_FURTHER = lazy_pattern(rf"(?:,? (?:and then|and|plus|then|&)|,){_ONE}{_PURPOSE}")
#: "Two switches, one for …": the first of those that were counted.
_OF_THEM = lazy_pattern(rf"(?:[,:]| -)(?P<one> one){_PURPOSE}")
#: "A fan switch and one for the light": of what else was told, it may be as well.
_UNSAID = lazy_pattern(rf",? (?:and then|and|plus|&){_ONE}{_PURPOSE}")
_OF_SOMETHING = ("for the ", "for a ", "for ", "to the ", "on the ")
_WAS = (acts.Number, acts.More)
_UNMASKED = (*_WAS, acts.Hang)


def by_purpose(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts with as many devices as are told by what they are for."""
    text = masked([act for act in made if not isinstance(act, _UNMASKED)], heard)
    taken: list[tuple[int, int]] = []
    kept = []
    for act in made:
        if isinstance(act, acts.AddDevice) and act.name not in (None, "device"):
            act, ones = _told(act, text, heard, left)
            taken += ones
        kept.append(act)
    return _without(kept, left, taken) if taken else made


def _told(
    act: acts.AddDevice, text: str, heard: str, left: list[Unread]
) -> tuple[acts.AddDevice, list[tuple[int, int]]]:
    """A device with as many as are told behind it, and where each "one" stands that tells them."""
    of_them = _ones(text, act.span[1], _OF_THEM)
    if of_them and len(of_them) == act.count:
        return act, of_them
    if further := _ones(text, act.span[1], _FIRST):
        span = (act.span[0], _end(text, further[-1][1]))
        count = (act.count or 1) + len(further)
        return replace(act, count=count, span=span, words=heard[slice(*span)]), further
    unsaid = _UNSAID.match(text, act.span[1])
    if unsaid is not None and not text.endswith(_OF_SOMETHING, 0, act.span[0]):
        left.append(Unread(unsaid["one"].strip(), unsaid.span("one"), True))
    return act, []


def _ones(text: str, at: int, begins: re.Pattern[str]) -> list[tuple[int, int]]:
    """Where each "one" stands that is told by what it is for, behind a device and what begins such
    a list."""
    first = begins.match(text, at)
    if first is None:
        return []
    found = [first.span("one")] if "one" in first.groupdict() else []
    following = _FURTHER.match(text, first.end())
    while following is not None:
        found.append(following.span("one"))
        following = _FURTHER.match(text, following.end())
    return found


def _end(text: str, at: int) -> int:
    """Where what the last of them is for ends."""
    purpose = _FIRST.match(text, at)
    return at if purpose is None else purpose.end()


def _without(made: list[Act], left: list[Unread], ones: list[tuple[int, int]]) -> list[Act]:
    """The acts without what was made of those words alone, and nothing of them left unread."""
    left[:] = [run for run in left if not _meets(run.span, ones)]
    return [act for act in made if not (isinstance(act, _WAS) and _meets(act.span, ones))]


def _meets(span: tuple[int, int], ones: list[tuple[int, int]]) -> bool:
    return any(span[0] < end and start < span[1] for start, end in ones)
