"""All phrases as one automaton over symbols, made deterministic as it is used.

Every terminal of every phrase is a position (the construction of Glushkov), and a state is
the set of positions that the last token may have been. A path of positions through a span
says which token belongs to which slot, so capturing needs no second grammar.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from grammar.expression import Choice, Marked, Named, Node, Repeat, Terminal
from grammar.expression import Sequence as Sequenced
from grammar.statements import Value

Slot = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Position:
    """One terminal of one phrase."""

    terminal: int
    phrase: int
    captures: tuple[Slot, ...]
    """(slot, rule) of every slot whose words it belongs to, innermost last."""
    gives: tuple[tuple[str, Value], ...]
    """Constant slot values that it brings, innermost last."""


@dataclass(slots=True)
class State:
    """A set of positions, in order; `accepts` are the phrases that may end here."""

    positions: tuple[int, ...]
    accepts: tuple[int, ...]
    after: dict[int, State | None] = field(default_factory=dict)
    best: dict[str | None, tuple[int, int] | None] = field(default_factory=dict)
    reach: dict[int, list[int]] | None = None


@dataclass(slots=True)
class Automaton:
    """Phrases in, states out. `add` each phrase, then walk from `start`."""

    terminals: dict[str, int] = field(default_factory=dict)
    positions: list[Position] = field(default_factory=list)
    follow: list[set[int]] = field(default_factory=list)
    firsts: list[frozenset[int]] = field(default_factory=list)
    lasts: list[frozenset[int]] = field(default_factory=list)
    members: Sequence[frozenset[int]] = ()
    start: State = field(default_factory=lambda: State((), ()))
    _states: dict[tuple[int, ...], State] = field(default_factory=dict)
    _last_of: dict[int, int] = field(default_factory=dict)

    def add(self, node: Node) -> int:
        """Add a phrase and return its index."""
        phrase = len(self.firsts)
        nullable, first, last = _Builder(self, phrase).build(node, (), ())
        if nullable:
            raise ValueError(f"phrase {phrase} matches nothing at all")
        self.firsts.append(frozenset(first))
        self.lasts.append(frozenset(last))
        for position in last:
            self._last_of[position] = phrase
        for position in first:
            terminal = self.positions[position].terminal
            if self.start.reach is None:
                self.start.reach = {}
            self.start.reach.setdefault(terminal, []).append(position)
        return phrase

    def step(self, state: State, symbol: int) -> State | None:
        """The state after `symbol`; None when no phrase goes on. Remembered."""
        if state.reach is None:
            state.reach = self._reach(state.positions)
        found: set[int] = set()
        for terminal in self.members[symbol]:
            found.update(state.reach.get(terminal, ()))
        after = self._state(tuple(sorted(found))) if found else None
        state.after[symbol] = after
        return after

    def _reach(self, positions: Iterable[int]) -> dict[int, list[int]]:
        following: set[int] = set()
        for position in positions:
            following |= self.follow[position]
        reach: dict[int, list[int]] = {}
        for position in following:
            reach.setdefault(self.positions[position].terminal, []).append(position)
        return reach

    def _state(self, positions: tuple[int, ...]) -> State:
        state = self._states.get(positions)
        if state is None:
            last_of = self._last_of
            accepts = sorted({last_of[p] for p in positions if p in last_of})
            state = self._states[positions] = State(positions, tuple(accepts))
        return state

    def path(self, phrase: int, symbols: Sequence[int]) -> list[Position]:
        """The positions of `phrase` that the symbols of an accepted span went through.

        Where there are several paths, the one that the phrase writes first is taken.
        """
        members = self.members
        layers: list[set[int]] = []
        current: Iterable[int] = self.firsts[phrase]
        for symbol in symbols:
            layer = {p for p in current if self.positions[p].terminal in members[symbol]}
            layers.append(layer)
            current = set().union(*(self.follow[p] for p in layer)) if layer else ()
        alive = layers[-1] & self.lasts[phrase]
        for place in range(len(layers) - 2, -1, -1):
            layers[place + 1] = alive
            alive = {p for p in layers[place] if self.follow[p] & alive}
        layers[0] = alive
        chosen = [min(layers[0])]
        for layer in layers[1:]:
            chosen.append(min(self.follow[chosen[-1]] & layer))
        return [self.positions[p] for p in chosen]


@dataclass(slots=True)
class _Builder:
    automaton: Automaton
    phrase: int

    def build(
        self, node: Node, captures: tuple[Slot, ...], gives: tuple[tuple[str, Value], ...]
    ) -> tuple[bool, set[int], set[int]]:
        """(may be empty, first positions, last positions) of a tree, its positions added."""
        if isinstance(node, Terminal):
            return self._terminal(node, captures, gives)
        if isinstance(node, Marked):
            if node.rule:
                return self.build(node.part, (*captures, (node.slot, node.rule)), gives)
            slot = captures[-1][0] if node.slot == "own" and captures else node.slot
            return self.build(node.part, captures, (*gives, (slot, node.value)))
        if isinstance(node, Named):
            return self.build(node.part, captures, gives)
        if isinstance(node, Repeat):
            nullable, first, last = self.build(node.part, captures, gives)
            self._join(last, first)
            return nullable, first, last
        if isinstance(node, Choice):
            return self._choice(node, captures, gives)
        return self._sequence(node, captures, gives)

    def _terminal(
        self, node: Terminal, captures: tuple[Slot, ...], gives: tuple[tuple[str, Value], ...]
    ) -> tuple[bool, set[int], set[int]]:
        terminals = self.automaton.terminals
        terminal = terminals.setdefault(node.key, len(terminals))
        here = len(self.automaton.positions)
        self.automaton.positions.append(Position(terminal, self.phrase, captures, gives))
        self.automaton.follow.append(set())
        return False, {here}, {here}

    def _choice(
        self, node: Choice, captures: tuple[Slot, ...], gives: tuple[tuple[str, Value], ...]
    ) -> tuple[bool, set[int], set[int]]:
        nullable, first, last = False, set[int](), set[int]()
        for part in node.parts:
            empty, begins, ends = self.build(part, captures, gives)
            nullable |= empty
            first |= begins
            last |= ends
        return nullable, first, last

    def _sequence(
        self, node: Sequenced, captures: tuple[Slot, ...], gives: tuple[tuple[str, Value], ...]
    ) -> tuple[bool, set[int], set[int]]:
        nullable, first, last = True, set[int](), set[int]()
        for part in node.parts:
            empty, begins, ends = self.build(part, captures, gives)
            self._join(last, begins)
            if nullable:
                first = first | begins
            last = last | ends if empty else ends
            nullable &= empty
        return nullable, first, last

    def _join(self, before: Iterable[int], after: set[int]) -> None:
        for position in before:
            self.automaton.follow[position] |= after
