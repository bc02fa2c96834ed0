"""Whatever comes in: no crash, nothing entered that was not said, nothing said that is lost."""

from __future__ import annotations

import pytest
from boxaloud.grammar import recognise, understand, vocabulary
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.phrases.statements import KINDS
from fuzz_grammar import check
from hypothesis import given, settings
from hypothesis import strategies as st

DOMAIN = [
    *sorted(vocabulary()), "14-2", "14/2", "12/3s", "22.5", "2-1/8", "½", "4-11/16", "0", "99",
    ",", ".", ";", "\n", "(", ")", "#", '"', "x", "w/", "w/o", "&", "-3", "1,000", "to", "for",
]  # fmt: skip


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=80))
def test_any_text(said: str) -> None:
    check(said, None)


@settings(max_examples=200, deadline=None)
@given(st.binary(max_size=80))
def test_any_bytes(said: bytes) -> None:
    check(said.decode("latin-1"), None)


@settings(max_examples=400, deadline=None)
@given(
    st.lists(st.sampled_from(DOMAIN), max_size=30),
    st.sampled_from([None, "box", "clamps", "device_size", "confirm", "gangs", "grounds"]),
)
def test_shuffled_words_of_the_trade(words: list[str], asked: str | None) -> None:
    check(" ".join(words), asked)


@settings(max_examples=200, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(DOMAIN), st.floats(0, 1)), max_size=20))
def test_heard_words_with_any_confidence(words: list[tuple[str, float]]) -> None:
    understanding = understand([Word(text, sure) for text, sure in words])
    for statement in understanding.statements:
        slots = {doubt.slot for doubt in statement.doubts}
        assert slots <= {*KINDS[statement.kind], "name", "count"}


@pytest.mark.parametrize("said", ["", " ", "\n\n", "\t", ",,,", "…", "\x00\x01\x02", "\ufeff"])
def test_nothing_said(said: str) -> None:
    understanding = understand(said)
    assert understanding.statements == ()


@pytest.mark.parametrize("said", ["B²", "a ² box"])
def test_a_raised_figure_does_not_fault(said: str) -> None:
    recognise(said)


def test_a_box_told_in_two_pieces_has_one_place() -> None:
    (size,) = recognise("2-1/8 round").acts
    assert size.span == (0, 11)


def test_an_empty_sequence_of_words() -> None:
    assert understand([]).statements == ()


def test_control_characters_do_not_hide_what_was_said() -> None:
    first, *_ = understand("two\x00 14-2\x1b[31m cables").statements
    assert (first.kind, first.get("awg"), first.get("count")) == ("cable", 14, 2)


def test_ten_thousand_words_are_all_understood() -> None:
    said = ", ".join(["two fourteen two cables"] * 2500)
    understanding = understand(said)
    assert len(understanding.statements) == 2500
    assert understanding.left_over == ()


def test_ten_thousand_unknown_words_are_all_left_over() -> None:
    understanding = understand("gobbledygook " * 10_000)
    assert understanding.statements == ()
    assert sum(len(run.split()) for run in understanding.left_over) == 10_000


def test_a_line_that_is_too_long_is_left_over_from_there_on() -> None:
    said = "two 14-2 cables. " + "z" * 500_000
    understanding = understand(said)
    assert understanding.statements[0].kind == "cable"
    assert sum(map(len, understanding.left_over)) >= 500_000


@pytest.mark.parametrize(
    ("said", "left"),
    [
        ("two fourteens and seven gizmos", "seven gizmos"),
        ("a switch and nine", None),
        ("three left handed clamps", "three left handed"),
        ("the drain is eighteen", "eighteen"),
    ],
)
def test_a_number_that_no_phrase_covers_is_left_over_or_stands_alone(
    said: str, left: str | None
) -> None:
    understanding = understand(said)
    if left is None:
        assert understanding.statements[-1].kind == "number"
    else:
        assert left in understanding.left_over


def test_aliases_are_replaced_and_keep_the_speakers_own_words() -> None:
    mine = {"blue box": "single gang eighteen cubic inches", "the usual": "two 14-2 cables"}
    understanding = understand("a Blue Box with the usual and a switch", aliases=mine)
    box, cable, device = understanding.statements
    assert (box.kind, box.get("gangs"), box.get("volume")) == ("box_volume", 1, 18)
    assert (cable.kind, cable.get("count")) == ("cable", 2)
    assert "Blue Box" in box.words
    assert device.words == "a switch"


def test_an_alias_of_itself_does_not_run_away() -> None:
    assert understand("box", aliases={"box": "box box", "": "x", "a b": ""}).heard == "box"


@pytest.mark.parametrize(
    "asked",
    ["which one has no ground?", "are there no clamps?", "should I pull the 14-2?", "fits?"],
)
def test_the_end_of_a_line_takes_no_question_its_mark(asked: str) -> None:
    """A line is given with its end where it is read from a terminal or a file."""
    assert recognise(f"{asked}\n").acts == recognise(asked).acts
