"""Why a slot is not to be trusted yet."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from boxaloud.grammar import grammar_data
from boxaloud.grammar.lexer import numbers
from boxaloud.grammar.lexer.symbols import Lexicon
from boxaloud.grammar.phrases.best_cover import Capture, Engine
from boxaloud.grammar.phrases.preparation import Heard
from boxaloud.grammar.phrases.slots import SKIPPED
from boxaloud.grammar.phrases.statements import Doubt, Value

_TABLE = grammar_data.table("doubts")
_UNUSUAL: dict[str, dict[str, Any]] = _TABLE["unusual"]
_TYPED: dict[str, dict[str, Any]] = _TABLE["typed"]
#: Words by which a volume is known to be one.
_UNITS = frozenset(("cubic", "cube", "cubed", "cu", "in3", "ci", "cuin"))
_CONFUSED: dict[str, list[str]] = {}
for _one, _other in _TABLE["confusable"]["pairs"]:
    _CONFUSED.setdefault(_one, []).append(_other)
    _CONFUSED.setdefault(_other, []).append(_one)
#: slot -> the only values it can have, where there are few.
_POSSIBLE: dict[str, list[int]] = _TABLE["confusable"]["possible"]
#: kind -> the slot that a single doubtful word of it may turn round.
_HINGES: dict[str, str] = _TABLE["heard"]["hinges"]
_HOMOPHONES: dict[str, str] = grammar_data.table("lexicon")["homophones"]
_COUNTED = frozenset(_TABLE["vague"]["kinds"])
_UNLESS: dict[str, str] = _TABLE["vague"]["unless"]
_ARTICLES = frozenset(_TABLE["heard"]["articles"])
_ARTICLE_KINDS = frozenset(_TABLE["heard"]["article_kinds"])
_SURE = float(_TABLE["heard"]["sure"])
_LEXICON = Lexicon()
#: Plurals, also of short forms: "sws" and "sw" are both written for "switch".
_PLURALS = frozenset(_LEXICON.singular) | {
    text
    for text, meant in _LEXICON.spelling.items()
    if text.endswith("s") and _LEXICON.spelling.get(text[:-1]) == meant
}


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
        found += _heard(heard, span, kind, capture)
    if capture.assumed:
        found.append(Doubt(capture.assumed, "confusable"))
    found += _unusual(kind, values, _in_figures(heard, span, capture))
    if (
        kind in _COUNTED
        and _UNLESS.get(kind) not in values
        and (capture.vague or (capture.counted and "count" not in values))
    ):
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
        if (rule == "runon" and heard.words)
        or (
            (rule != "heardwires" or heard.words)
            and any(texts[span[0] + place] in _HOMOPHONES for place in places)
        )
    ]


def _heard(heard: Heard, span: tuple[int, int], kind: str, capture: Capture) -> list[Doubt]:
    """Words that the ear was unsure of: numbers, and a word that a verdict hangs on."""
    found: list[Doubt] = []
    for slot, _, places in capture.slots:
        for place in places:
            text = heard.tokens.texts[span[0] + place]
            counts = slot == "count" and kind in _ARTICLE_KINDS and text in _ARTICLES
            if _unsure(heard, span[0] + place) and (counts or numbers.word_classes(text)):
                found.append(_mistaken(heard, span[0], slot.partition("+")[0], places, place))
    hinge = _HINGES.get(kind)
    if hinge and any(_unsure(heard, token) for token in range(*span)):
        found.append(Doubt(hinge, "heard"))
    return found


def _mistaken(heard: Heard, first: int, slot: str, places: tuple[int, ...], at: int) -> Doubt:
    """The doubt of a number word: what else it may have been, where that makes sense."""
    said = heard.tokens.texts[first + at]
    for other in _CONFUSED.get(said, ()):
        texts = [other if place == at else heard.tokens.texts[first + place] for place in places]
        value = numbers.value(tuple(text for text in texts if text not in SKIPPED))
        if value is None or value not in _POSSIBLE.get(slot, (value,)):
            continue
        return Doubt(slot, "confusable", int(value) if value == int(value) else value)
    return Doubt(slot, "heard")


def _unsure(heard: Heard, token: int) -> bool:
    confidence = _confidence(heard, heard.tokens.starts[token])
    return confidence is not None and confidence < _SURE


def _confidence(heard: Heard, start: int) -> float | None:
    """The ear's confidence in the word that begins at `start` of the utterance."""
    at = bisect_right(heard.word_starts, start) - 1
    return heard.words[at].confidence if 0 <= at < len(heard.words) else None


_LARGE = frozenset({"junction", "pull", "by", "x"})
"""Words of a box that may well have more than a hundred cubic inches, 314.28."""


def _in_figures(heard: Heard, span: tuple[int, int], capture: Capture) -> frozenset[str]:
    """The slots that were typed in figures, which no ear can have misheard."""
    if heard.words:
        return frozenset()
    texts = heard.tokens.texts
    figures = frozenset(
        name
        for slot, _, places in capture.slots
        for name in slot.split("+")
        if any(texts[span[0] + place][:1].isdigit() for place in places)
    )
    said_so = not _UNITS.isdisjoint(texts[span[0] : span[1]])
    if said_so and not _LARGE.isdisjoint(texts):
        return figures | {"volume"}
    return figures if said_so else figures - {"volume"}


def _unusual(kind: str, values: Mapping[str, Value], figures: frozenset[str]) -> list[Doubt]:
    """Values that are rarely right, by the table of the trade's common practice.

    `figures` are the slots typed in figures, whose ranges are wider.
    """
    ranges = _UNUSUAL.get(kind)
    if ranges is None or "unit" in values:
        return []
    typed: dict[str, Any] = {
        slot: known for slot, known in _TYPED.get(kind, {}).items() if slot in figures
    }
    return [
        Doubt(slot, "unusual")
        for slot, (low, high) in {**ranges, **typed}.items()
        if isinstance(value := values.get(slot), (int, Decimal))
        and not isinstance(value, bool)
        and not low <= value <= high
    ]
