"""The patterns of `data/patterns.toml`: what the words around the things of a clause do."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache, lru_cache
from typing import TYPE_CHECKING, NamedTuple

from boxaloud.grammar import grammar_data
from boxaloud.grammar.patterns import pattern_requirements
from boxaloud.grammar.patterns.pattern_index import Sieve
from boxaloud.grammar.patterns.pattern_requirements import Needs, may_match
from boxaloud.grammar.phrases import compiled_cache

if TYPE_CHECKING:
    from boxaloud.grammar.clauses.clause_splitter import Clause


class Pattern(NamedTuple):
    """One way of doing something to the things of the box."""

    act: str
    say: str
    """A regular expression over the line of the clause, as `compiled` takes it."""
    needs: Needs
    """What the line must hold."""


class Match(NamedTuple):
    """A pattern found in a clause."""

    act: str
    found: re.Match[str]
    clause: Clause

    def has(self, group: str) -> bool:
        """Whether the pattern has this part, and it was said."""
        return group in self.found.re.groupindex and bool(self.found.group(group))

    def places(self, group: str) -> range:
        """The elements of the clause that a part of the pattern covers."""
        first, last = self.found.span(group)
        line = self.clause.line
        start = line.count(" ", 0, first)
        return range(start, start + line.count(" ", first, last) + 1)

    def covered(self) -> range:
        """The elements of the clause that the whole pattern covers."""
        first, last = self.found.span()
        line = self.clause.line
        begin = first + (line[first : first + 1] == " ")
        start = line.count(" ", 0, begin)
        return range(start, start + line.count(" ", begin, last) + 1)


@lru_cache(maxsize=1)
def patterns() -> tuple[Pattern, ...]:
    """Every pattern, in the order in which they are tried."""
    ahead = compiled_cache.kept()
    written = expressions()
    needs: list[Needs] = (
        list(map(pattern_requirements.needs, written)) if ahead is None else ahead.data("needs")
    )
    rows = [row for row in grammar_data.table("patterns")["pattern"] for _ in row["say"]]
    return tuple(
        Pattern(row["act"], say, lacking)
        for row, say, lacking in zip(rows, written, needs, strict=True)
    )


@lru_cache(maxsize=1)
def sieve() -> Sieve:
    """What tells from the words of a line which patterns to look at."""
    return Sieve([pattern.needs for pattern in patterns()])


def expressions() -> list[str]:
    """The regular expressions of all patterns, in the order in which they are tried."""
    table = grammar_data.table("patterns")
    macros = _macros(table["macros"])
    return [_written(way, macros) for row in table["pattern"] for way in row["say"]]


@cache
def compiled(say: str) -> re.Pattern[str]:
    """The expression of a pattern, compiled when first tried: one takes about a millisecond."""
    return re.compile(say)


def _macros(said: dict[str, str]) -> dict[str, str]:
    """The macros with those that they use written out; each uses only ones before it."""
    made: dict[str, str] = {}
    for name, text in said.items():
        made[name] = _written(text, made)
    return made


def _written(text: str, macros: dict[str, str]) -> str:
    for name, meant in macros.items():
        text = text.replace("{" + name + "}", meant)
    return text


def matches(clause: Clause) -> Iterator[Match]:
    """The patterns that a clause matches, the one that decides first."""
    line, every = clause.line, patterns()
    for place in sieve().passing(line):
        pattern = every[place]
        if not may_match(line, pattern.needs):
            continue
        found = compiled(pattern.say).search(line)
        if found is not None:
            yield Match(pattern.act, found, clause)
