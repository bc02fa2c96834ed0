"""The values of captured slots."""

from __future__ import annotations

import unicodedata
from decimal import Decimal

from boxaloud.grammar import grammar_data
from boxaloud.grammar.lexer import numbers
from boxaloud.grammar.lexer.tokens import Tokens
from boxaloud.grammar.phrases.best_cover import Capture
from boxaloud.grammar.phrases.statements import Value

_WORTH: dict[str, str] = grammar_data.table("rules")["worth"]
#: Slots that are `Decimal` even where a phrase gives them as a whole number.
_EXACT = frozenset(grammar_data.table("rules")["exact"])
#: Words of a captured slot that are no part of its number.
_NOT_IN_NAME = tuple(" " + word for word in grammar_data.table("rules")["not_in_name"])
SKIPPED = frozenset(grammar_data.table("rules")["skipped"])


def quotes(capture: Capture) -> bool:
    """Whether a slot takes the speaker's own words as they are written."""
    return any(_WORTH.get(rule) in ("words", "name") for _, rule, _ in capture.slots)


def values(capture: Capture, tokens: Tokens, first: int) -> dict[str, Value]:
    """The slots of a phrase whose span begins at token `first`."""
    found: dict[str, Value] = {}
    for slot, value in capture.gives:
        found[slot] = Decimal(value) if slot in _EXACT and isinstance(value, int) else value
    for slot, rule, places in capture.slots:
        worth = _WORTH.get(rule)
        if worth is None:
            continue
        if worth in ("words", "name"):
            said = _words(tokens, first, places)
            found[slot] = said if worth == "words" else _bare_name(said)
            continue
        texts = tuple([tokens.texts[first + place] for place in places])
        if worth == "pair":
            found["awg"], found["conductors"] = numbers.pair(texts[0])
            continue
        if worth == "year":
            found[slot] = numbers.year(texts)
            continue
        if worth == "firstofpair":
            found[slot], _ = numbers.pair(texts[0])
            continue
        kept = tuple([text for text in texts if text not in SKIPPED])
        value = numbers.run_on(kept) if worth == "runon" else numbers.value(kept)
        if value is not None:
            found[slot] = _as(worth, value)
    return found


def _as(worth: str, value: Decimal) -> Value:
    if worth == "whole" and value == value.to_integral_value():
        return int(value)
    return value


def _words(tokens: Tokens, first: int, places: tuple[int, ...]) -> str:
    start, end = tokens.starts[first + places[0]], tokens.ends[first + places[-1]]
    return tokens.heard[start:end].strip()


def _bare_name(said: str) -> str:
    """ "the kitchen box" is called "kitchen". What cannot be seen is no part of a name, but for
    the joiners, without which letters of several scripts are other letters."""
    seen = "".join(c if c.isprintable() or c in "\u200c\u200d" else " " for c in said)
    name = " ".join(unicodedata.normalize("NFC", seen).split())
    while name.lower().endswith(_NOT_IN_NAME):
        name = name.rpartition(" ")[0].rstrip(" ,")
    return name or said
