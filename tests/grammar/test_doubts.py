"""When a slot is not to be trusted: what the ear says, what was mended, what is unusual.

The expectations are common practice: a wrong count or size is the error that hurts.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud.grammar import understand
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.phrases.statements import Doubt


def heard(words: str, *unsure: str, confidence: float = 0.3) -> tuple[Doubt, ...]:
    """The doubts of the one statement in `words`, whose `unsure` words the ear was unsure of."""
    spoken = [Word(word, confidence if word in unsure else 0.97) for word in words.split()]
    (statement,) = understand(spoken).statements
    return statement.doubts


def test_a_sure_ear_leaves_no_doubt() -> None:
    assert heard("two fourteen two cables") == ()


def test_a_doubtful_size_is_in_doubt() -> None:
    """Forty is no wire size, so there is nothing else it may have been."""
    assert heard("two fourteen two cables", "fourteen") == (Doubt("awg", "heard"),)


def test_a_doubtful_count_says_what_else_it_may_have_been() -> None:
    assert heard("four grounds", "four") == (Doubt("count", "confusable", 5),)


def test_a_doubtful_volume_says_what_else_it_may_have_been() -> None:
    doubts = heard("fifteen cubic inch box", "fifteen")
    assert doubts == (Doubt("volume", "confusable", 50),)


def test_a_doubtful_count_with_no_double_is_merely_doubtful() -> None:
    assert heard("three switches", "three") == (Doubt("count", "heard"),)


def test_a_doubtful_noun_is_echoed_not_asked() -> None:
    assert heard("two fourteen two cables", "cables") == ()


@pytest.mark.parametrize("said", ["a fourteen two cable", "another fourteen two"])
def test_an_article_heard_in_doubt_may_have_been_a_number_of_cables(said: str) -> None:
    article, *_ = said.split()
    assert heard(said, article) == (Doubt("count", "heard"),)
    assert heard("a switch", "a") == ()


@pytest.mark.parametrize("word", ["no", "clamps"])
def test_a_word_that_turns_the_clamps_round_is_in_doubt(word: str) -> None:
    assert heard("no clamps", word) == (Doubt("where", "heard"),)


def test_exactly_at_the_threshold_is_sure() -> None:
    assert heard("four grounds", "four", confidence=0.6) == ()


def test_typed_text_is_never_misheard() -> None:
    (statement,) = understand("four grounds").statements
    assert statement.doubts == ()


def test_no_word_is_lost_between_words_and_their_confidence() -> None:
    """A hesitation in between does not shift the blame to the next word."""
    spoken = [Word("uh", 0.1), Word("two", 0.9), Word("um", 0.2), Word("twelves", 0.9)]
    (statement,) = understand(spoken).statements
    assert (statement.kind, statement.doubts) == ("conductors", ())


@pytest.mark.parametrize(
    ("said", "slot"),
    [
        ("thirteen 14-2 cables", "count"),
        ("0 14-2 cables", "count"),
        ("-3 14-2 cables", "count"),
        ("eighteen two cable", "awg"),
        ("99-2 cable", "awg"),
        ("14-7 cable", "conductors"),
        ("2.9 cubic inch box", "volume"),
        ("box is 101", "volume"),
        ("2001 cubic inch box", "volume"),
        ("3,000 cubic inch box", "volume"),
    ],
)
def test_a_value_that_is_rarely_right_is_unusual(said: str, slot: str) -> None:
    (statement,) = understand(said).statements
    assert Doubt(slot, "unusual") in statement.doubts


@pytest.mark.parametrize(
    "said", ["twelve 14-2 cables", "3 cubic inch box", "100 cubic inch box", "295 cm3", "6-3 cable"]
)
def test_a_value_just_inside_the_usual_is_not(said: str) -> None:
    (statement,) = understand(said).statements
    assert statement.doubts == ()


@pytest.mark.parametrize("said", ["fourteen twos", "a few switches", "the 12-2s", "receptacles"])
def test_several_without_a_number_is_vague(said: str) -> None:
    (statement,) = understand(said).statements
    assert "count" not in statement.slots
    assert statement.doubts == (Doubt("count", "vague"),)


def test_nobody_need_count_what_is_asked_about_or_taken_off() -> None:
    for said in ("how many more 14-2s", "take off the switches", "make that twelve twos"):
        assert understand(said).statements[-1].doubts == ()


def test_a_mended_word_says_what_it_was_taken_for() -> None:
    (statement,) = understand("one recptacle").statements
    assert statement.doubts == (Doubt("name", "repaired", "receptacle"),)


@pytest.mark.parametrize("said", ["tweve twos", "thre switches", "eigth"])
def test_a_number_is_never_mended(said: str) -> None:
    """What is no number is left over, or nobody knows how many of the thing there are."""
    understanding = understand(said)
    for statement in understanding.statements:
        assert "count" not in statement.slots
        assert "awg" not in statement.slots
        assert Doubt("count", "vague") in statement.doubts
    if not understanding.statements:
        assert understanding.left_over[0].split()[0] == said.split()[0]


def test_a_word_between_two_others_is_not_mended() -> None:
    """`clamb` is as near to `clamp` as to nothing else; `stad` is too short to tell."""
    assert understand("a stad").statements == ()


def test_a_word_that_sounds_like_a_number_is_in_doubt() -> None:
    (statement,) = understand("to fourteen twos").statements
    assert statement.get("count") == 2
    assert statement.doubts == (Doubt("count", "confusable"),)


@pytest.mark.parametrize("said", ["two fourteen to cables", "three fourteen tree cables"])
def test_wires_of_a_cable_that_sound_like_a_number_are_in_doubt_when_heard(said: str) -> None:
    """A keyboard does not mishear: there a cable of "fourteen to" can be nothing but a 14-2."""
    assert heard(said) == (Doubt("conductors", "confusable"),)
    (typed,) = understand(said).statements
    assert typed.doubts == ()


def test_a_run_on_volume_is_in_doubt_when_heard() -> None:
    spoken = [Word(word, 0.97) for word in ("twenty", "two", "five")]
    (statement,) = understand(spoken, expect="box").statements
    assert statement.get("value") == Decimal("22.5")
    assert [doubt.reason for doubt in statement.doubts] == ["confusable"]


def test_what_is_left_unsaid_is_carried_in_doubt() -> None:
    feed, _ = understand("a feed and two switch legs of 14-2").statements
    assert (feed.get("awg"), feed.get("conductors")) == (14, 2)
    assert {doubt.reason for doubt in feed.doubts} == {"carried"}
