"""Two ears on one sound: agreeing counts for more than either, disagreeing is asked back."""

from __future__ import annotations

import numpy as np
import pytest
from boxaloud.assistant.asr.asr_types import Evidence, RecognitionResult, Sound
from boxaloud.assistant.asr.audio.speech_enhancement import SpeechEnhancer
from boxaloud.assistant.asr.audio.speech_spans import Span
from boxaloud.assistant.asr.hypotheses import acceptance
from boxaloud.assistant.asr.hypotheses.acceptance import Weights
from boxaloud.assistant.asr.hypotheses.rescoring import choose
from boxaloud.assistant.asr.second_opinion import SecondOpinion
from boxaloud.assistant.dialogue import Conversation
from boxaloud.grammar.lexer.heard_words import Word
from recordings import sound_of

#: The probability is what the ear is told to be: by how strange it says the sound is.
PLAIN = Weights(0.0, (0, 0, -1.0, 0, 0, 0, 0, 0, 0, 0, 0), ask=0.8, refuse=0.3, refuse_number=0.1)


@pytest.fixture(autouse=True)
def _plain(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(acceptance, "table", lambda: {"some": PLAIN})


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
    assert {word.confidence for word in words} == {0.99}  # 1 - 0.1 * 0.1


def test_what_cannot_turn_a_verdict_is_not(sound: Sound) -> None:
    second = Hearing("read it back", 0.9)
    heard(Hearing("read it back", 0.9), second, sound)
    assert second.asked == 0


def test_two_doubtful_ears_that_agree_are_believed(sound: Sound) -> None:
    words = heard(Hearing("two switches", 0.6), Hearing("a pair of switches", 0.6), sound)
    assert not waits(words)
    assert {word.confidence for word in words} == {0.84}


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


def test_two_that_would_give_up_give_up(sound: Sound) -> None:
    assert heard(Hearing("two switches", 0.2), Hearing("three dimmers", 0.1), sound) == ()


def test_live_the_same(sound: Sound) -> None:
    ear = SecondOpinion(
        Hearing("two switches", 0.6), Hearing("two switches", 0.6), SpeechEnhancer(lambda: None)
    )
    stream = ear.attend(None, lambda words: None)
    stream.feed(sound.samples)
    (found,) = stream.finish()
    assert not waits(choose(found))
