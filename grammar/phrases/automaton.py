"""All phrases as one automaton over symbols, made deterministic as it is used.

Every terminal of every phrase is a position (the construction of Glushkov), and a state is
the set of positions that the last token may have been. A path of positions through a span
says which token belongs to which slot, so capturing needs no second grammar. The positions are
read out of the compiled grammar (`grammar.compiling`) one by one, as they are reached.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cached_property
from typing import Any, NamedTuple, TypeAlias

from boxaloud.grammar.phrases.compiled_form import Compiled
from boxaloud.grammar.phrases.statements import Value

Group: TypeAlias = dict[int, list[int]]
"""Positions by their terminal."""


class Position(NamedTuple):
    """One terminal of one phrase."""

    terminal: int
    phrase: int
    captures: tuple[tuple[str, str], ...]
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
    reach: list[Group] | None = None
    """What may come next, found when first needed."""


class _Runs:
    """Lists of numbers that lie one behind the other."""

    def __init__(self, compiled: Compiled, name: str) -> None:
        self._numbers = compiled.numbers(name)
        self._begins = compiled.numbers(f"{name} from")

    def __getitem__(self, index: int) -> list[int]:
        return self._numbers[self._begins[index] : self._begins[index + 1]].tolist()

    def __len__(self) -> int:
        return len(self._begins) - 1


class Automaton:
    """A compiled grammar in, states out: walk from `start` with `step`.

    `members[symbol]` are the terminals that a symbol matches; it must be set before walking.
    """

    def __init__(self, compiled: Compiled) -> None:
        self.members: Sequence[frozenset[int]] = ()
        self.terminals = {key: at for at, key in enumerate(compiled.data("terminals"))}
        """The number of every terminal."""
        start = _Runs(compiled, "start")
        self.start = State((), (), reach=[{key: start[key] for key in range(len(start))}])
        self._compiled = compiled
        self._begins = compiled.numbers("begins")
        self._terminal_of = compiled.numbers("terminal_of")
        self._tail_of = compiled.numbers("tail_of")
        self._accepts_of = compiled.numbers("accepts_of")
        self._follow_of = compiled.numbers("follow_of")
        self._follow = _Runs(compiled, "follow")
        self._sets = _Runs(compiled, "set")
        self._first = _Runs(compiled, "first")
        self._last = _Runs(compiled, "last")
        self._states: dict[tuple[int, ...], State] = {}
        self._groups: dict[int, Group] = {}
        self._followers: dict[int, set[int]] = {}

    @property
    def positions(self) -> Iterator[Position]:
        """Every position of every phrase."""
        return map(self.position, range(len(self._terminal_of)))

    def position(self, index: int) -> Position:
        """One position, by its number."""
        captures, gives = self._tails[self._tail_of[index]]
        phrase = bisect_right(self._begins, index) - 1
        return Position(self._terminal_of[index], phrase, captures, gives)

    @cached_property
    def _tails(self) -> list[tuple[Any, Any]]:
        return [
            (tuple(map(tuple, captures)), given(gives))
            for captures, gives in self._compiled.data("tails")
        ]

    def step(self, state: State, symbol: int) -> State | None:
        """The state after `symbol`; None when no phrase goes on. Remembered."""
        if state.reach is None:
            state.reach = self._reach(state.positions)
        members = self.members[symbol]
        found: set[int] = set()
        for group in state.reach:
            for terminal in members:
                if terminal in group:
                    found.update(group[terminal])
        after = self._state(tuple(sorted(found))) if found else None
        state.after[symbol] = after
        return after

    def _reach(self, positions: Iterable[int]) -> list[Group]:
        """The sets that may follow, each once; many positions share theirs."""
        follow, follow_of, groups = self._follow, self._follow_of, self._groups
        lists = {follow_of[position] for position in positions}
        sets = {number for one in lists for number in follow[one]}
        return [groups[one] if one in groups else self._group(one) for one in sets]

    def _group(self, number: int) -> Group:
        terminal_of = self._terminal_of
        group: Group = {}
        for position in self._sets[number]:
            group.setdefault(terminal_of[position], []).append(position)
        self._groups[number] = group
        return group

    def _state(self, positions: tuple[int, ...]) -> State:
        state = self._states.get(positions)
        if state is None:
            accepts_of = self._accepts_of
            accepts = sorted({accepts_of[p] for p in positions} - {0})
            state = State(positions, tuple([phrase - 1 for phrase in accepts]))
            self._states[positions] = state
        return state

    def path(self, phrase: int, symbols: Sequence[int]) -> list[Position]:
        """The positions of `phrase` that the symbols of an accepted span went through.

        Where there are several paths, the one that the phrase writes first is taken.
        """
        members, terminal_of = self.members, self._terminal_of
        layers: list[set[int]] = []
        current: Iterable[int] = self._first[phrase]
        for symbol in symbols:
            layer = {p for p in current if terminal_of[p] in members[symbol]}
            layers.append(layer)
            current = set[int]().union(*(self._after(p) for p in layer))
        alive = layers[-1].intersection(self._last[phrase])
        for place in range(len(layers) - 2, -1, -1):
            layers[place + 1] = alive
            alive = {p for p in layers[place] if self._after(p) & alive}
        layers[0] = alive
        chosen = [min(layers[0])]
        for layer in layers[1:]:
            chosen.append(min(self._after(chosen[-1]) & layer))
        return [self.position(p) for p in chosen]

    def _after(self, position: int) -> set[int]:
        """The positions that may follow one. Remembered."""
        after = self._followers.get(position)
        if after is None:
            sets = self._follow[self._follow_of[position]]
            after = self._followers[position] = set[int]().union(*map(self._sets.__getitem__, sets))
        return after


def given(gives: Iterable[Sequence[Any]]) -> tuple[tuple[str, Value], ...]:
    """Slots and their values as the compiled grammar holds them: exact ones as [text]."""
    return tuple(
        [(slot, Decimal(value[0]) if isinstance(value, list) else value) for slot, value in gives]
    )
