"""Devices that were named one by one and are counted then: "a fan switch and a light switch. Two
switches."."""

from __future__ import annotations

from itertools import pairwise

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

#: What parts a sum from what it sums up.
_PARTED = lazy_pattern(
    r"(?i)\s*(?:[.;:–—]|(?<=\w)\s)\s*(?:(?:so|that['’]?s|that is|which is|makes)[\s,]+)?"
)
_FURTHER = lazy_pattern(r"(?i)\b(?:more|another|others?|extra|further|else|new)\b")
_JOINED = lazy_pattern(r"(?i)\s*(?:,|,? ?(?:and|&|plus|with|n)|/)\s*(?:an?|one)?\s*")


def switches_summed(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts without a count of what was named right before it, each by what it is for."""
    kept: list[Act] = []
    for act in made:
        if isinstance(act, acts.AddDevice) and _sums(act, kept, heard):
            continue
        kept.append(act)
    return kept


def _sums(act: acts.AddDevice, kept: list[Act], heard: str) -> bool:
    count = act.count or 0
    named = kept[-count:]
    if count < 2 or len(named) < count or _FURTHER.search(act.words):
        return False
    alike = all(
        isinstance(one, acts.AddDevice)
        and one.count in (None, 1)
        and one.name == act.name
        and len(one.words.split()) > 1
        for one in named
    )
    if not alike or not _PARTED.fullmatch(heard, named[-1].span[1], act.span[0]):
        return False
    return all(
        _JOINED.fullmatch(heard, one.span[1], other.span[0]) for one, other in pairwise(named)
    )
