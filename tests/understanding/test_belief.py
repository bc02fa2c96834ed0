"""The safety net holds as its table says, and no part of it can be switched off unnoticed."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from boxaloud.assistant.dialogue import act_handlers, assessment, conversation
from boxaloud.assistant.dialogue.belief import belief_table, held_acts, unread_words
from boxaloud.assistant.dialogue.interpretation import box_measures
from boxaloud.grammar import acts
from boxaloud.grammar.phrases import slot_doubts, statement_parser
from boxaloud.grammar.utterance import read_before
from matrix_rows import known_faults
from safety_net import misses, table

KNOWN = known_faults().get(("belief", "table"), {})
Patch = pytest.MonkeyPatch
SETS = ("typed", "heard", "vague", "deciding", "flipping", "holdable", "emptying", "leaving")
LISTS = (*SETS, "valueless", "answers")
EACH = [(field, one) for field in SETS for one in sorted(getattr(belief_table.table(), field))]


def test_the_table_covers_every_act() -> None:
    kinds = table()["kinds"]
    named = {one for group in kinds.values() for one in group}
    told = {kind.__name__ for kind in act_handlers.HANDLERS} - {"Alias", "UnknownOperator"}
    assert told <= named
    assert all(hasattr(acts, one) for one in named)


def test_the_safety_net_is_as_its_table() -> None:
    assert misses(frozenset(KNOWN)) == {}


@pytest.mark.parametrize(
    "name",
    [
        pytest.param(name, marks=pytest.mark.xfail(strict=True, reason=reason), id=name)
        for name, reason in KNOWN.items()
    ],
)
def test_a_known_fault_is_mended(name: str) -> None:
    """Strictly expected to fail: once it is mended its row is taken out of `known.toml`."""
    assert name not in misses()


# -- each guard switched off, each threshold at zero, each list emptied: the table must notice ----


def changed_table(patch: Patch, **changes: Any) -> None:
    """Belief with another table."""
    other = replace(belief_table.table(), **changes)
    patch.setattr(belief_table, "table", lambda: other)


def fails() -> bool:
    """Whether the check of the table fails."""
    return misses(frozenset(KNOWN)) != {}


def _no(*_: object) -> bool:
    return False


def _forgotten(turn: Any) -> None:
    """A value turned down that is not remembered."""
    held_acts.drop(turn, turn.state.pending[0])


_DECIDE, _VERDICT = belief_table.decide, assessment._verdict


def _undiscerning(act: acts.Act, spoken: bool, flips: bool, rejected: bool = False) -> Any:
    """A decision that does not look at what was turned down."""
    return _DECIDE(act, spoken, flips)


def _careless(state: Any, *rest: Any) -> Any:
    """A verdict over whatever waits or was not read."""
    return _VERDICT(replace(state, pending=(), unread=()), *rest)


GUARDS: dict[str, tuple[Any, str, Any]] = {
    "nothing is held": (held_acts, "hold", _no),
    "no turned verdict is held": (held_acts, "hold_flip", _no),
    "nothing beside": (unread_words, "beside", lambda heard, told, runs: tuple(told)),
    "unread is not kept": (unread_words, "keep", lambda turn, runs: None),
    "stray answers answer": (act_handlers, "is_stray", _no),
    "marks are forgotten": (held_acts, "rejected", _forgotten),
    "marks are not looked at": (belief_table, "decide", _undiscerning),
    "no size is missed": (held_acts, "_unsized", lambda turn, act: act),
    "no word is unsure": (conversation, "heard_with", lambda read, words, asked, before: read),
    "numbers are heard surely": (slot_doubts, "_SURE", 0.0),
    "no value is unusual": (slot_doubts, "_UNUSUAL", {}),
    "every volume is usual": (box_measures, "LARGEST_BOX", 10**9),
    "verdicts rest on doubts": (assessment, "_verdict", _careless),
}


@pytest.mark.parametrize("name", GUARDS)
def test_no_guard_is_switched_off_unnoticed(name: str, monkeypatch: Patch) -> None:
    place, what, instead = GUARDS[name]
    monkeypatch.setattr(place, what, instead)
    _forget_what_was_read()
    try:
        assert fails()
    finally:
        _forget_what_was_read()


def _forget_what_was_read() -> None:
    """Phrases and utterances are remembered with their doubts."""
    statement_parser._typed.cache_clear()
    read_before._typed.cache_clear()


@pytest.mark.parametrize("sure", [0.0, 1.0])
def test_no_threshold_is_moved_unnoticed(sure: float, monkeypatch: Patch) -> None:
    """At 0 nothing that was heard is doubted, at 1 everything is."""
    changed_table(monkeypatch, sure=sure)
    assert fails()


@pytest.mark.parametrize("answering", [0.0, 1.0])
def test_no_threshold_of_answers_is_moved_unnoticed(answering: float, monkeypatch: Patch) -> None:
    changed_table(monkeypatch, answering=answering)
    assert fails()


@pytest.mark.parametrize("certain", [0.0, 1.0])
def test_no_threshold_of_leaving_is_moved_unnoticed(certain: float, monkeypatch: Patch) -> None:
    changed_table(monkeypatch, certain=certain)
    assert fails()


@pytest.mark.parametrize("name", LISTS)
def test_no_list_is_emptied_unnoticed(name: str, monkeypatch: Patch) -> None:
    changed_table(monkeypatch, **{name: type(getattr(belief_table.table(), name))()})
    assert fails()


@pytest.mark.parametrize(("name", "one"), EACH, ids=lambda one: one)
def test_nothing_is_taken_out_of_a_list_unnoticed(name: str, one: str, monkeypatch: Patch) -> None:
    held = getattr(belief_table.table(), name)
    less = {k: v for k, v in held.items() if k != one} if name == "deciding" else held - {one}
    changed_table(monkeypatch, **{name: less})
    assert fails()
