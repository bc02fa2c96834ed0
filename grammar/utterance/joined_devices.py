"""Two devices of a kind, joined: "fan switch and light switch on the 14"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_AND = lazy_pattern(r"(?i)\s*,?\s*(?:and|&|plus)\s+")
_DEFINITE = lazy_pattern(r"(?i)(?:the|that|this|my|its)\b")


def joined_devices(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts with the second of two devices of a kind as one more, and no word of the first
    again; where it is said what it is on, the first is on it too, 314.16(B)(4)."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(act, acts.AddDevice)
            and isinstance(last, acts.AddDevice)
            and act.name == last.name
            and not _DEFINITE.match(act.words)
            and _AND.fullmatch(heard, last.span[1], act.span[0])
        ):
            act = replace(act, count=act.count or 1)
            if last.awg is None and act.awg is not None:
                kept[-1] = replace(last, awg=act.awg)
        kept.append(act)
    return kept
