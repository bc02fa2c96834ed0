"""How passes over the acts of an utterance are run: each only where it has something to look at.

What may run is a number with a bit for each pass: what the words leave, what the kinds of acts
leave and what their number leaves, taken together. So a pass that has nothing to do costs nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import cached_property
from typing import NamedTuple, TypeAlias

from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.patterns.pattern_index import Sieve

Tidying: TypeAlias = Callable[[list[Act], str, list[Unread]], list[Act]]
"""A pass over the acts of an utterance, given its words and what was left unread, which it may
change in place."""


class Pass(NamedTuple):
    """A pass, and what it does nothing without."""

    tidying: Tidying
    kinds: tuple[type[Act], ...] = ()
    """The utterance has an act of one of them; where none is named the pass always looks."""
    least: int = 0
    """The utterance has so many acts."""
    pieces: tuple[str, ...] = ()
    """The utterance holds one of these pieces of words, in small letters; any where none is
    named."""


class Passes:
    """Passes in their order."""

    def __init__(self, rows: Sequence[Pass]) -> None:
        self.rows = tuple(rows)
        most = max(row.least for row in self.rows)
        self._with = [_bits(row.least <= n for row in self.rows) for n in range(most + 1)]
        self._of_any = _bits(not row.kinds for row in self.rows)
        self._of: dict[type[Act], int] = {}
        """The passes that look at acts of a kind."""

    def after(self, made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
        """The acts after those passes that have something to look at."""
        spoken = self._sieve.mask(heard.lower())
        kinds, count = set(map(type, made)), len(made)
        waiting = spoken & self._looking(kinds, count)
        while waiting:
            bit = waiting & -waiting
            made = self.rows[bit.bit_length() - 1].tidying(made, heard, left)
            now = set(map(type, made))
            if now == kinds and len(made) == count:
                waiting ^= bit
                continue
            kinds, count = now, len(made)
            waiting = spoken & self._looking(kinds, count) & -(bit << 1)
        return made

    def _looking(self, kinds: set[type[Act]], count: int) -> int:
        """The passes that acts of those kinds, so many of them, leave."""
        found, of = self._of_any, self._of
        for kind in kinds:
            if kind not in of:
                of[kind] = _bits(kind in row.kinds for row in self.rows)
            found |= of[kind]
        return found & self._with[min(count, len(self._with) - 1)]

    @cached_property
    def _sieve(self) -> Sieve:
        """Which passes the words of an utterance leave, each word looked at once for all."""
        return Sieve([[list(row.pieces)] if row.pieces else [] for row in self.rows])


def _bits(chosen: Iterable[bool]) -> int:
    """A number with a bit for each that is chosen, in order."""
    return sum(1 << place for place, one in enumerate(chosen) if one)
