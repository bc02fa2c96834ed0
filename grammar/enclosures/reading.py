"""What the readers of this package share."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from typing import TypeAlias

from boxaloud.grammar import grammar_data
from boxaloud.grammar.acts import Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern

Ordinary: TypeAlias = Callable[[str], Utterance]
"""How a text is read that says nothing of an enclosure."""


_ASKS = lazy_pattern(
    r"\s*(?:(?:and|so|ok|okay|well),? )*"
    r"(?:(?:is|are|does|do|did|was|were|can|could|would|will|should|may|must)"
    r" (?:it|they|that|this|these|those|i|we|you|he|there|the|an?|my|our|both|all|any|half|one|two"
    r"|three|four|five|six|number|[#\d])|(?:how|what|which) (?!if\b)\w)"
)


def asks(text: str) -> bool:
    """Whether a text begins as a question does: what it says is no more than supposed."""
    return _ASKS.match(text) is not None


@cache
def ways(*path: str) -> re.Pattern[str]:
    """A list of ways to say something as one expression of whole words, the longest first; of a
    table all its lists."""
    table = grammar_data.table("enclosures")
    for step in path:
        table = table[step]
    flat = table if isinstance(table, list) else [way for each in table.values() for way in each]
    joined = "|".join(sorted(flat, key=len, reverse=True))
    return re.compile(rf"(?<![\w/'-])(?:{joined})(?![\w/'])")
