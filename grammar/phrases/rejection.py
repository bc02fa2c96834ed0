"""What is no statement after all, for the company it keeps: then it is left over."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import TypeAlias

from boxaloud.grammar import grammar_data
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.statements import Statement

Span: TypeAlias = tuple[int, int]
Sifted: TypeAlias = tuple[list[Statement], list[Span]]
"""The statements that stand, and the places of what is left over."""

_RULES = grammar_data.table("rules")["settle"]
#: Kinds that mean something only as an answer: next to words not understood they are not one.
_BARE = frozenset(_RULES["bare"])
_LONE = frozenset(_RULES["lone"])
_ALONE = frozenset(_RULES["alone"])
_OF_SEVERAL = tuple(_RULES["of_several"])
_NOT_BEFORE = frozenset(_RULES["not_before"])
#: Kinds of which alone, or of what comes behind them, a stray answer is made.
_MAY_STRAY = _BARE | _LONE | _ALONE | {"number"}
#: "two of them and a switch": what comes behind these is a thing of its own, and so is a device
#: behind those: "one of them is a dimmer".
_JOINING = ("and", "plus", "with")
_CALLED = (["is"], ["are"], ["was"], ["were"])
#: "Make one of them a fourteen three", "change one of them to a dimmer".
_CHANGED = lazy_pattern(
    r"(?i)(?:^|[\s,.;])(?:mak(?:e|ing)|made|chang(?:e|ed|ing)|swap(?:ped|ping)?|turn(?:ed|ing)?|convert(?:ed)?"
    r"|switch(?:ed|ing)?|replac(?:e|ed|ing)|call)\s+$"
)
_INTO = frozenset(
    {"", "to", "into", "for", "with", "a", "an", "to a", "to an", "into a", "into an"}
)
_SPOILS_PLACE = frozenset(_RULES["place_spoilt_by"])


_ORDINALS = frozenset({"second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"})
_LEADS = 4
"""Words at the head of an utterance among which an ordinal says that one more thing follows."""


def astray(words: Sequence[str], read: Sequence[Statement], kept: Sequence[Statement]) -> bool:
    """Whether an open question made nothing but answers of words that are none: "third fourteen
    two", where a volume is asked for, says no volume of 14.2."""
    bare = not kept and any(statement.kind in _BARE for statement in read)
    return bare and not _ORDINALS.isdisjoint(words[:_LEADS])


def sifted(heard: str, statements: list[Statement], left_over: list[Span]) -> Sifted:
    """Statements without loose places and stray answers; those are left over instead."""
    kinds = {statement.kind for statement in statements}
    if len(statements) > 1 and "place" in kinds:
        statements, left_over = _put_aside(
            heard, statements, left_over, _loose_places(heard, statements)
        )
    if kinds.isdisjoint(_MAY_STRAY) or (not left_over and len(statements) < 2):
        return statements, left_over
    strays = {
        place
        for place, statement in enumerate(statements)
        if (
            _beside_the_unknown(heard, statement, left_over)
            and not _said_of_clamps(statements, place)
        )
        or _counting(heard, statements, place)
        or _amid_others(heard, statements, place)
    }
    return _put_aside(heard, statements, left_over, strays)


def without_hollow(heard: str, statements: list[Statement], left_over: list[Span]) -> Sifted:
    """ "a feed" with no size to be found says no cable; "in the same box" says no box."""
    statements, left_over = _without_lengths(heard, statements, left_over)
    statements = [item for item in statements if item.slots or item.kind != "box_kind"]
    hollow = {
        place
        for place, item in enumerate(statements)
        if item.kind == "cable"
        and "awg" not in item.slots
        and "cable" not in item.words.lower()
        and not (place and statements[place - 1].kind == "take_off")
    }
    return _put_aside(heard, statements, left_over, hollow)


#: "A conductor 14 in. long", "12 in. of it": how long it is, and no size.
_LENGTH = lazy_pattern(
    r"(?i)[ -]?(?:in\.?|inch(?:es)?|\"|ft\.?|feet) (?:long|of\b|or (?:more|longer|so)|in length)"
)
_SIZED = lazy_pattern(r"(?i).*\b(?:wires?|conductors?) (\d+)")


def _without_lengths(heard: str, statements: list[Statement], left_over: list[Span]) -> Sifted:
    """Conductors without a size that is their length; the number is left over."""
    kept, lengths = [], []
    for item in statements:
        if item.kind == "conductors" and _LENGTH.match(heard, item.span[1]):
            said = _SIZED.fullmatch(item.words)
            if said is not None and said[1] == str(item.get("awg")):
                at = item.span[0] + said.start(1)
                lengths.append((at, item.span[1]))
                slots = {key: value for key, value in item.slots.items() if key != "awg"}
                words = heard[item.span[0] : at].rstrip()
                span = (item.span[0], item.span[0] + len(words))
                item = replace(item, slots=slots, words=words, span=span)
        kept.append(item)
    return kept, _merged(heard, sorted([*left_over, *lengths])) if lengths else left_over


def _put_aside(
    heard: str, statements: list[Statement], left_over: list[Span], strays: set[int]
) -> Sifted:
    if not strays:
        return statements, left_over
    runs = sorted([*left_over, *(statements[place].span for place in strays)])
    kept = [item for place, item in enumerate(statements) if place not in strays]
    return kept, _merged(heard, runs)


