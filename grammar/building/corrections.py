"""Patterns that put one thing, number or place for another."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.building.pattern_groups import (
    doubts_in,
    number_of,
    pieces,
    target_of,
    thing_in,
    words_of,
)
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.clauses.act_fields import KIND_OF, act_of, marked
from boxaloud.grammar.clauses.referring_expressions import number_in
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.patterns.patterns import Match

_OF_SOME = lazy_pattern(
    r"(?:first|second|third|last|other|both|one of|<n:\d+> of)\b[^<]*(?:<n:1> |<cable[^>]*> )?"
    r"(?:is|are|was) "
)
#: "Twelve of them" counts, whatever sizes there are.
_SO_MANY = lazy_pattern(r"<n:\d+> of (?:them|those|these)\b")
_LEAST_VOLUME = 5
"""The least number that can be the volume of a box and no count, in cubic inches."""
_PLACES: dict[str, acts.Placing] = {
    "inside": "inside",
    "internal": "inside",
    "outside": "outside",
    "external": "outside",
}


def build_contrast(match: Match, telling: Telling) -> list[Act] | None:
    """ "Three 14-2s, not two", "a 14-3, not a 14-2": the one in place of the other."""
    words, span = words_of(match, telling)
    new, old = match.found.group("new"), match.found.group("old")
    if _OF_SOME.search(match.clause.line[: match.found.start("new")]):
        return None  # "the second one is a 14-3, not a 14-2" is of that one alone
    if new in _PLACES:
        return [acts.Place(where=_PLACES[new], words=words, span=span, function="correction")]
    element = pieces(match, "new")[0]
    value = number_in(element.tag)
    if value is not None:
        return _number_contrast(match, telling, value)
    thing = thing_in(match, "new")
    if thing is None:
        act = act_of(element.found) if element.found is not None else None
        if act is None:
            return None
        volume = number_of(match, "old")
        if new.startswith("<box_") and volume is not None and _of_a_box(volume):
            act = replace(act, span=span)  # "it's a 20, not an 18"
        return [marked(act, "correction")]
    other = number_of(match, "old")
    if other is not None:
        return [
            acts.Restate(
                thing=thing, words=words, span=span, doubts=thing.doubts, function="correction"
            )
        ]
    if old.startswith("<place") or old in _PLACES:
        return None
    return [
        acts.Restate(
            thing=thing, instead_of=target_of(match, telling, "old"), words=words, span=span,
            doubts=thing.doubts, function="correction",
        )
    ]  # fmt: skip


def _number_contrast(match: Match, telling: Telling, value: Decimal) -> list[Act] | None:
    """ "Three, not two", "three of them, not a switch": a number in place of what is denied."""
    words, span = words_of(match, telling)
    other = number_of(match, "old")
    if other is not None and other != int(other) and value == int(value) < _LEAST_VOLUME:
        return None  # "the deep one, not two and an eighth"
    if other is None:
        named = target_of(match, telling, "old")
        if named.kind in ("box", "anything") or value != int(value):
            return None
        return [
            acts.Recount(
                target=replace(named, count=None),
                count=int(value),
                words=words,
                span=span,
                function="correction",
            )
        ]
    if match.has("ref") and value == int(value):
        target = target_of(match, telling)  # "the switches are one, not two"
        return [
            acts.Recount(
                target=replace(target, count=None), count=int(value), words=words, span=span,
                function="correction",
            )
        ]  # fmt: skip
    return [
        acts.RestateNumber(
            value=value, instead_of=other, words=words, span=span, function="correction"
        )
    ]


def _of_a_box(value: Decimal) -> bool:
    """A number that is a volume, or inches and a part of one, and no count."""
    return value >= _LEAST_VOLUME or value != int(value)


_PRONOUNS = frozenset({"it", "that", "them", "those", "these", "this", "they"})


def build_replacement(match: Match, telling: Telling) -> list[Act] | None:
    """ "Swap the dimmer for a switch", "make it a 14-3"."""
    words, span = words_of(match, telling)
    thing = thing_in(match, "new")
    if thing is None:
        return None
    if not match.has("ref") or match.found.group("ref") in _PRONOUNS:
        return [
            acts.Restate(
                thing=thing, words=words, span=span, doubts=thing.doubts, function="correction"
            )
        ]
    target = target_of(match, telling)
    if target.kind in ("box", "clamps"):
        return None
    elsewhere = " where " in match.found.group() and target.kind not in (
        "anything", "wire", KIND_OF[type(thing)],
    )  # fmt: skip
    if elsewhere:
        return None  # "run a 14-2 where the switch was": where it runs, and no switch goes
    if thing.count is None and target.count is not None:  # "two of those are dimmers"
        vague = tuple(doubt for doubt in thing.doubts if doubt.reason != "vague")
        thing = replace(thing, doubts=vague)
    made: list[Act] = [
        acts.Replace(
            target=target,
            thing=thing,
            words=words,
            span=span,
            doubts=thing.doubts,
            function="correction",
        )
    ]
    if match.has("also"):  # "a dimmer in place of the switch and the receptacle"
        further = target_of(match, telling, "also")
        made.append(acts.Remove(target=further, words=words, span=span, function="request"))
    return made


def build_is_now(match: Match, telling: Telling) -> list[Act] | None:
    """ "It's a 14-3": a thing said anew of what is meant."""
    thing = thing_in(match, "new")
    if thing is None or match.found.group("ref") in ("he", "she"):
        return None
    if thing.words.lower().strip() in ("hot", "neutral", "hot up"):
        return None  # "it's hot up here"
    if isinstance(thing, acts.AddUncounted) and any(d.reason == "repaired" for d in thing.doubts):
        return None  # "the switch is stappled": it is still there
    if isinstance(thing, acts.AddGrounds) and not match.found.group("ref").startswith("<grounds"):
        return None
    if (
        isinstance(thing, acts.AddConductors)
        and thing.count is None
        and match.found.group("ref").strip().split(" ")[-1].startswith("<cable")
    ):
        words, span = words_of(match, telling)
        return [acts.Keep(words=words, span=span)]  # "the 14-3 is the traveller": what it is for
    between = match.found.group()[: match.found.start("new") - match.found.start()]
    if re.search(r"\bnot\b(?!.*(?:\bbut\b|it is|its))", between):
        return None
    return build_replacement(match, telling)


def build_recount(match: Match, telling: Telling) -> list[Act] | None:
    """ "The 14-2s are three": a count; or, by what it is said of, a size or a volume."""
    words, span = words_of(match, telling)
    value = number_of(match)
    if value is None:
        return None
    target = target_of(match, telling)
    whole = value == int(value)
    if target.kind == "box" or not whole:
        return [acts.SetVolume(volume=value, words=words, span=span, function="correction")]
    if target.kind == "clamps":
        return None
    if target.kind == "grounds" and int(value) in (14, 12, 10, 8, 6):
        return [
            acts.Resize(
                target=target, awg=int(value), words=words, span=span, function="correction"
            )
        ]
    if target.kind == "device" and int(value) in (14, 12, 10, 8, 6):
        return [
            acts.Land(target=target, awg=int(value), words=words, span=span, function="correction")
        ]
    if (
        target.kind in ("cable", "conductors", "wire", "anything")
        and not _SO_MANY.search(match.found.group())
        and int(value) in (18, 16, 14, 12, 10, 8, 6)
        and target.awg is None
        and int(value) > 7
    ):
        return [
            acts.Resize(
                target=target, awg=int(value), words=words, span=span, function="correction"
            )
        ]
    if (
        target.awg is not None
        and value in (14, 12, 10, 8, 6)
        and re.search(r"\b(?:twelves|fourteens|tens|eights|sixes|1[024]s)\b", words.lower())
    ):
        return [
            acts.Resize(
                target=replace(target, count=None),
                awg=int(value),
                words=words,
                span=span,
                function="correction",
            )
        ]
    return [
        acts.Recount(
            target=replace(target, count=None),
            count=int(value),
            words=words,
            span=span,
            function="correction",
        )
    ]


def build_restate_number(match: Match, telling: Telling) -> list[Act] | None:
    """ "Make that three": a bare number in place of the one it can mean."""
    words, span = words_of(match, telling)
    value = number_of(match)
    if value is None:
        return None
    return [
        acts.RestateNumber(
            value=value, words=words, span=span, doubts=doubts_in(match), function="correction"
        )
    ]
