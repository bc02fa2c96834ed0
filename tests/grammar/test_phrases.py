"""The data files themselves: every way of saying a thing is alive, and steals nothing."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

import pytest
from boxaloud.grammar import grammar_data, help_topics, understand
from boxaloud.grammar.building import asked_acts, asked_question, fixed_questions, told_acts
from boxaloud.grammar.patterns import patterns
from boxaloud.grammar.phrases import sampling
from boxaloud.grammar.phrases.best_cover import engine
from boxaloud.grammar.phrases.phrase_files import FILES, phrases, rules
from boxaloud.grammar.phrases.preparation import prepared
from boxaloud.grammar.phrases.statements import KINDS
from boxaloud.grammar.phrases.template import (
    Choice,
    Marked,
    Named,
    Node,
    Repeat,
    TemplateError,
    parse,
)
from boxaloud.grammar.phrases.template import Sequence as Sequenced
from boxaloud.grammar.utterance.act_recognizer import recognise
from boxaloud.grammar.utterance.other_talk import small_talk
from spoken_cases import cases

ROWS = [row for name in FILES for row in grammar_data.table(name)["phrase"]]
#: Said to the recogniser's model, but read from the words of their clause (patterns.toml).
SAMPLED_ONLY = [row for row in ROWS if row.get("sampled_only")]
PARSED = [row for row in ROWS if not row.get("sampled_only")]
ONLY_ANSWERS = {row["id"]: row["when"][0] for row in ROWS if "when" in row}
#: Ways and patterns that another always takes first, as the data files stand: a piece of each.
SHADOWED = {
    "two (switch|dimmer|device|receptacle)": "the device takes it; the clause makes it one yoke",
    "(?:make|call) (?:it|that|them|those|this) (?:a |an ": "the patterns of “replace” take it",
    "(?:it|that) is (?:a )?<box_kind": "“it is two gang wide” begins with the tag of the box",
    "(?:make|change|switch|set|bump|swap|put) (?:the |my |this )?(?:box|volume)": "a value does",
    "(?:another|one more|a second|a third|a fourth)(?: <n:1>)? of": "the noun group takes it",
    "%open {gangs:count} %close {width:dim}": "the size behind the brackets takes it",
    "[with|just] (mc|emt|nm|ac|set screw|compression|conduit) connector": "a wider way takes it",
}
#: What the examples of operators wait for.
OPERANDS = {"take-off-some": "14-2s", "change": "22.5"}


def _or_shadowed(said: str) -> list[pytest.MarkDecorator]:
    reason = next((why for piece, why in SHADOWED.items() if piece in said), None)
    return [pytest.mark.xfail(reason=reason, strict=True)] if reason else []


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


@cache
def _taken() -> set[tuple[str, str]]:
    """The ways that the utterances of the corpus take, with the phrase of each."""
    ways = [(row["id"], way) for row in PARSED for way in row["say"]]
    assert len(ways) == len(engine().phrases)
    return {ways[index] for case in cases() for index in _chosen(case.say, case.asked)}


def _ways() -> Iterator[object]:
    for row in PARSED:
        for place, way in enumerate(row["say"]):
            said = (row["id"], way)
            yield pytest.param(said, marks=_or_shadowed(way), id=f"{row['id']} {place}")


@pytest.mark.parametrize("way", _ways())
def test_every_way_of_saying_a_phrase_is_exercised_by_the_corpus(way: tuple[str, str]) -> None:
    """A way that no utterance of the corpus takes is dead, or nobody knows what it should give."""
    assert way in _taken()


@pytest.mark.parametrize("row", SAMPLED_ONLY, ids=lambda row: row["id"])
def test_what_is_only_sampled_is_sampled_and_its_example_understood(row: dict[str, str]) -> None:
    """An operator whose operand is still to come is read with one."""
    ways = [phrase.node for phrase in phrases() if phrase.id == row["id"]]
    own = row["id"] in grammar_data.table("spoken")["phrases"]
    assert own or any(node == way.node for way in sampling._ways() for node in ways)
    found = recognise(f"{row['example']} {OPERANDS.get(row['id'], '')}")
    assert found.acts
    assert found.weighty == ()


@cache
def _deciding() -> set[str]:
    """The patterns that decide a clause of the corpus."""
    found: set[str] = set()
    with_rest = told_acts._with_rest

    def noted(match: patterns.Match, *others: object) -> object:
        found.add(match.found.re.pattern)
        return with_rest(match, *others)  # type: ignore[arg-type]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(told_acts, "_with_rest", noted)
        for case in cases():
            recognise(case.say, case.asked)
    return found


def _patterns() -> Iterator[object]:
    written = iter(patterns.expressions())
    for row in grammar_data.table("patterns")["pattern"]:
        for place, way in enumerate(row["say"]):
            name = f"{row['act']} {place}"
            yield pytest.param(next(written), marks=_or_shadowed(way), id=name)


@pytest.mark.parametrize("pattern", _patterns())
def test_every_pattern_decides_a_clause_of_the_corpus(pattern: str) -> None:
    assert pattern in _deciding()


@cache
def _asked() -> set[str]:
    """The expressions of questions.toml that are the first to match a question of the corpus."""
    tried: list[str] = []
    found: set[str] = set()

    class Noting:
        """Stands in for `re` in the asking of questions, and notes what matched."""

        def __getattr__(self, name: str) -> object:
            return getattr(re, name)

        def search(self, pattern: str, line: str) -> re.Match[str] | None:
            hit = re.search(pattern, line)
            tried.append(pattern)
            if hit:
                found.add(pattern)
            return hit

    fixed_questions._asked_about.cache_clear()  # what is remembered is not tried again
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(asked_acts, "re", Noting())
        patch.setattr(fixed_questions, "re", Noting())
        patch.setattr(asked_question, "re", Noting())
        for case in cases():
            if case.acts is not None:
                recognise(case.say, case.asked)
    assert tried
    return found


@pytest.mark.parametrize(
    "row",
    [row for kind in ("code", "fixed", "term") for row in grammar_data.table("questions")[kind]],
    ids=lambda row: row.get("about") or row.get("id"),
)
def test_every_question_and_term_is_asked_in_the_corpus(row: dict[str, str]) -> None:
    assert row["say"] in _asked()


@pytest.mark.parametrize("row", grammar_data.table("social")["social"], ids=lambda row: row["what"])
def test_every_kind_of_small_talk_is_in_the_corpus(row: dict[str, str]) -> None:
    said = [small_talk(case.say) for case in cases() if case.acts is not None]
    assert row["what"] in {getattr(act, "what", None) for act in said}


def test_every_rule_is_used_by_a_phrase() -> None:
    used = {
        node.rule for phrase in phrases() for node in _tree(phrase.node) if isinstance(node, Named)
    }
    assert rules().names - used == set()


@pytest.mark.parametrize(
    "row",
    [
        pytest.param(
            row,
            marks=_or_shadowed(row["say"][0]) if len(row["say"]) == 1 else [],
            id=row["id"],
        )
        for row in PARSED
    ],
)
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
    assert set(grammar_data.table("spoken")["phrases"]) <= {row["id"] for row in ROWS}


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
