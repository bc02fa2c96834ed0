"""A clause of an utterance, and the words, breaks and noun groups that it is made of."""

from __future__ import annotations

import dataclasses
from typing import Literal, TypeAlias

from boxaloud.grammar.phrases.statements import Statement
from boxaloud.grammar.quick_dataclass import dataclass

Mood: TypeAlias = Literal["declarative", "interrogative", "conditional"]


@dataclass(frozen=True, slots=True)
class Element:
    """One word, break or noun group of a clause."""

    tag: str
    start: int
    end: int
    found: Statement | None = None


@dataclasses.dataclass(slots=True)
class Clause:
    """A stretch of an utterance that does one thing."""

    elements: list[Element]
    mood: Mood = "declarative"
    line: str = ""
    opens: str = ""
    """The break that stands before it."""
    closes: str = ""
    """The break that stands after it."""
    fit: bool = False
    """True for a question whether the box fits."""
    modal: bool = False
    asked: tuple[Statement, ...] = ()
    """Questions of a fixed kind that stand in it."""

    @property
    def found(self) -> list[Statement]:
        """The noun groups, values and commands of the clause."""
        return [element.found for element in self.elements if element.found is not None]

    @property
    def thing(self) -> str:
        """The kind of what stands in it alone; empty where it has several things or any word."""
        found = self.elements[0].found if len(self.elements) == 1 else None
        return "" if found is None else found.kind

    @property
    def span(self) -> tuple[int, int]:
        """Its place in the utterance."""
        return self.elements[0].start, self.elements[-1].end
