"""Sizes as they are written in the trade: 4 × 1-1/4, not as they are said."""

from __future__ import annotations

import re

_FRACTION = re.compile(r"\b(\d+) and (\d+/\d+)")
_BY = re.compile(r"(?<=\d) by (?=\d)")
_TYPED_BY = re.compile(r"(?<=\d)\s*(?:x|×|by)\s*(?=\d)")
_TYPED_FRACTION = re.compile(r"\b(\d+)(?: and |-| )(\d+/\d+)")


def sizes_written(words: str) -> str:
    """Words with every size in figures: "4 by 1 and 1/4 square" is "4 × 1-1/4 square"."""
    return _BY.sub(" × ", _FRACTION.sub(r"\1-\2", words))


def sizes_typed(words: str) -> str:
    """The same of what someone typed, whichever way: "4x1 1/4", "4 by 1 and 1/4"."""
    return _TYPED_BY.sub(" × ", _TYPED_FRACTION.sub(r"\1-\2", words.lower()))
