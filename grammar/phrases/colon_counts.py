"""A count behind a colon belongs to the cable or the device that follows it at once.

"Switches: two" counts the switches; in "garage GFI: four 12-2s" the colon ends a heading, and so
it does in "hall switch: 1 dimmer". In "office outlet: a four-inch square" there is no count at all.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.statements import Statement

_ARTICLE = lazy_pattern(r"(?i)an?$")
_OF_BOXES = ("box_size", "box_volume", "box_kind")
_COUNT = lazy_pattern(r"\s*:\s*(?P<count>\w+)$")


def settled(heard: str, found: Sequence[Statement]) -> list[Statement]:
    """The statements of an utterance with such counts where they belong."""
    made = list(found)
    for place, (one, other) in enumerate(pairwise(found)):
        count = _COUNT.search(one.words) if one.kind == "device" and "count" in one.slots else None
        if count is not None and other.kind in _OF_BOXES and _ARTICLE.match(count["count"]):
            made[place] = _without_count(one, count.start())
            continue
        if count is None or other.kind not in ("cable", "device") or "count" in other.slots:
            continue
        if other.kind == "cable" and other.get("awg") is None:
            continue
        if heard[one.span[1] : other.span[0]].strip(" "):
            continue
        made[place] = _without_count(one, count.start())
        made[place + 1] = _with_count(other, one, heard, one.span[0] + count.start("count"))
    return made


def _without_count(one: Statement, end: int) -> Statement:
    slots = {slot: value for slot, value in one.slots.items() if slot != "count"}
    span = (one.span[0], one.span[0] + end)
    return replace(one, slots=slots, words=one.words[:end], span=span, doubts=())


def _with_count(other: Statement, one: Statement, heard: str, start: int) -> Statement:
    slots = {**other.slots, "count": one.slots["count"]}
    span = (start, other.span[1])
    doubts = tuple(doubt for doubt in other.doubts if doubt.slot != "count")
    return replace(other, slots=slots, words=heard[slice(*span)], span=span, doubts=doubts)
