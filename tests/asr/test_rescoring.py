"""Which reading is taken: the trade's way of speaking outweighs the likelihood of the sound."""

from __future__ import annotations

import pytest
from boxaloud.assistant.asr.asr_types import UNKNOWN, RecognitionResult
from boxaloud.assistant.asr.hypotheses.meaning_pool import DOUBTFUL_NUMBER_CONFIDENCE
from boxaloud.assistant.asr.hypotheses.rescoring import AGREED_CONFIDENCE, choose
from boxaloud.grammar import recognise
from boxaloud.grammar.lexer.heard_words import Word

#: Below this a number is asked back (grammar/data/doubts.toml, `heard.sure`).
ASKED_BACK = 0.6


def reading(text: str, sure: float = 0.9, **unsure: float) -> tuple[Word, ...]:
    """Words with one confidence, but for those named."""
    return tuple(Word(word, unsure.get(word, sure)) for word in text.split())


def text(words: tuple[Word, ...]) -> str:
    return " ".join(word.text for word in words)


def sure(words: tuple[Word, ...]) -> dict[str, float | None]:
    return {word.text: word.confidence for word in words}


def test_a_reading_that_makes_acts_beats_a_likelier_one_that_makes_none() -> None:
    likelier = reading("two four deep to cable", 0.6)
    other = reading("two fourteen two cables", 0.3)
    assert text(choose(RecognitionResult((likelier, other)))) == "two fourteen two cables"


def test_of_readings_with_acts_the_one_that_leaves_less_over_is_taken() -> None:
    likelier = reading("two fourteen two cables flurb nine", 0.6)
    other = reading("two fourteen two cables and one dimmer", 0.3)
    assert (
        text(choose(RecognitionResult((likelier, other))))
        == "two fourteen two cables and one dimmer"
    )


def test_of_readings_as_good_as_each_other_the_likelier_is_taken() -> None:
    first, second = reading("two switches", 0.6), reading("three switches", 0.4)
    assert text(choose(RecognitionResult((first, second)))) == "two switches"


def test_a_reading_that_is_next_to_impossible_is_no_rival() -> None:
    likelier, other = reading("well four deep"), reading("four grounds", grounds=0.01)
    assert text(choose(RecognitionResult((likelier, other)))) == "well four deep"


def test_the_open_question_decides_what_makes_an_act() -> None:
    hearing = RecognitionResult((reading("and for teen", 0.5), reading("fourteen", 0.4)))
    assert text(choose(hearing, "device_size")) == "fourteen"


def test_a_number_on_which_readings_disagree_is_asked_back() -> None:
    four, five = reading("four grounds", 0.95, four=0.8), reading("five grounds", 0.95, five=0.2)
    words = choose(RecognitionResult((four, five)))
    assert sure(words) == {"four": DOUBTFUL_NUMBER_CONFIDENCE, "grounds": 0.95}
    assert DOUBTFUL_NUMBER_CONFIDENCE < ASKED_BACK
    (act,) = recognise(words).acts
    assert [doubt.slot for doubt in act.doubts] == ["count"]


def test_a_number_that_an_unlikely_reading_has_otherwise_stays_sure() -> None:
    four, five = reading("four grounds", 0.97), reading("five grounds", 0.97, five=0.06)
    assert sure(choose(RecognitionResult((four, five))))["four"] == 0.97


def test_readings_that_differ_about_no_number_raise_no_doubt() -> None:
    first, second = reading("four grounds", 0.95), reading("four ground", 0.95, ground=0.3)
    assert sure(choose(RecognitionResult((first, second)))) == {"four": 0.95, "grounds": 0.95}


def test_numbers_beside_one_that_another_reading_has_besides_are_in_doubt() -> None:
    first, second = reading("four wires", 0.9), reading("four fourteen wires", 0.9, fourteen=0.3)
    assert sure(choose(RecognitionResult((first, second))))["four"] == DOUBTFUL_NUMBER_CONFIDENCE


@pytest.mark.parametrize(
    ("heard", "doubtful"),
    [
        (f"two {UNKNOWN} fourteen two cables", {"two", "fourteen"}),
        (f"{UNKNOWN} two switches", {"two"}),
        (f"one switch {UNKNOWN}", {"switch"}),
    ],
)
def test_what_is_not_of_the_trade_is_never_shown_and_puts_its_neighbours_in_doubt(
    heard: str, doubtful: set[str]
) -> None:
    words = choose(RecognitionResult((reading(heard),)))
    assert UNKNOWN not in text(words)
    assert text(words) == " ".join(heard.replace(UNKNOWN, " ").split())
    assert {
        word.text for word in words if word.confidence == DOUBTFUL_NUMBER_CONFIDENCE
    } == doubtful


def test_a_number_beside_an_article_that_may_have_been_one_is_in_doubt() -> None:
    first = reading("a fourteen gauge wire", 0.9, a=0.6)
    second = reading("six fourteen gauge wire", 0.9, six=0.4)
    assert (
        sure(choose(RecognitionResult((first, second))))["fourteen"] == DOUBTFUL_NUMBER_CONFIDENCE
    )


def test_a_doubt_that_changes_no_meaning_is_none() -> None:
    first = reading("the dimmer", 0.95, the=0.45)
    second = reading("a dimmer", 0.95, a=0.4)
    third = reading("the timer", 0.95, the=0.45, timer=0.1)
    assert sure(choose(RecognitionResult((first, second))))["the"] == AGREED_CONFIDENCE
    assert sure(choose(RecognitionResult((first, second, third))))["the"] == 0.45


def test_a_number_that_is_said_otherwise_with_the_same_meaning_is_in_no_doubt() -> None:
    first = reading("the box is eighteen point zero cubic inches", 0.9, zero=0.7)
    second = reading("the box is eighteen point oh cubic inches", 0.9, oh=0.3)
    assert sure(choose(RecognitionResult((first, second))))["eighteen"] == 0.9


def test_filler_alone_says_nothing() -> None:
    assert choose(RecognitionResult((reading("uh the"),))) == ()


def test_only_other_talk_or_nothing_is_no_words() -> None:
    assert choose(RecognitionResult((reading(UNKNOWN),))) == ()
    assert choose(RecognitionResult((), "silence")) == ()


def test_typed_words_which_have_no_confidence_are_as_they_are() -> None:
    words = (Word("two"), Word("switches"))
    assert choose(RecognitionResult((words,))) == words
