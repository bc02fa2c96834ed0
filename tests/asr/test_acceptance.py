"""Believed, asked back or given up: by one probability, from readings pooled by their meaning."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from boxaloud.assistant.asr.asr_types import UNKNOWN, Evidence, RecognitionResult
from boxaloud.assistant.asr.hypotheses import acceptance
from boxaloud.assistant.asr.hypotheses.acceptance import Features, Weights
from boxaloud.assistant.asr.hypotheses.meaning_pool import measured
from boxaloud.assistant.asr.hypotheses.rescoring import choose
from boxaloud.assistant.dialogue import Conversation
from boxaloud.grammar import recognise
from boxaloud.grammar.lexer.heard_words import Word

#: By the margin alone, so that what comes out can be worked out by hand.
ONLY_MARGIN = (1.0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0)
BY_MARGIN = Weights(
    0.0, ONLY_MARGIN, ask=0.8, ask_few=0.8, ask_confirming=0.8, refuse=0.3, refuse_number=0.1
)
EVIDENCE = Evidence("some", strange=0.0, worst=0.0, unread=0.0, snr_db=40.0, seconds=2.0)


@pytest.fixture(autouse=True)
def _by_margin(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(acceptance, "table", lambda: {"some": BY_MARGIN})


def heard(*readings: tuple[str, float]) -> RecognitionResult:
    """A hearing of these readings, with the share of each."""
    return RecognitionResult(
        tuple(tuple(Word(word, 0.7) for word in text.split()) for text, _ in readings),
        shares=tuple(share for _, share in readings),
        evidence=EVIDENCE,
    )


def probability(hearing: RecognitionResult) -> float:
    return BY_MARGIN.probability(measured(hearing))


def test_readings_of_one_meaning_are_counted_together() -> None:
    """0.4 + 0.4 of one box against 0.2 of another: 4 to 1, by the logistic 0.8."""
    hearing = heard(
        ("the box is eighteen cubic inches", 0.4),
        ("a box of eighteen cubic inches", 0.4),
        ("the box is eighty cubic inches", 0.2),
    )
    assert measured(hearing).margin == pytest.approx(math.log(4))
    assert probability(hearing) == pytest.approx(0.8)
    assert {word.confidence for word in choose(hearing)} == {0.8}


def test_a_near_reading_of_another_meaning_is_asked_about_where_it_differs() -> None:
    words = choose(heard(("four grounds and a switch", 0.55), ("five grounds and a switch", 0.45)))
    assert [word.text for word in words if (word.confidence or 0) < 0.6] == ["four"]
    doubtful = [bool(act.doubts) for act in recognise(words).acts]
    assert doubtful == [True, False]


@pytest.mark.parametrize(
    ("best", "rival", "asked"),
    [
        ("is two short for this", "later is two short for this", "grounds"),
        ("this is four right here", "what is four right here", "grounds"),
        ("so yes", "sofa yes", "confirm"),
        ("that fourteen again", "than fourteen again", "device_size"),
        ("it is eighteen or so", "later is eighteen or so", "box"),
    ],
)
def test_doubt_about_what_is_around_a_bare_answer_is_doubt_about_the_answer(
    best: str, rival: str, asked: str
) -> None:
    hearing = heard((best, 0.4), (f"{UNKNOWN} {rival}", 0.25))
    acts = recognise(best, asked).acts
    assert acts
    assert 0.3 < probability(hearing) < 0.8
    scored = {word.text: word.confidence or 0 for word in choose(hearing, asked)}
    for act in acts:
        assert min(scored[word] for word in act.words.split()) < 0.6, scored


@pytest.mark.parametrize(
    ("best", "rival"),
    [
        ("two of the ten twos then a dimmer", "two of the ten twos and a dimmer"),
        (
            "two switches then three number twelve wires",
            "two switches and three number twelve wires",
        ),
        ("one fourteen three cable then one timer", "one fourteen three cable and one timer"),
    ],
)
def test_doubt_about_what_is_between_things_is_none_about_them(best: str, rival: str) -> None:
    hearing = heard((best, 0.4), (f"{UNKNOWN} {rival}", 0.25))
    talk = Conversation()
    talk.hear(choose(hearing, "contents"))
    assert talk.asks != "confirm"


def test_a_hearing_less_likely_than_a_third_is_given_up() -> None:
    assert choose(heard(("four grounds", 0.2), ("five grounds", 0.7))) == ()


def test_a_number_that_is_asked_for_is_asked_back_where_a_statement_is_given_up() -> None:
    """0.15 against 0.7 of another: by the logistic 0.18."""
    hearing = heard(("four", 0.15), ("five", 0.7))
    assert choose(hearing) == ()
    (word,) = choose(hearing, "grounds")
    assert (word.text, word.confidence) == ("four", 0.1765)
    assert choose(heard(("four", 0.05), ("five", 0.7)), "grounds") == ()
    yes = heard(("yes", 0.15), ("no", 0.7))
    assert choose(yes, "confirm") == ()


def test_doubt_that_lies_in_no_word_lies_in_all(monkeypatch: pytest.MonkeyPatch) -> None:
    strangeness = (0, 0, -4.0, 0, 0, 0, 0, 0, 0, 0, 0, 0)
    by_strangeness = Weights(
        2.0, strangeness, ask=0.8, ask_few=0.8, ask_confirming=0.8, refuse=0.1, refuse_number=0.1
    )
    monkeypatch.setattr(acceptance, "table", lambda: {"some": by_strangeness})
    hearing = replace(heard(("two switches", 1.0)), evidence=replace(EVIDENCE, strange=0.4))
    words = choose(hearing)
    assert all((word.confidence or 0) < 0.6 for word in words)
    talk = Conversation()
    talk.hear(words)
    assert talk.asks == "confirm"


def test_a_reading_with_other_talk_in_it_is_not_the_same_as_one_without() -> None:
    hearing = heard((f"two switches {UNKNOWN}", 0.6), ("two switches", 0.4))
    assert measured(hearing).margin == pytest.approx(math.log(0.6 / 0.4))


def test_a_rival_that_is_all_other_talk_counts_against_a_reading() -> None:
    hearing = heard(("no", 0.7), (UNKNOWN, 0.3))
    assert measured(hearing).foreign == pytest.approx(math.log(0.7 / 0.3))
    assert measured(heard(("no", 0.7), ("none", 0.3))).foreign == pytest.approx(math.log(700))


def test_only_a_bare_answer_is_expected_by_the_question() -> None:
    assert measured(heard(("eighteen", 1.0)), "box").expected == 1
    assert measured(heard(("two switches", 1.0)), "box").expected == 0
    assert measured(heard(("yes", 1.0)), "confirm").confirming == 1
    assert measured(heard(("two fourteen two cables", 1.0)), "confirm").confirming == 0


@pytest.mark.parametrize(
    ("said", "asked", "likely", "sure"),
    [
        ("yes", "confirm", 0.85, True),
        ("yes", "confirm", 0.75, False),
        ("that's right", "confirm", 0.85, True),
        ("four", "confirm", 0.85, False),  # it would stand in for what was asked back
        ("four", "grounds", 0.85, False),
        ("four", "grounds", 0.95, True),
        ("no clamps", "clamps", 0.85, False),
        ("yes", "clamps", 0.85, False),  # "inside": a value, and nothing that is settled
        ("two fourteen two cables", None, 0.75, True),
    ],
)
def test_a_word_or_two_must_be_surer_than_a_statement(
    said: str, asked: str | None, likely: float, sure: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    wider = Weights(0.0, ONLY_MARGIN, 0.7, 0.9, 0.8, refuse=0.3, refuse_number=0.1)
    monkeypatch.setattr(acceptance, "table", lambda: {"some": wider})
    words = choose(heard((said, likely), ("nine dimmers", 1 - likely)), asked)
    assert all((word.confidence or 0) > 0.6 for word in words) is sure


def test_what_sounds_around_a_word_counts_and_around_a_statement_does_not() -> None:
    """The “d” of “tend” lies a fifth of a second behind “ten”."""
    loud = replace(EVIDENCE, whole=4.0)
    assert measured(replace(heard(("ten", 1.0)), evidence=loud), "box").whole == 2.0
    long = replace(heard(("two fourteen two cables", 1.0)), evidence=loud)
    assert measured(long).whole == 0.0


def test_the_features_are_within_their_bounds() -> None:
    wild = Evidence("some", 50.0, 900.0, 9.0, snr_db=-10.0, seconds=0.0, edge=90.0)
    found = acceptance.features(wild, [Word("a", 0.5)], 0.0, 1.0, 1.0, None, False)
    least = math.log(1e-3)
    assert found == Features(least, least, 3.0, 3.0, 3.0, 0.0, 1.0, 0.0, found.pace, 1.0, 0.0, 0.0)
    assert 0 <= found.pace < 4


def test_the_shipped_table_asks_before_it_believes(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.undo()
    assert acceptance.table()
    for weights in acceptance.table().values():
        assert 0 < weights.refuse < weights.ask < 1
        better, worse = (
            weights.probability(Features(margin, 6.0, strange, 0, 0, 0, 0, 3, 0, 0.2, 0, 0))
            for margin, strange in ((6.0, 0.0), (0.5, 1.0))
        )
        assert worse < better
