"""The trade size of a conduit body and of its raceway."""

from __future__ import annotations

import re
from decimal import Decimal

from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.lazy_patterns import lazy_pattern

_NO_TRADE_SIZE = lazy_pattern(r" ?(?:cubic|cu\b|cube|(?:long|wide|deep|high|tall|by|x)\b)")
_PART_OF_MORE = lazy_pattern(r"(?:\band(?: an?)?|[\d.-]|\binch(?:es)?|\b(?:marked|volume|is)) ?$")

_TRADE = frozenset(
    Decimal(size) for size in ["0.5", "0.75", "1", "1.25", "1.5", "2", "2.5", "3", "3.5", "4"]
)  # fmt: skip


def size_before(text: str, place: int) -> tuple[Decimal, int, int] | None:
    """The trade size that ends right before a raceway's name."""
    for start in range(max(0, place - 24), place):
        if start and text[start - 1].isalnum():
            continue
        for size, end, _ in lengths.sizes(text, start):
            unit = re.compile(r"[ -]?(?:inch(?:es)?|in\.?|\")?[ -]*").match(text, end)
            if unit and unit.end() == place and size in _TRADE and not _gauge(text, start):
                return size, start, unit.end()
    return None


def size_anywhere(text: str, asked: str | None) -> tuple[Decimal, int, int] | None:
    """A size with its unit, or alone where it was asked for, or before the letters of a body."""
    for found in re.finditer(r"(?<![\w./-])(?=[\w.½¼¾])", text):
        for size, end, has_inch in lengths.sizes(text, found.start()):
            if size not in _TRADE:
                continue
            unit = re.compile(r"[ -]?(?:inch(?:es)?(?!\w)|\")").match(text, end)
            lone = asked == "body_size" and not text[end:].strip(" .!")
            body = re.compile(
                r" (?:in\.? )?(?:l ?[blru]d?|t ?b|[ctx] (?:conduit )?body|conduit body)\b"
            ).match(text, end)
            if unit or has_inch or lone or body or _fraction_alone(text, found.start(), end, size):
                stop = unit.end() if unit else end
                conduit = re.compile(r" (?:conduits?|raceways?|pipes?|hubs?)\b").match(text, stop)
                other = _NO_TRADE_SIZE.match(text, stop)
                if not other:
                    return size, found.start(), conduit.end() if conduit else stop
    return None


def _fraction_alone(text: str, start: int, end: int, size: Decimal) -> bool:
    """ "LR 3/4, …", "…, three quarter": a fraction before a break is neither count nor gauge."""
    apart = re.match(r"\s*(?:[,.;]|$)", text[end:]) is not None
    return size < 1 and apart and not _PART_OF_MORE.search(text[:start])


def _gauge(text: str, start: int) -> bool:
    return text[:start].rstrip().endswith(("#", "number", "no."))
