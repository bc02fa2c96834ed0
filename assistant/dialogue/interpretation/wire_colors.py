"""Conductors told by the color of their insulation, or by what it stands for."""

from __future__ import annotations

from boxaloud.grammar.lazy_patterns import lazy_pattern

_COLORED = lazy_pattern(
    r"(?i)\b(?:blacks?|whites?|reds?|blues?|browns?|oranges?|yellows?|gr[ae]ys?|hots?|neutrals?)\b"
)


def names_color(words: str) -> bool:
    """Whether words name conductors of one color: "the reds", "four whites"."""
    return _COLORED.search(words) is not None
