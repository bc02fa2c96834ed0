"""All phrases as one automaton over symbols, made deterministic as it is used.

Every terminal of every phrase is a position (the construction of Glushkov), and a state is
the set of positions that the last token may have been. A path of positions through a span
says which token belongs to which slot, so capturing needs no second grammar.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple, TypeAlias

from grammar.expression import Node
from grammar.positions import Builder, Position

Group: TypeAlias = dict[int, list[int]]
"""Positions by their terminal."""


@dataclass(slots=True)
class State:
    """A set of positions, in order; `accepts` are the phrases that may end here."""

    positions: tuple[int, ...]
    accepts: tuple[int, ...]
    after: dict[int, State | None] = field(default_factory=dict)
    best: dict[str | None, tuple[int, int] | None] = field(default_factory=dict)
    reach: list[Group] | None = None
    """What may come next, found when first needed."""


class _Ends(NamedTuple):
    """Where a phrase may begin and end."""

    first: frozenset[int]
    last: frozenset[int]


@dataclass(slots=True)
class Automaton:
    """Phrases in, states out. `add` each phrase, then walk from `start`.

    `members[symbol]` are the terminals that a symbol matches; it must be set before walking.
    """

    builder: Builder = field(default_factory=Builder)
    members: Sequence[frozenset[int]] = ()
    start: State = field(default_factory=lambda: State((), (), reach=[{}]))
    _ends: list[_Ends] = field(default_factory=list)
    _states: dict[tuple[int, ...], State] = field(default_factory=dict)
    _groups: dict[int, Group] = field(default_factory=dict)
    _followers: dict[int, set[int]] = field(default_factory=dict)
    _last_of: dict[int, int] = field(default_factory=dict)

    @property
    def terminals(self) -> dict[str, int]:
        """The number of every terminal."""
        return self.builder.terminals

    @property
    def positions(self) -> Sequence[Position]:
        """Every position of every phrase."""
        return self.builder.positions

    def add(self, node: Node) -> int:
        """Add a phrase and return its index. Raises ValueError for one that matches nothing."""
        phrase = len(self._ends)
        nullable, first, last = self.builder.build(node, phrase)
        if nullable:
            raise ValueError(f"phrase {phrase} matches nothing at all")
        self._ends.append(_Ends(frozenset(first), frozenset(last)))
        for position in last:
            self._last_of[position] = phrase
        assert self.start.reach is not None
        for position in first:
            terminal = self.positions[position].terminal
            self.start.reach[0].setdefault(terminal, []).append(position)
        return phrase

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
        following = {
            id(after): after for position in positions for after in self.builder.follow[position]
        }
        groups = self._groups
        return [
            groups[key] if key in groups else self._group(key, after)
            for key, after in following.items()
        ]

    def _group(self, key: int, following: set[int]) -> Group:
        positions = self.builder.positions
        group: Group = {}
        for position in following:
            group.setdefault(positions[position].terminal, []).append(position)
        self._groups[key] = group
        return group

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
        members, positions = self.members, self.positions
        first, last = self._ends[phrase]
        layers: list[set[int]] = []
        current: Iterable[int] = first
        for symbol in symbols:
            layer = {p for p in current if positions[p].terminal in members[symbol]}
            layers.append(layer)
            current = set[int]().union(*(self._after(p) for p in layer))
        alive = layers[-1] & last
        for place in range(len(layers) - 2, -1, -1):
            layers[place + 1] = alive
            alive = {p for p in layers[place] if self._after(p) & alive}
        layers[0] = alive
        chosen = [min(layers[0])]
        for layer in layers[1:]:
            chosen.append(min(self._after(chosen[-1]) & layer))
        return [positions[p] for p in chosen]

    def _after(self, position: int) -> set[int]:
        """The positions that may follow one. Remembered."""
        after = self._followers.get(position)
        if after is None:
            sets = self.builder.follow[position]
            after = self._followers[position] = set[int]().union(*sets)
        return after
