"""Sentences and names, from data: how the assistant puts things.

Volumes are shown with at least two decimals, marked volumes with at least one, and never
rounded. Counts up to twelve are words.
"""

from __future__ import annotations

import tomllib
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from importlib.resources import files
from typing import Any

WORDS = (
    "no", "one", "two", "three", "four", "five", "six",
    "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip


@lru_cache(maxsize=1)
def sentences() -> dict[str, Any]:
    """The sentence file, read once."""
    path = files("boxaloud.assistant.dialogue") / "data" / "sentences.toml"
    return tomllib.loads(path.read_text(encoding="utf-8"))


def say(key: str, **values: object) -> str:
    """The sentence under a dotted `key`, filled in.

    Raises KeyError where there is no such sentence: a fault of ours, held by a test.
    """
    found = _find(key)
    return found.format_map(values) if values else found


@lru_cache(maxsize=512)
def _find(key: str) -> str:
    node: Any = sentences()
    for step in key.split("."):
        node = node[step]
    assert isinstance(node, str), key
    return node


def attempts(question: str) -> tuple[str, ...]:
    """The wordings of a question: first, again with an example, and with a way out."""
    return tuple(sentences()["ask"][question])


def counted(count: int) -> str:
    """A count as a word up to twelve, as figures above."""
    return WORDS[count] if 0 <= count < len(WORDS) else str(count)


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
