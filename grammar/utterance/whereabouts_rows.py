"""The rows of `data/whereabouts.toml`: what shows that words are about something else.

One form for both stages: each row is searched over the plain words of a piece, or over the line of
a clause in which things are tags, and only where a line holds what its expression needs.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache, lru_cache
from typing import Literal, TypeAlias, get_args

from boxaloud.grammar import grammar_data
from boxaloud.grammar.patterns.pattern_index import Sieve
from boxaloud.grammar.patterns.pattern_requirements import Needs, may_match, needs
from boxaloud.grammar.phrases import compiled_cache
from boxaloud.grammar.quick_dataclass import dataclass

Over: TypeAlias = Literal["words", "tags"]
"""What an expression is searched over: the words of a piece, or the line of a clause."""


@dataclass(frozen=True, slots=True)
class Row:
    """What one expression shows of the line that it is found in."""

    of: str
    """ "box" where it is of another box, "matter" where it is of none."""
    held: bool
    """True where what it tells may be of the box at hand after all."""
    despite: bool
    """True where "it" and "there" in the piece are what the piece is about, and not the box."""
    firm: bool
    """True where it stands in the description of a box as well."""
    say: str


def rows_in(line: str, over: Over) -> Iterator[Row]:
    """The rows whose expressions are found in a line, in their order."""
    lacking, sieve = _needed(over)
    every = _rows(over)
    for place in sieve.passing(line):
        if may_match(line, lacking[place]) and _compiled(every[place].say).search(line):
            yield every[place]


def elsewhere_expressions(over: Over) -> list[str]:
    """The expressions of all rows of one kind, in their order."""
    return [row.say for row in _rows(over)]


def elsewhere_needs() -> dict[str, list[Needs]]:
    """What the expressions of each kind of row need, read off them ahead."""
    return {f"needs elsewhere {over}": _needs(over) for over in get_args(Over)}


def _needs(over: Over) -> list[Needs]:
    return list(map(needs, elsewhere_expressions(over)))


@cache
def words_of(name: str) -> re.Pattern[str]:
    """A pattern of the table `words`."""
    return re.compile(_written(grammar_data.table("whereabouts")["words"][name]))


@cache
def here(name: str) -> re.Pattern[str]:
    """What shows that words are of the box at hand: of a piece `say` by itself, `loose` with what
    is before it; of a clause `tags` and `tags_loose`."""
    return re.compile("|".join(map(_written, grammar_data.table("whereabouts")["here"][name])))


@cache
def disowned(name: str) -> re.Pattern[str]:
    """What shows that a piece, or the one before it, is of no concern to the box at hand."""
    said = grammar_data.table("whereabouts")["disowned"][name]
    return re.compile("|".join(map(_written, said)))


@cache
def _rows(over: Over) -> tuple[Row, ...]:
    return tuple(
        Row(
            row["of"], row.get("held", False), row.get("despite", False), row.get("firm", False),
            _written(say),
        )
        for row in grammar_data.table("whereabouts")["elsewhere"]
        if row.get("over", "words") == over
        for say in row["say"]
    )  # fmt: skip


@cache
def _needed(over: Over) -> tuple[list[Needs], Sieve]:
    ahead = compiled_cache.kept()
    found: list[Needs] = _needs(over) if ahead is None else ahead.data(f"needs elsewhere {over}")
    return found, Sieve(found)


@cache
def _compiled(say: str) -> re.Pattern[str]:
    return re.compile(say)


def _written(say: str) -> str:
    for name, meant in _macros():
        say = say.replace("{" + name + "}", meant)
    return say


@lru_cache(maxsize=1)
def _macros() -> tuple[tuple[str, str], ...]:
    """The macros, each with those before it written out."""
    made: list[tuple[str, str]] = []
    for name, text in grammar_data.table("whereabouts")["macros"].items():
        for before, meant in made:
            text = text.replace("{" + before + "}", meant)
        made.append((name, text))
    return tuple(made)
