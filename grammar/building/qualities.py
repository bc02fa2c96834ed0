"""Patterns that say how a thing is: its ground, its way through the box, its gangs."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import cast

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference
from boxaloud.grammar.building.neighbouring_words import some_routed
from boxaloud.grammar.building.pattern_groups import (
    doubts_in,
    number_of,
    pieces,
    target_of,
    words_of,
)
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.clauses.act_fields import act_of, reference_to
from boxaloud.grammar.clauses.act_kinds import ROUTED
from boxaloud.grammar.clauses.polarity import is_negator
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.patterns.patterns import Match


def build_unground(match: Match, telling: Telling) -> list[Act] | None:
    """ "That 14-2 has no ground": a cable without its ground, or with it."""
    words, span = words_of(match, telling)
    target = target_of(match, telling)
    if target.kind not in ("cable", "anything", "wire"):
        return None
    if target.kind == "anything" and re.match(r"(?:no |without |<grounds)", match.found.group()):
        return None  # "no ground in this pipe": of the whole box
    counted = target.kind == "cable" and target.count is not None and target.awg is not None
    if counted and not re.match(
        r"(?i)(?:the|that|those|these|this|one of|both|[\w-]+ of (?:the|those|these|my))\b",
        target.words,
    ):
        return None
    return [acts.Unground(target=target, words=words, span=span, function="correction")]


def build_reclassify(match: Match, telling: Telling) -> list[Act]:
    """ "Two are grounds": some of the conductors said before are something else."""
    words, span = words_of(match, telling)
    count = number_of(match)
    path: acts.WirePath | None = "through" if match.has("path") else None
    return [
        acts.Reclassify(
            count=None if count is None else int(count),
            kind="conductors" if path else "grounds",
            path=path, words=words, span=span, function="correction",
        )
    ]  # fmt: skip


def build_route(match: Match, telling: Telling) -> list[Act]:
    """ "Those pass straight through": how conductors meet the box."""
    words, span = words_of(match, telling)
    thing = next((e for e in pieces(match, "ref") if e.found is not None), None)
    if thing is not None and thing.found is not None and not thing.tag.endswith(":d>"):
        made = act_of(thing.found)
        if isinstance(made, ROUTED):
            routed = replace(made, path="through", words=words, span=span)
            return [some_routed(routed) or routed]
    return [
        acts.Route(
            target=target_of(match, telling),
            path="through",
            words=words,
            span=span,
            function="correction",
        )
    ]


def build_widen(match: Match, telling: Telling) -> list[Act] | None:
    """ "It takes two gangs": how many gangs a device needs."""
    words, span = words_of(match, telling)
    if match.has("both"):
        both = Reference("device", which="last")
        return [acts.Widen(target=both, gangs=2, words=words, span=span, function="correction")]
    kinds = [
        e.found for e in match.clause.elements if e.found is not None and e.found.kind == "box_kind"
    ]
    devices = [
        e.found for e in match.clause.elements if e.found is not None and e.found.kind == "device"
    ]
    if not kinds or kinds[0].get("gangs") is None or kinds[0].get("family") is not None:
        return None
    if kinds[0].get("material") is not None:
        return None  # "what I've got is a plastic single gang": so is a box
    target = reference_to(devices[0]) if devices else Reference("device", which="last")
    return [
        acts.Widen(
            target=target,
            gangs=int(cast(int, kinds[0].get("gangs"))),
            words=words,
            span=span,
            function="correction",
        )
    ]


def build_canopy(match: Match, telling: Telling) -> list[Act] | None:
    """ "From a domed canopy", "no canopy": 314.16(B)(1) Exception."""
    words, span = words_of(match, telling)
    kinds = {e.found.kind for e in match.clause.elements if e.found is not None}
    if kinds & {"fixture_wires", "conductors", "grounds", "nothing", "number", "size"}:
        return None
    if any(map(is_negator, match.clause.elements)):
        return [acts.SetCanopy(canopy=False, words=words, span=span)]
    return [acts.SetCanopy(canopy=True, words=words, span=span)]


_OF_WIRES = lazy_pattern(r"(?i)\b(?:tens|twelves|fourteens|eights|sixes|(?:1[024]|[68])['’]?s)\b")


def build_box_number(match: Match, telling: Telling) -> list[Act] | None:
    """ "The box is 18": a bare number said of the box, its volume in cubic inches."""
    words, span = words_of(match, telling)
    value = number_of(match)
    if value is None or value < 3:
        return None
    if (
        value == int(value)
        and value in (14, 12, 10, 8, 6)
        and (
            re.search(r"\b(?:on|land|size|gauge|awg)\b", match.clause.line)
            or _OF_WIRES.search(words)  # "also wired with the twelves"
        )
    ):
        return None
    return [
        acts.SetVolume(
            volume=value,
            words=words,
            span=span,
            doubts=_volume_doubts(match),
            function="correction" if telling.corrects else "inform",
        )
    ]


def _volume_doubts(match: Match) -> tuple[acts.Doubt, ...]:
    return tuple(replace(doubt, slot="volume") for doubt in doubts_in(match))
