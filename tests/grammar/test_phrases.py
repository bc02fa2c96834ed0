"""The phrase files themselves: every way of saying a phrase is alive, and steals nothing."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from spoken_cases import cases

from grammar import help_topics, store, understand
from grammar.engine import engine
from grammar.expression import Choice, Marked, Named, Node, Repeat, TemplateError, parse
from grammar.expression import Sequence as Sequenced
from grammar.phrases import FILES, phrases, rules
from grammar.statements import KINDS
from grammar.understanding import prepared

ROWS = [row for name in FILES for row in store.table(name)["phrase"]]
ONLY_ANSWERS = {row["id"]: row["when"][0] for row in ROWS if "when" in row}


def _chosen(words: str, asked: str | None) -> list[int]:
    symbols = prepared(words).symbols
    return [phrase for _, _, phrase in engine().cover(symbols, asked)]


def _tree(node: Node) -> Iterator[Node]:
    yield node
    if isinstance(node, (Marked, Named, Repeat)):
        yield from _tree(node.part)
    elif isinstance(node, (Choice, Sequenced)):
        for part in node.parts:
            yield from _tree(part)


def test_every_way_of_saying_a_phrase_is_exercised_by_the_corpus() -> None:
    """A way that no utterance of the corpus takes is dead, or nobody knows what it should give."""
    taken = {index for case in cases() for index in _chosen(case.say, case.asked)}
    ways = [(row["id"], way) for row in ROWS for way in row["say"]]
    dead = [ways[index] for index in range(len(ways)) if index not in taken]
    assert dead == []


def test_every_rule_is_used_by_a_phrase() -> None:
    used = {
        node.rule for phrase in phrases() for node in _tree(phrase.node) if isinstance(node, Named)
    }
    assert rules().names - used == set()


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_a_phrase_understands_its_own_example_and_no_other_steals_it(row: dict[str, str]) -> None:
    asked = ONLY_ANSWERS.get(row["id"])
    chosen = [engine().phrases[index].id for index in _chosen(row["example"], asked)]
    assert row["id"] in chosen
    others = set(chosen) - {row["id"]}
    assert others <= set(row.get("with", ())), "the example is taken apart by other phrases"
    assert understand(row["example"], asked).left_over == ()


def test_every_kind_can_be_said() -> None:
    made = {phrase.kind for phrase in phrases()}
    assert set(KINDS) - made == set()


def test_a_phrase_fills_only_slots_of_its_kind() -> None:
    machine = engine()
    for position in machine.automaton.positions:
        phrase = machine.phrases[position.phrase]
        if not phrase.kind:
            continue
        for name, _ in (*position.captures, *position.gives):
            for slot in name.split("+"):
                assert slot.startswith("_") or slot in KINDS[phrase.kind], (phrase.id, slot)


def test_phrase_ids_are_unique_and_kinds_known() -> None:
    ids = [row["id"] for row in ROWS]
    assert len(set(ids)) == len(ids)
    assert {row["kind"] for row in ROWS} - set(KINDS) == {""}


def test_every_spoken_way_belongs_to_a_phrase() -> None:
    assert set(store.table("spoken")["phrases"]) <= {row["id"] for row in ROWS}


def test_help_examples_are_understood_as_they_stand() -> None:
    topics = help_topics()
    assert {"contents", "box", "clamps", "corrections", "questions"} <= set(topics)
    assert all(topics.values())


@pytest.mark.parametrize(
    ("broken", "says"),
    [
        ("two (fourteens", "not closed"),
        ("two fourteens)", "unexpected"),
        ("<no-such-rule>", "no rule"),
        ("two = three", "cannot read"),
    ],
)
def test_a_phrase_that_cannot_be_read_is_named(broken: str, says: str) -> None:
    with pytest.raises(TemplateError, match=says):
        parse(broken, rules())
