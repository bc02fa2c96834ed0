"""Trade sizes and other numbers in inches, as they are said: `two and a half`, `1-1/4`, `3/4`."""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal
from functools import cache

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers

_WORD = (
    r"(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)"
    r"(?:[- ](?:one|two|three|four|five|six|seven|eight|nine))?"
    r"|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen"
    r"|sixteen|seventeen|eighteen|nineteen"
)
_FIGURE = r"\d+-\d+/\d+|\d+ \d+/\d+|\d+/\d+|\d*\.\d+|\d+[½¼¾]|[½¼¾]|\d+"
_PART = r"(?:(?:an?|one)[- ])?(?:half|quarter)|three[- ]quarters?|half an?"
#: Each ends before anything that could belong to it.
_END = r"(?![\w½¼¾/]|\.\d|-\d)"
_MIXED = lazy_pattern(
    rf"(?:(?P<whole>one|two|three|\d) and (?P<part>{_PART}|1/2|1/4)"
    rf"|(?P<spelt>one|two|three) point (?P<after>five|two five)){_END}"
)
_INCH_AND = lazy_pattern(rf"(?:an? )?inch and (?P<part>{_PART}){_END}(?! inch)")
_AN_INCH = lazy_pattern(r"an inch\b(?! and )")
_FRACTION = lazy_pattern(rf"(?P<part>{_PART}){_END}")
_PLAIN = lazy_pattern(rf"(?:{_FIGURE}|(?:{_WORD})){_END}")
_PARTS = {"half": Decimal("0.5"), "quarter": Decimal("0.25"), "1/2": Decimal("0.5"),
          "1/4": Decimal("0.25")}  # fmt: skip
_LARGEST_MIXED = {Decimal(text) for text in ("1.25", "1.5", "2.5", "3.5")}
"""Trade sizes that are no whole inch and over one: "four and a half inch" is two raceways."""


def sizes(text: str, at: int) -> Iterator[tuple[Decimal, int, bool]]:
    """Every size that begins at a place: its worth, where it ends, whether it holds the inch."""
    if (found := _INCH_AND.match(text, at)) is not None:
        yield Decimal(1) + _part(found["part"]), found.end(), True
    if (found := _AN_INCH.match(text, at)) is not None:
        yield Decimal(1), found.end(), True
    if (found := _MIXED.match(text, at)) is not None:
        worth = _mixed(found)
        if worth in _LARGEST_MIXED:
            yield worth, found.end(), False
    if (found := _FRACTION.match(text, at)) is not None:
        yield _part(found["part"]), found.end(), False
    if (found := _PLAIN.match(text, at)) is not None and (worth_ := value(found[0])) is not None:
        yield worth_, found.end(), False


def whole(text: str, at: int) -> tuple[int, int] | None:
    """A count at a place, and where it ends."""
    found = _PLAIN.match(text, at)
    if found is None:
        return None
    worth = value(found[0])
    if worth is None or worth != int(worth) or not 0 < worth < 100:
        return None
    return int(worth), found.end()


@cache
def value(said: str) -> Decimal | None:
    """What a number is worth that stands by itself."""
    return numbers.value(
        tuple(said.replace("-", " ").split() if said[0].isalpha() else said.split())
    )


def _part(said: str) -> Decimal:
    said = said.replace("-", " ")
    if said.startswith("three"):
        return Decimal("0.75")
    last = said.split()[-1]
    return _PARTS.get(last, _PARTS["half"])


def _mixed(found: re.Match[str]) -> Decimal:
    if found["spelt"]:
        tail = Decimal("0.5") if found["after"] == "five" else Decimal("0.25")
        return (value(found["spelt"]) or Decimal(0)) + tail
    return (value(found["whole"]) or Decimal(0)) + _part(found["part"])
