"""The positions of phrases: which terminal each is, what it captures, what may follow it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeAlias

from boxaloud.grammar.phrases.automaton import Position
from boxaloud.grammar.phrases.statements import Value
from boxaloud.grammar.phrases.template import Choice, Marked, Named, Node, Repeat, Terminal
from boxaloud.grammar.phrases.template import Sequence as Sequenced

Slot: TypeAlias = tuple[str, str]
Given: TypeAlias = tuple[str, Value]
Built: TypeAlias = tuple[bool, set[int], set[int]]
"""May be empty; first positions; last positions."""


class Builder:
    """Numbers the positions of one phrase after the other.

    `follow[position]` are the sets of positions that may come next. They are shared rather
    than joined: most are never looked at.
    """

    def __init__(self) -> None:
        self.terminals: dict[str, int] = {}
        self.positions: list[Position] = []
        self.follow: list[list[set[int]]] = []
        self._phrase = 0

    def build(self, node: Node, phrase: int) -> Built:
        """Add the positions of a phrase."""
        self._phrase = phrase
        return self._build(node, (), ())

    def _build(self, node: Node, captures: tuple[Slot, ...], gives: tuple[Given, ...]) -> Built:
        if isinstance(node, Terminal):
            here = len(self.positions)
            terminal = self.terminals.setdefault(node.key, len(self.terminals))
            self.positions.append(Position(terminal, self._phrase, captures, gives))
            self.follow.append([])
            return False, {here}, {here}
        if isinstance(node, Choice):
            return self._choice(node, captures, gives)
        if isinstance(node, Sequenced):
            return self._sequence(node, captures, gives)
        if isinstance(node, Named):
            return self._build(node.part, captures, gives)
        if isinstance(node, Repeat):
            nullable, first, last = self._build(node.part, captures, gives)
            self._join(last, first)
            return nullable, first, last
        return self._marked(node, captures, gives)

    def _marked(self, node: Marked, captures: tuple[Slot, ...], gives: tuple[Given, ...]) -> Built:
        if node.rule:
            return self._build(node.part, (*captures, (node.slot, node.rule)), gives)
        slot = captures[-1][0] if node.slot == "own" and captures else node.slot
        return self._build(node.part, captures, (*gives, (slot, node.value)))

    def _choice(self, node: Choice, captures: tuple[Slot, ...], gives: tuple[Given, ...]) -> Built:
        nullable, first, last = False, set[int](), set[int]()
        for part in node.parts:
            empty, begins, ends = self._build(part, captures, gives)
            nullable |= empty
            first |= begins
            last |= ends
        return nullable, first, last

    def _sequence(
        self, node: Sequenced, captures: tuple[Slot, ...], gives: tuple[Given, ...]
    ) -> Built:
        nullable, first, last = True, set[int](), set[int]()
        for part in node.parts:
            empty, begins, ends = self._build(part, captures, gives)
            self._join(last, begins)
            if nullable:
                first = first | begins
            last = last | ends if empty else ends
            nullable = nullable and empty
        return nullable, first, last

    def _join(self, before: Iterable[int], after: set[int]) -> None:
        for position in before:
            self.follow[position].append(after)
