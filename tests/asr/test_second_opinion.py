"""Two ears on one sound: agreeing counts for more than either, disagreeing is asked back."""

from __future__ import annotations

import numpy as np
import pytest
from boxaloud.assistant.asr.asr_types import UNKNOWN, Evidence, RecognitionResult, Sound
from boxaloud.assistant.asr.audio.speech_enhancement import SpeechEnhancer
from boxaloud.assistant.asr.audio.speech_spans import Span
from boxaloud.assistant.asr.hypotheses import acceptance, agreement
from boxaloud.assistant.asr.hypotheses.acceptance import Weights
from boxaloud.assistant.asr.hypotheses.agreement import Agreement
from boxaloud.assistant.asr.hypotheses.rescoring import choose
from boxaloud.assistant.asr.second_opinion import SecondOpinion
from boxaloud.assistant.dialogue import Conversation
from boxaloud.grammar.lexer.heard_words import Word
from recordings import sound_of

#: The probability is what the ear is told to be: by how strange it says the sound is.
PLAIN = Weights(0.0, (0, 0, -1.0, *(0,) * 9), 0.8, 0.8, 0.8, refuse=0.3, refuse_number=0.1)
#: Where they agree the odds of both are multiplied, which can be worked out by hand.
BOTH = dict.fromkeys(("few", "more"), Agreement(first=1.0, second=1.0, intercept=0.0, ask=0.8))


@pytest.fixture(autouse=True)
def _plain(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(acceptance, "table", lambda: {"some": PLAIN})
    monkeypatch.setattr(agreement, "agreements", lambda: BOTH)


class Hearing:
    """An ear that hears one thing in everything, as likely right as it is told."""

    def __init__(self, text: str, likely: float) -> None:
        self.text, self.asked = text, 0
        self.evidence = Evidence("some", -float(np.log(likely / (1 - likely))), 0, 0, 40.0, 2.0)

    def hear_span(
        self, raw: Sound, clean: Sound, span: Span, expect: str | None
    ) -> RecognitionResult:
        self.asked += 1
        words = tuple(Word(word, 0.9) for word in self.text.split())
        return RecognitionResult((words,) if words else (), shares=(1.0,) * bool(words),
                                 evidence=self.evidence)  # fmt: skip


@pytest.fixture
def sound() -> Sound:
    dice = np.random.default_rng(1)
    quiet = dice.normal(0, 0.0003, 8000)
    return sound_of(np.concatenate([quiet, dice.normal(0, 0.1, 16000), quiet]))


def heard(first: Hearing, second: Hearing, sound: Sound) -> tuple[Word, ...]:
    ear = SecondOpinion(first, second, SpeechEnhancer(lambda: None))
    (found,) = ear.hear(sound)
    return choose(found)


def waits(words: tuple[Word, ...]) -> bool:
    talk = Conversation()
    talk.hear(words)
    return talk.asks == "confirm"


def test_of_what_is_all_but_sure_no_other_is_asked(sound: Sound) -> None:
    second = Hearing("three switches", 0.9)
    words = heard(Hearing("two switches", 0.99), second, sound)
    assert second.asked == 0
    assert not waits(words)


def test_a_number_less_sure_is_heard_again(sound: Sound) -> None:
    second = Hearing("two switches", 0.9)
    words = heard(Hearing("two switches", 0.9), second, sound)
    assert second.asked == 1
    assert {word.confidence for word in words} == {0.9878}  # 9 to 1 twice: 81 to 1


def test_what_cannot_turn_a_verdict_is_not(sound: Sound) -> None:
    second = Hearing("read it back", 0.9)
    heard(Hearing("read it back", 0.9), second, sound)
    assert second.asked == 0


def test_two_doubtful_ears_that_agree_are_believed(sound: Sound) -> None:
    words = heard(Hearing("two switches", 0.7), Hearing("a pair of switches", 0.7), sound)
    assert not waits(words)
    assert {word.confidence for word in words} == {0.8448}  # 7 to 3 twice: 49 to 9


def test_ears_that_differ_are_asked_about_where_they_do(sound: Sound) -> None:
    one, other = "two switches and a dimmer", "three switches and a dimmer"
    words = heard(Hearing(one, 0.9), Hearing(other, 0.95), sound)
    assert [word.text for word in words if (word.confidence or 0) < 0.6] == ["three"]
    assert waits(words)


def test_an_ear_that_is_alone_is_asked(sound: Sound) -> None:
    assert waits(heard(Hearing("two switches", 0.9), Hearing("", 0.5), sound))


def test_a_second_ear_that_would_give_up_does_not_speak_against_the_first(sound: Sound) -> None:
    words = heard(Hearing("two switches", 0.7), Hearing("three dimmers", 0.1), sound)
    assert [word.text for word in words] == ["two", "switches"]
    assert waits(words)


def test_what_both_heard_is_asked_though_the_first_would_have_given_it_up(sound: Sound) -> None:
    words = heard(Hearing("two switches", 0.02), Hearing("two switches", 0.9), sound)
    assert [word.text for word in words] == ["two", "switches"]
    assert waits(words)


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("no clamps", "no clamps no clamps no clamps"),
        ("a dimmer on the twelves", "a dimmer on the twelves a dimmer on the twelves"),
    ],
)
def test_a_second_ear_that_says_it_over_and_over_agrees(
    first: str, second: str, sound: Sound
) -> None:
    words = heard(Hearing(first, 0.7), Hearing(second, 0.7), sound)
    assert {word.confidence for word in words} == {0.8448}


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("the box is thirty cubic inches one receptacle", "the box is thirty cubic inches"),
        ("two twelve two cables no clamps and a dimmer", "two twelve two cables no clamps"),
        ("a timer and five wire nuts", "a timer"),
    ],
)
@pytest.mark.parametrize(("likely", "asked"), [(0.9, False), (0.7, True)])
def test_one_that_broke_off_says_nothing_of_the_rest(
    first: str, second: str, likely: float, asked: bool, sound: Sound
) -> None:
    """What it heard it does not make surer either: the first stands as it would alone."""
    assert waits(heard(Hearing(first, likely), Hearing(second, 0.9), sound)) is asked


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("one timer", "one timer and five wire nuts"),  # the first may have broken off
        ("two timers", "one timer"),  # another count is no part
        ("two timers", "two dimmers"),
    ],
)
def test_one_that_heard_more_or_other_speaks_against_it(
    first: str, second: str, sound: Sound
) -> None:
    assert waits(heard(Hearing(first, 0.9), Hearing(second, 0.9), sound))


