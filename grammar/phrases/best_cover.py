"""The best cover of an utterance by phrases.

From every token the automaton is followed as far as any phrase goes; then the cheapest way
through the utterance is chosen: fewest words of meaning left uncovered, then fewest phrases,
then the phrases of higher priority. Both passes are linear in the length of the utterance, since
no phrase covers more than so many tokens.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any, NamedTuple

from boxaloud.grammar import package_files
from boxaloud.grammar.lexer.symbols import Symbols
from boxaloud.grammar.phrases import compiled_cache
from boxaloud.grammar.phrases.automaton import Automaton, State, given
from boxaloud.grammar.phrases.compiled_form import Compiled, read
from boxaloud.grammar.phrases.statements import Value

PHRASE_COST = 100
LONGEST = 48
"""Tokens that one phrase may cover: nobody's noun group is longer, and without a bound a word said
over and over is followed to its end from every place where it stands."""
_TOO_DEAR = 1 << 60


class Meaning(NamedTuple):
    """What a phrase says when it is chosen, and when it may be; `grammar.phrases` says how."""

    id: str
    kind: str
    priority: int
    when: tuple[str, ...]
    """The open questions under which alone it may be used."""
    gives: tuple[tuple[str, Value], ...]


@dataclass(frozen=True, slots=True)
class Capture:
    """Where the slots of a phrase lie in its span; the same for every span of like symbols."""

    slots: tuple[tuple[str, str, tuple[int, ...]], ...]
    """(slot, rule, places of its tokens)."""
    gives: tuple[tuple[str, Value], ...]
    counted: tuple[int, ...] = ()
    """Places of the words that stand in the plural when there is more than one."""
    assumed: str = ""
    """The slot that was not said and is given the likeliest value."""
    vague: bool = False
    """True where "a few" or "several" was said instead of a count."""


@dataclass(slots=True)
class Engine:
    """The compiled phrases. `cover` finds spans, `capture` the slots of one."""

    phrases: tuple[Meaning, ...]
    automaton: Automaton
    symbols: Symbols
    _captures: dict[tuple[int, tuple[int, ...]], Capture] = field(default_factory=dict)

    def cover(self, symbols: Sequence[int], expect: str | None) -> list[tuple[int, int, int]]:
        """The chosen spans as (first token, token after the last, phrase), in order."""
        count = len(symbols)
        cost = self.symbols.cost
        best = [_TOO_DEAR] * (count + 1)
        came: list[tuple[int, int]] = [(0, -1)] * (count + 1)
        best[0] = 0
        start = self.automaton.start
        step = self.automaton.step
        for first in range(count):
            here = best[first]
            skipped = here + cost[symbols[first]]
            if skipped < best[first + 1]:
                best[first + 1] = skipped
                came[first + 1] = (first, -1)
            state = start
            end = first
            last = min(count, first + LONGEST)
            while end < last:
                symbol = symbols[end]
                try:
                    after = state.after[symbol]
                except KeyError:
                    after = step(state, symbol)
                if after is None:
                    break
                state = after
                end += 1
                if state.accepts:
                    try:
                        found = state.best[expect]
                    except KeyError:
                        found = self._best(state, expect)
                    if found is not None and here + found[0] < best[end]:
                        best[end] = here + found[0]
                        came[end] = (first, found[1])
        return _way_back(came, count)

    def _best(self, state: State, expect: str | None) -> tuple[int, int] | None:
        """The cheapest phrase that may end in `state`, as (cost, phrase); None when none may."""
        choices = [
            (PHRASE_COST - self.phrases[index].priority, index)
            for index in state.accepts
            if not self.phrases[index].when or expect in self.phrases[index].when
        ]
        state.best[expect] = min(choices, default=None)
        return state.best[expect]

    def capture(self, phrase: int, symbols: tuple[int, ...]) -> Capture:
        """Where the slots lie in a span that `cover` chose. Remembered."""
        key = (phrase, symbols)
        found = self._captures.get(key)
        if found is None:
            if len(self._captures) > 20_000:
                self._captures.clear()
            found = self._captures[key] = self._capture(phrase, symbols)
        return found

    def _capture(self, phrase: int, symbols: tuple[int, ...]) -> Capture:
        slots: dict[tuple[str, str], list[int]] = {}
        gives: dict[str, Value] = dict(self.phrases[phrase].gives)
        counted: list[int] = []
        for place, position in enumerate(self.automaton.path(phrase, symbols)):
            given = {slot for slot, _ in position.gives}
            gives.update(position.gives)
            if "_counted" in given:
                counted.append(place)
            for slot, rule in position.captures:
                if slot not in given:
                    slots.setdefault((slot, rule), []).append(place)
        return Capture(
            tuple(
                (slot, rule, tuple(places))
                for (slot, rule), places in slots.items()
                if slot not in gives and slot[0] != "_"
            ),
            tuple((slot, value) for slot, value in gives.items() if not slot.startswith("_")),
            tuple(counted),
            str(gives.get("_assumed", "")),
            "_vague" in gives,
        )


def _way_back(came: list[tuple[int, int]], end: int) -> list[tuple[int, int, int]]:
    spans: list[tuple[int, int, int]] = []
    while end > 0:
        first, phrase = came[end]
        if phrase >= 0:
            spans.append((first, end, phrase))
        end = first
    spans.reverse()
    return spans


@lru_cache(maxsize=1)
def engine() -> Engine:
    """The engine of all phrases; compiled now, and kept, where no compiled grammar is."""
    return engine_of(compiled_cache.kept() or _compiled_now())


def engine_of(compiled: Compiled) -> Engine:
    """The engine that a compiled grammar makes."""
    automaton = Automaton(compiled)
    symbols = Symbols(automaton.terminals)
    automaton.members = symbols.members
    return Engine(tuple(map(_meaning, compiled.data("phrases"))), automaton, symbols)


def _meaning(row: Sequence[Any]) -> Meaning:
    name, kind, priority, when, gives = row
    return Meaning(name, kind, priority, tuple(when), given(gives))


def _compiled_now() -> Compiled:
    from boxaloud.grammar.compilation import compiled

    raw = compiled()
    if (
        package_files.state() == package_files.fingerprint()
    ):  # no file was edited while they were read
        compiled_cache.keep(raw)
    made = read(raw, package_files.fingerprint())
    if made is None:
        raise ValueError("the grammar that was just compiled cannot be read")
    return made