def _loose_places(heard: str, statements: list[Statement]) -> set[int]:
    """ "two cables inside" says nothing of clamps: a place is one only by itself."""
    spans = [statement.span for statement in statements if statement.kind in _SPOILS_PLACE]
    return {
        place
        for place, statement in enumerate(statements)
        if statement.kind == "place"
        and not _said_of_clamps(statements, place)
        and (
            _after(heard, statement.span, spans, _together)
            or _before(heard, statement.span, spans, _together)
        )
    }


_THEY_ARE = ("they're", "they’re", "they are", "theyre")


def _said_of_clamps(statements: Sequence[Statement], place: int) -> bool:
    """ "Clamps outside hang on they're inside two 14-2s": where the clamps are, and not the
    cables, where clamps came right before it."""
    if statements[place].kind != "place":
        return False
    told = [
        one.kind for one in statements[:place] if one.kind == "clamps" or one.kind in _SPOILS_PLACE
    ]
    if not told or told[-1] != "clamps":
        return False
    return statements[place].words.lower().startswith(_THEY_ARE)


def _beside_the_unknown(heard: str, statement: Statement, left_over: Sequence[Span]) -> bool:
    """ "the drain is eighteen" is no answer; "eighteen I reckon" is one."""
    span = statement.span
    if statement.kind == "number":
        return _after(heard, span, left_over, _same_breath) or _before(
            heard, span, left_over, _together
        )
    if statement.kind not in _BARE and (statement.kind not in _LONE or " " in statement.words):
        return False
    return _after(heard, span, left_over, _same_breath) or _before(
        heard, span, left_over, _same_breath
    )


def _amid_others(heard: str, statements: Sequence[Statement], place: int) -> bool:
    """ "it says eighteen on the back" goes nowhere back; "one of them is a 14-3" adds nothing."""
    statement = statements[place]
    before = heard[statements[place - 1].span[1] : statement.span[0]] if place else "."
    last = place + 1 == len(statements)
    after = "." if last else heard[statement.span[1] : statements[place + 1].span[0]]
    if statement.kind in _ALONE and " " not in statement.words:
        return _same_breath(before) or _same_breath(after)
    if statement.kind == "number" and statement.words.lower().endswith(_OF_SEVERAL):
        return _same_breath(after)
    return bool(
        place
        and statements[place - 1].kind == "number"
        and statements[place - 1].words.lower().endswith(_OF_SEVERAL)
        and _same_breath(before)
        and statement.kind != "terminal_block"  # "every one of them on one terminal strip"
        and not before.lower().strip().startswith(_JOINING)
        and not (before.lower().split()[:1] in _CALLED and _is_called(statement))
        and not _is_changed(heard, statements[place - 1], before, statement)
    )


def _is_changed(heard: str, some: Statement, between: str, thing: Statement) -> bool:
    """Whether so many of those that are there are to become a thing."""
    ordered = _CHANGED.search(heard[: some.span[0]]) is not None
    return ordered and between.strip().lower() in _INTO and _is_called(thing)


def _is_called(statement: Statement) -> bool:
    """What one of several is: a device, or a cable spelt out, for the figures "14-3" are a pair by
    themselves and "fourteen three" is none."""
    if statement.kind == "cable":
        return not any(letter.isdecimal() for letter in statement.words)
    return statement.kind == "device"


def _counting(heard: str, statements: Sequence[Statement], place: int) -> bool:
    """ "five five five", "four two-gang boxes": numbers in one breath answer nothing."""
    if statements[place].kind != "number":
        return False
    here = statements[place].span
    if place and statements[place - 1].kind == "number":
        return _same_breath(heard[statements[place - 1].span[1] : here[0]])
    if place + 1 == len(statements):
        return False
    after = statements[place + 1]
    between = heard[here[1] : after.span[0]]
    if after.kind == "number":
        return _same_breath(between)
    return after.kind in _NOT_BEFORE and _together(between)


def _after(heard: str, span: Span, runs: Sequence[Span], near: Callable[[str], bool]) -> bool:
    """Whether `span` follows one of the sorted `runs`, `near` by what is between."""
    place = bisect_left(runs, span)
    return place > 0 and near(heard[runs[place - 1][1] : span[0]])


def _before(heard: str, span: Span, runs: Sequence[Span], near: Callable[[str], bool]) -> bool:
    """Whether one of the sorted `runs` follows `span`, `near` by what is between."""
    place = bisect_left(runs, span)
    return place < len(runs) and near(heard[span[1] : runs[place][0]])


def _together(between: str) -> bool:
    return len(between) < 3 and not between.strip()


def _same_breath(between: str) -> bool:
    """No break between, and no more than a few words that mean nothing."""
    return len(between) < 20 and not any(sign in between for sign in ",.;:!?\n")


def _merged(heard: str, runs: Iterable[Span]) -> list[Span]:
    merged: list[Span] = []
    for start, end in runs:
        if merged and _together(heard[merged[-1][1] : start]):
            merged[-1] = (merged[-1][0], end)
        else:
            merged.append((start, end))
    return merged
