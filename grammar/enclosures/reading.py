"""What the readers of this package share."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from typing import TypeAlias

from boxaloud.grammar import grammar_data
from boxaloud.grammar.acts import Utterance

Ordinary: TypeAlias = Callable[[str], Utterance]
"""How a text is read that says nothing of an enclosure."""


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
