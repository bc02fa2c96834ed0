"""The automaton accepts just what the trees of the phrases accept."""

from __future__ import annotations

import pytest
from boxaloud.grammar.phrases import phrase_files
from boxaloud.grammar.phrases.best_cover import Engine, engine
from boxaloud.grammar.phrases.preparation import prepared
from boxaloud.grammar.phrases.template import Choice, Marked, Named, Node, Repeat, Terminal
from spoken_cases import cases


def ends(node: Node, places: tuple[frozenset[int], ...], first: int, machine: Engine) -> set[int]:
    """Where a phrase may end that begins at `first`, by walking its tree; of `members`."""
    if isinstance(node, Terminal):
        matched = first < len(places) and machine.symbols.keys[node.key] in places[first]
        return {first + 1} if matched else set()
    if isinstance(node, (Named, Marked)):
        return ends(node.part, places, first, machine)
    if isinstance(node, Choice):
        return set().union(*(ends(part, places, first, machine) for part in node.parts))
    if isinstance(node, Repeat):
        found, fresh = set[int](), ends(node.part, places, first, machine)
        while fresh:
            found |= fresh
            more = [ends(node.part, places, place, machine) for place in fresh]
            fresh = set[int]().union(*more) - found
        return found
    reached = {first}
    for part in node.parts:
        reached = set[int]().union(*(ends(part, places, place, machine) for place in reached))
    return reached


def accepted(machine: Engine, symbols: list[int], first: int) -> set[tuple[int, int]]:
    """(end, phrase) of every phrase that the automaton finds from `first` on."""
    state, found = machine.automaton.start, set()
    for place in range(first, len(symbols)):
        after = machine.automaton.step(state, symbols[place])
        if after is None:
            break
        state = after
        found |= {(place + 1, phrase) for phrase in state.accepts}
    return found


@pytest.mark.parametrize("case", cases()[::60], ids=lambda case: case.say[:50])
def test_the_automaton_accepts_what_the_trees_of_the_phrases_accept(case: object) -> None:
    """Held against a walk of the trees, which knows nothing of positions."""
    symbols = prepared(case.say).symbols[:12]  # type: ignore[attr-defined]
    machine = engine()
    parsed = [phrase for phrase in phrase_files.phrases() if not phrase.sampled_only]
    places = tuple(machine.symbols.members[symbol] for symbol in symbols)
    for first in range(len(symbols)):
        by_trees = {
            (end, index)
            for index, phrase in enumerate(parsed)
            for end in ends(phrase.node, places, first, machine)
        }
        assert accepted(machine, symbols, first) == by_trees
