"""The words of `data/enclosures.toml` as expressions that match at a place of a text."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from boxaloud.grammar import grammar_data

Pattern = re.Pattern[str]


def _joined(ways: Iterable[str]) -> str:
    return "|".join(sorted(ways, key=len, reverse=True))


def expression(ways: Iterable[str]) -> Pattern:
    """One expression of several ways, whole words, the longest match of the first that fits."""
    return re.compile(rf"(?:{_joined(ways)})(?![\w])")


@cache
def words(name: str) -> Pattern:
    """A list of `[pull]` or `[pull.words]` as an expression."""
    table = grammar_data.table("enclosures")["pull"]
    ways = table[name] if name in table else table["words"][name]
    return expression(ways)


@cache
def shows(name: str) -> Pattern:
    """What shows that an utterance is `about` a pull box, or `likely` so."""
    return re.compile(rf"\b(?:{_joined(grammar_data.table('enclosures')['pull'][name])})")


@cache
def named(group: str) -> tuple[tuple[str, Pattern], ...]:
    """Names and their expressions: `kind` or `wall`."""
    return tuple(
        (key, expression(ways))
        for key, ways in grammar_data.table("enclosures")["pull"][group].items()
    )


def longest(patterns: Iterable[tuple[str, Pattern]], text: str, at: int) -> tuple[str, int] | None:
    """The name whose expression reaches furthest from a place, and where it ends."""
    best: tuple[str, int] | None = None
    for name, pattern in patterns:
        found = pattern.match(text, at)
        if found is not None and found.end() > at and (best is None or found.end() > best[1]):
            best = (name, found.end())
    return best
