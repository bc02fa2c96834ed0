"""The expressions of `data/whereabouts.toml`: what shows that a piece is about something else."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache, lru_cache

from boxaloud.grammar import grammar_data
from boxaloud.grammar.patterns.pattern_index import Sieve
from boxaloud.grammar.patterns.pattern_requirements import Needs, may_match, needs
from boxaloud.grammar.phrases import compiled_cache
from boxaloud.grammar.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """What one expression shows of a piece that it is found in."""

    of: str
    """ "box" where it is of another box, "matter" where it is of none."""
    held: bool
    """True where what it tells may be of the box at hand after all."""
    despite: bool
    """True where "it" and "there" in the piece are what the piece is about, and not the box."""
    firm: bool
    """True where it stands in the description of a box as well."""
    say: str


def rows_in(words: str) -> Iterator[Row]:
    """The rows whose expressions are found in a piece of plain words, in their order."""
    lacking, sieve = _needed()
    every = _rows()
    for place in sieve.passing(words):
        if may_match(words, lacking[place]) and _compiled(every[place].say).search(words):
            yield every[place]


def elsewhere_expressions() -> list[str]:
    """The expressions of all rows, in their order."""
    return [row.say for row in _rows()]


@cache
def words_of(name: str) -> re.Pattern[str]:
    """A pattern of the table `words`."""
    return re.compile(_written(grammar_data.table("whereabouts")["words"][name]))


@cache
def here(name: str) -> re.Pattern[str]:
    """What shows that a piece is of the box at hand: `say` by itself, `loose` with what is before
    it."""
    return re.compile("|".join(map(_written, grammar_data.table("whereabouts")["here"][name])))


@lru_cache(maxsize=1)
def _rows() -> tuple[Row, ...]:
    return tuple(
        Row(
            row["of"], row.get("held", False), row.get("despite", False), row.get("firm", False),
            _written(say),
        )
        for row in grammar_data.table("whereabouts")["elsewhere"]
        for say in row["say"]
    )  # fmt: skip


@lru_cache(maxsize=1)
def _needed() -> tuple[list[Needs], Sieve]:
    ahead = compiled_cache.kept()
    found: list[Needs] = (
        list(map(needs, elsewhere_expressions()))
        if ahead is None
        else ahead.data("needs elsewhere")
    )
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
