"""Why a slot is not to be trusted yet."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from grammar import numbers, store
from grammar.engine import Capture, Engine
from grammar.statements import Doubt, Value
from grammar.symbols import Lexicon

if TYPE_CHECKING:
    from grammar.understanding import Heard

_TABLE = store.table("doubts")
_UNUSUAL: dict[str, dict[str, Any]] = _TABLE["unusual"]
_CONFUSED: dict[str, str] = {
    one: other for pair in _TABLE["confusable"]["pairs"] for one, other in (pair, pair[::-1])
}
_HOMOPHONES: dict[str, str] = store.table("lexicon")["homophones"]
_COUNTED = frozenset(_TABLE["vague"]["kinds"])
_SURE = float(_TABLE["heard"]["sure"])
_PLURALS = frozenset(Lexicon().singular)


def of(
    machine: Engine,
    heard: Heard,
    span: tuple[int, int],
    kind: str,
    capture: Capture,
    values: Mapping[str, Value],
) -> tuple[Doubt, ...]:
    """The doubts of one statement, each slot at most once, the gravest first."""
    found = list(_repaired(machine, heard, span, kind))
    found += _sounds(heard, span, capture)
    if heard.words:
        found += _heard(heard, span, capture)
    found += _unusual(kind, values)
    if kind in _COUNTED and (capture.vague or (capture.counted and "count" not in values)):
        found += _vague(heard, span[0], capture)
    if not found:
        return ()
    first: dict[str, Doubt] = {}
    for doubt in found:
        first.setdefault(doubt.slot, doubt)
    return tuple(first.values())


def _repaired(machine: Engine, heard: Heard, span: tuple[int, int], kind: str) -> list[Doubt]:
    """A word of the span that was mended: the statement's name is in doubt."""
    mended = machine.symbols.repaired
    if not mended:
        return []
    return [
        Doubt("name", "repaired", mended[text])
        for text in heard.tokens.texts[span[0] : span[1]]
        if text in mended
    ]


def _vague(heard: Heard, first: int, capture: Capture) -> list[Doubt]:
    """Several were meant, but it was not said how many."""
    texts = [heard.tokens.texts[first + place] for place in capture.counted]
    if capture.vague or any(text in _PLURALS or numbers.is_plural(text) for text in texts):
        return [Doubt("count", "vague")]
    return []


def _sounds(heard: Heard, span: tuple[int, int], capture: Capture) -> list[Doubt]:
    """`to`, `for`, `won`, `ate` taken for a number; `ten three` taken for 10.3."""
    texts = heard.tokens.texts
    return [
        Doubt(slot, "confusable")
        for slot, rule, places in capture.slots
        if rule == "runon" or any(texts[span[0] + place] in _HOMOPHONES for place in places)
    ]


def _heard(heard: Heard, span: tuple[int, int], capture: Capture) -> list[Doubt]:
    """Number words that the ear was unsure of, and what they may have been instead."""
    found: list[Doubt] = []
    for slot, rule, places in capture.slots:
        for place in places:
            text = heard.tokens.texts[span[0] + place]
            confidence = _confidence(heard, heard.tokens.starts[span[0] + place])
            if confidence is None or confidence >= _SURE or not numbers.word_classes(text):
                continue
            other = _CONFUSED.get(text)
            if other is None:
                found.append(Doubt(slot, "heard"))
            else:
                found.append(Doubt(slot, "confusable", _instead(heard, span, places, place, other)))
    return found


def _instead(
    heard: Heard, span: tuple[int, int], places: tuple[int, ...], at: int, other: str
) -> Value:
    """The value of a slot had the word at place `at` been `other`."""
    texts = [
        other if place == at else heard.tokens.texts[span[0] + place] for place in places
    ]  # fmt: skip
    value = numbers.value(tuple(texts))
    return int(value) if value is not None and value == value.to_integral_value() else value


def _confidence(heard: Heard, start: int) -> float | None:
    """The ear's confidence in the word that begins at `start` of the utterance."""
    from bisect import bisect_right

    at = bisect_right(heard.word_starts, start) - 1
    return heard.words[at].confidence if 0 <= at < len(heard.words) else None


def _unusual(kind: str, values: Mapping[str, Value]) -> list[Doubt]:
    """Values that are rarely right, by the table of the trade's common practice."""
    ranges = _UNUSUAL.get(kind)
    if ranges is None or "unit" in values:
        return []
    return [
        Doubt(slot, "unusual")
        for slot, (low, high) in ranges.items()
        if isinstance(value := values.get(slot), (int, Decimal))
        and not isinstance(value, bool)
        and not low <= value <= high
    ]
