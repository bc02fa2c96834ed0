"""A clause that asks or supposes, with what stands in it."""

from __future__ import annotations

import re
from collections.abc import Sequence

from boxaloud.grammar import grammar_data
from boxaloud.grammar.acts import Act
from boxaloud.grammar.building.supposed_acts import described, suppose
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.clauses.act_fields import THINGS
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.phrases.statements import Statement
from boxaloud.grammar.quick_dataclass import dataclass

TERMS: tuple[tuple[str, str], ...] = tuple(
    (row["id"], row["say"]) for row in grammar_data.table("questions")["term"]
)
LONGEST = 1000
"""Characters of a clause in which a question is looked for; a longer one asks over and over."""


@dataclass(frozen=True, slots=True)
class Question:
    """A clause that asks, the clauses joined to it, and what stands in it."""

    telling: Telling
    following: Sequence[Clause]
    words: str
    span: tuple[int, int]
    kinds: tuple[str, ...]
    """The kinds of all that the phrases found in it."""
    things: tuple[Statement, ...]
    """Things of the box, and what describes the box itself."""

    @property
    def clause(self) -> Clause:
        """The clause that asks."""
        return self.telling.clause

    @property
    def line(self) -> str:
        """Its line of words and tags."""
        return self.clause.line

    @property
    def inside(self) -> list[Statement]:
        """The things in the box that it names."""
        return [found for found in self.things if found.kind in THINGS]

    @property
    def counted(self) -> list[Statement]:
        """What it names that takes an allowance, clamps among it."""
        return [found for found in self.things if found.kind in THINGS or found.kind == "clamps"]

    @property
    def term(self) -> str | None:
        """The term of the glossary that it names."""
        return named(TERMS, f"{self.line} {self.words.lower()}")

    def supposed(self) -> list[Act]:
        """What it supposes."""
        return suppose(self.telling, self.following, self.words, self.span)

    def described(self) -> list[Act]:
        """What it supposes, where that may describe a box."""
        return described(self.telling, self.following, self.words, self.span)


def named(rows: tuple[tuple[str, str], ...], line: str) -> str | None:
    """The first of the rows whose expression a line holds."""
    return next((name for name, say in rows if re.search(say, line[:LONGEST])), None)
