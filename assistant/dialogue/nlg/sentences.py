"""Sentences and names, from data: how the assistant puts things.

Volumes are shown with at least two decimals, marked volumes with at least one, and never
rounded. Counts up to twelve are words.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

from boxaloud.assistant.text.catalogue import Catalogue
from boxaloud.rules.words import SMALL

_CATALOGUE = Catalogue("boxaloud.assistant.dialogue.nlg")
say = _CATALOGUE.say


def sentences() -> dict[str, Any]:
    """The sentence file, read once."""
    return _CATALOGUE.tables


def attempts(question: str) -> tuple[str, ...]:
    """The wordings of a question: first, again with an example, and with a way out."""
    return tuple(sentences()["ask"][question])


def counted(count: int) -> str:
    """A count as a word up to twelve, as figures above."""
    return SMALL[count] if 0 <= count < len(SMALL) else str(count)


def volume(value: Decimal) -> str:
    """A worked-out volume: two decimals, or as many as it exactly has."""
    return _at_least(value, 2)


def marked(value: Decimal) -> str:
    """A marked volume: one decimal, or as many as it exactly has."""
    return _at_least(value, 1)


def plain(value: Decimal) -> str:
    """A number without trailing zeros ("2", "1.25")."""
    text = format(value, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def _at_least(value: Decimal, places: int) -> str:
    text = plain(value)
    whole, _, part = text.partition(".")
    return f"{whole}.{part.ljust(places, '0')}"


def inches(value: Decimal) -> str:
    """A length in inches as the trade writes it: "1-1/2", "2-1/8", "4-11/16"."""
    whole, part = divmod(Fraction(value), 1)
    if not part:
        return str(whole)
    return f"{whole}-{part}" if whole else str(part)


def listed(things: list[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    if len(things) < 2:
        return "".join(things)
    return ", ".join(things[:-1]) + " and " + things[-1]


def sentence(text: str) -> str:
    """The text with a capital and a full stop."""
    text = text.strip()
    if not text:
        return ""
    text = text[0].upper() + text[1:]
    return text if text[-1] in ".?!:" else text + "."


def shortened(words: str, most: int = 60) -> str:
    """Words to be quoted back, cut where they are long."""
    words = " ".join(words.split())
    return words if len(words) <= most else words[:most].rsplit(" ", 1)[0] + " …"
