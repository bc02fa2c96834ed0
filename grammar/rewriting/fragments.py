"""The shared pieces of the expressions of rewrite rules: a count, a size, a cable."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from boxaloud.grammar import grammar_data

#: Within an expression, either form of the apostrophe.
_APOSTROPHE = "['’]"


def written_out(said: str) -> str:
    """An expression with its fragments and apostrophes written out.

    >>> written_out("{few} o’clock")
    "(?:an?|one|two|three|four|five|six|[1-6]) o['’]clock"
    """
    for name, meant in _fragments():
        said = said.replace("{" + name + "}", meant)
    return said.replace("’", _APOSTROPHE)


@cache
def _fragments() -> tuple[tuple[str, str], ...]:
    """The fragments, the last first: each may hold those that stand before it."""
    given = grammar_data.table("rewrites")["fragments"]
    return tuple(reversed([*_listed_elsewhere(), *given.items()]))


def _listed_elsewhere() -> tuple[tuple[str, str], ...]:
    """What the other tables of the grammar list: rooms, what tells rooms apart, roles of cables."""
    rooms = grammar_data.table("clauses")["rooms"]
    roles = grammar_data.table("lexicon")["names"]["role"]
    return (
        ("room", _any_of(set(rooms["names"]) - {"box"})),
        ("room_word", _any_of(rooms["words"])),
        ("role", _any_of(name for names in roles.values() for name in names) + "s?"),
    )


def _any_of(words: Iterable[str]) -> str:
    """The longest first, so that none hides a longer one that begins as it does."""
    return "(?:{})".format("|".join(sorted(sorted(words), key=len, reverse=True)))
