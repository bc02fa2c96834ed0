"""Devices said to be on the cables told right before: "a 12-3, and the switch is on that one", "two
12-2s, a receptacle on those". Each yoke counts by the largest conductor landed, 314.16(B)(4)."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_DEFINITE = lazy_pattern(r"(?i)(?:the|that) ")


_THERE = lazy_pattern(
    r"(?i)\s*(?:(?:is|are|sits?|lands?|goes|gets? put|hangs?|['’]s) )?(?:also |both |right )?on"
    r" (?:that|this|the same)(?: (?:one|cable|run|same one))?(?=\s*(?:[,.;!]|$|and\b))"
)


_ON_THEM = lazy_pattern(
    r"(?i)\s*(?:goes |sits |lands? |landed )?on (?:those|them|these|it|that(?: one)?"
    r"|both(?: of (?:them|those))?)(?=\s*(?:[,.;!]|$|and\b))"
)


def _on_them(act: acts.AddDevice, cable: acts.AddCable, heard: str) -> acts.AddDevice:
    """ "Two 12-2s, a receptacle on those": on the size of the cables told right before it."""
    if act.awg is not None or cable.awg is None or _DEFINITE.match(act.words):
        return act
    return replace(act, awg=cable.awg) if _ON_THEM.match(heard, act.span[1]) else act


def landed_on_that(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A 12-3, and the switch is on that one": on the size of the cable just named."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        cable = last.thing if isinstance(last, acts.Restate) else last
        if isinstance(last, acts.AddCable) and isinstance(act, acts.AddDevice):
            act = _on_them(act, last, heard)
        if (
            isinstance(act, acts.AddDevice)
            and act.count is None
            and act.awg is None
            and isinstance(cable, acts.AddCable)
            and cable.awg is not None
            and _DEFINITE.match(act.words)
            and (found := _THERE.match(heard, act.span[1]))
        ):
            target = Reference("device", act.name, words=act.words)
            span = (act.span[0], found.end())
            act = acts.Land(
                target=target, awg=cable.awg, words=heard[slice(*span)], span=span,
                function="correction",
            )  # fmt: skip
        kept.append(act)
    return kept
