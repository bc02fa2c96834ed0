"""The layout of an utterance: what its characters are before any word is read."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.heard_words import Word

_DOUBLE = lazy_pattern(r"(?<=\S) {2}(?=\S)")


def single_spaced(text: str) -> str:
    """Two spaces between words mean no more than one; more of them part the columns of a list."""
    return _DOUBLE.sub(" ", text) if "  " in text else text


_ASIDES = frozenset({"um", "uh", "er", "please"})


def trimmed(words: Sequence[Word]) -> Sequence[Word]:
    """Words of an ear without the hesitations and the "please" at either end."""
    first, last = 0, len(words)
    while first < last and words[first].text.lower() in _ASIDES:
        first += 1
    while last > first and words[last - 1].text.lower() in _ASIDES:
        last -= 1
    return words[first:last] if last > first else words