@pytest.mark.parametrize(
    ("second", "likely", "asked"),
    [
        ("a switch", 0.9, False),
        ("two number twelve wires and a switch", 0.9, True),
        ("two number twelve wires and a switch", 0.7, False),
    ],
)
def test_what_the_second_heard_alone_is_asked_only_as_a_statement_it_believes(
    second: str, likely: float, asked: bool, sound: Sound
) -> None:
    words = heard(Hearing(UNKNOWN, 0.5), Hearing(second, likely), sound)
    assert bool(words) is asked
    assert not words or waits(words)


def test_a_number_that_is_due_is_asked_back_though_one_alone_heard_it(sound: Sound) -> None:
    ear = SecondOpinion(Hearing(UNKNOWN, 0.5), Hearing("four", 0.4), SpeechEnhancer(lambda: None))
    (found,) = ear.hear(sound, "grounds")
    assert [(word.text, word.confidence) for word in choose(found, "grounds")] == [("four", 0.4)]
    assert choose(found, "confirm") == choose(found, "grounds")
    assert choose(found) == ()


def test_two_that_would_give_up_give_up(sound: Sound) -> None:
    assert heard(Hearing("two switches", 0.2), Hearing("three dimmers", 0.1), sound) == ()


def test_live_the_same(sound: Sound) -> None:
    ear = SecondOpinion(
        Hearing("two switches", 0.7), Hearing("two switches", 0.7), SpeechEnhancer(lambda: None)
    )
    stream = ear.attend(None, lambda words: None)
    stream.feed(sound.samples)
    (found,) = stream.finish()
    assert not waits(choose(found))
