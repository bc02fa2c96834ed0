"""What cables are for, said before how many they are: "feed in, feed out, porch and closet, that's
four 14-2s", "the outside plug is a 12-2". The cables are those that are counted, and no more."""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import spoken_value


def without_counted_names(text: str) -> str:
    """The text with such names blanked, each character in its place.

    >>> without_counted_names("travelers and a common, that's three number fourteens")
    '                      , that's three number fourteens'
    """
    for found in tuple(_COUNTED.finditer(text)):
        start = _names_from(text, found)
        if start is not None:
            text = text[:start] + " " * (found.start() - start) + text[found.start() :]
    return text


_SIZE = r"(?:fourteen|twelve|ten|14|12|10)"
_CABLE = rf"{_SIZE}[-/ ](?:twos?|threes?|[23])\b"
_NUMBER = r"(?:two|three|four|five|six|seven|eight|nine|ten|[2-9])"
_COUNTED = lazy_pattern(
    rf"(?i)(?:,| )(?= *(?:so )?(?:that['’]?s|that is|that makes|which makes|makes) (?P<n>{_NUMBER})"
    rf" (?:{_CABLE}|number {_SIZE}s?\b|{_SIZE}s\b|wires of {_SIZE}\b))"
)
#: A wire or a cable by what it does, or a place that it goes to: no number, no size, no device.
_ROLE = (
    r"(?:(?:the|an?|one|another|my|our) )?(?:feed|power|line|load|home ?run|switch leg|travell?ers?"
    r"|common|hot|neutral|porch|hall(?:way)?|closet|attic|basement|kitchen|bath(?:room)?|bedroom"
    r"|garage|den|stairs|landing|pantry|cellar|yard|shed|lamp|light|fan|next box|panel|outside"
    r"|front|back|upstairs|downstairs|dining room|living room|laundry|office|deck|patio)"
    r"(?: (?:in|out|on|up|down|light|lights|fan|hot|door|coming in|going out))?"
)
_NAMES = lazy_pattern(rf"(?i){_ROLE}(?:(?: ?, ?and |, | and | plus | ){_ROLE})+")
_NAME = lazy_pattern(rf"(?i){_ROLE}")


def _names_from(text: str, counted: re.Match[str]) -> int | None:
    """Where the names begin that a count stands behind; None where they are not as many."""
    before = text[: counted.start()]
    starts = [0, *(stop.end() for stop in re.finditer(r"[,.;:] *", before))]
    for start in starts:
        said = before[start:].strip()
        if not _NAMES.fullmatch(said):
            continue
        names = [name[0].casefold() for name in _NAME.finditer(said)]
        plural = any(name.endswith("ers") for name in names)
        if plural or len(names) == spoken_value(counted["n"]):
            return start
    return None
