"""What a number said in words or figures is worth, with its half, quarter or tenths: for sums that
somebody does aloud. What is told of a box is read by the grammar's own numbers."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.grammar import grammar_data
from boxaloud.grammar.lazy_patterns import lazy_pattern

_TABLE = grammar_data.table("numbers")
_ONES: dict[str, int] = _TABLE["ones"]
_TEENS: dict[str, int] = _TABLE["teens"]
_TENS: dict[str, int] = _TABLE["tens"]
_WORTH = {**_ONES, **_TEENS, **_TENS}
_FRACTIONS = {
    "half": Decimal("0.5"),
    "quarter": Decimal("0.25"),
    "quarters": Decimal("0.25"),
    "tenth": Decimal("0.1"),
    "tenths": Decimal("0.1"),
    "eighth": Decimal("0.125"),
    "eighths": Decimal("0.125"),
}
_ONE = "|".join(_ONES)
_WHOLE = (
    rf"(?:\d+(?:\.\d+)?|(?:{'|'.join(_TENS)})(?:[- ](?:{_ONE})(?![- ](?:tenths?|quarters?"
    rf"|eighths?)))?"
    rf"|{'|'.join(_TEENS)}|{_ONE})"
)
_FRACTION = rf"(?:(?:an?|{_ONE}) )?(?:{'|'.join(_FRACTIONS)})"
#: A number with what is said of it behind "and" or "point"; its plural counts how many times it is
#: taken, "nine twos".
SPOKEN_VALUE = lazy_pattern(
    rf"(?i)(?<![\w.$/-])(?P<value>{_WHOLE}(?: and {_FRACTION}\b| point (?:{_ONE}))?)"
    r"(?P<plural>(?<=x)es|s)?(?![\w/]|-\d|\.\d)"
)


def spoken_value(said: str) -> Decimal:
    """What such a number is worth.

    >>> spoken_value("fifty one and three tenths")
    Decimal('51.3')
    """
    words = said.casefold().replace("-", " ").split()
    value, counted = Decimal(0), Decimal(0)
    behind = False
    for place, word in enumerate(words):
        if word == "point":
            return value + counted + Decimal(_WORTH[words[place + 1]]) / 10
        if word == "and":
            value, counted, behind = value + counted, Decimal(0), True
        elif word in _FRACTIONS and behind:
            return value + (counted or 1) * _FRACTIONS[word]
        elif word in _WORTH:
            counted += _WORTH[word]
        elif word[0].isdecimal():
            counted += Decimal(word)
    return value + counted
