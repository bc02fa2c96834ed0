"""Numbers of several words that no phrase took: "thirty-two", "two and a half" are one value."""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers

_PART = r"(?:hal(?:f|ves)|quarters?|eighths?|sixteenths?)"
_UP_TO_NINE = r"(?:one|two|three|four|five|six|seven|eight|nine)"
_FRACTION = rf"(?:an? |{_UP_TO_NINE} |eleven )?{_PART}\b"
_RUN = lazy_pattern(
    rf"(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)[ -]{_UP_TO_NINE}\b"
    rf"(?: and {_FRACTION})?(?![ -](?:gauge|[a-z]*\d|{_PART}))"
    rf"|[a-z]+ and {_FRACTION}"
    r"|\d{1,2}(?: and)? \d{1,2}/\d{1,2}(?![/\d])"
)
_WORDS = re.compile(r"[ -]")


def run(low: str, start: int, end: int) -> tuple[str, int] | None:
    """The tag of the number of several words that begins at `start`, and where it ends; None
    where none begins there."""
    found = _RUN.match(low, start, end)
    if found is None:
        return None
    said = found.group()
    words = tuple(said.split(" ")) if said[0].isdigit() else tuple(_WORDS.split(said))
    if not numbers.word_classes(words[0]):
        return None
    value = numbers.value(words)
    return None if value is None else (f"<n:{value}>", found.end())
