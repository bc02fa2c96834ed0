"""A short answer that two ears heard: entered, asked, or none. The weights are those of the tests,
so that every probability can be worked out by hand."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from boxaloud.assistant.asr.asr_types import Evidence, FreeOdds, RecognitionResult
from boxaloud.assistant.asr.audio.speech_enhancement import SpeechEnhancer
from boxaloud.assistant.asr.audio.wav import at_rate, read_wav
from boxaloud.assistant.asr.engines.whisper import PACKAGE, model_folder
from boxaloud.assistant.asr.engines.whisper.whisper_recogniser import WhisperRecogniser
from boxaloud.assistant.asr.hypotheses import acceptance, agreement, freely_heard
from boxaloud.assistant.asr.hypotheses.acceptance import Weights
from boxaloud.assistant.asr.hypotheses.agreement import Agreement
from boxaloud.assistant.asr.hypotheses.freely_heard import AnswerThresholds
from boxaloud.assistant.asr.hypotheses.rescoring import choose
from boxaloud.assistant.dialogue import Conversation
from boxaloud.grammar.lexer.heard_words import Word
from recordings import FOLDER

DIGITS = Path(__file__).parents[3] / "shared" / "audio" / "human_digits"
MODEL = model_folder()
#: The probability of a hearing is what it is told to be: by how strange it says the sound is.
PLAIN = Weights(0.0, (0, 0, -1.0, *(0,) * 9), 0.8, 0.8, 0.8, refuse=0.3, refuse_number=0.1)
#: Where both ears agree the odds of both are multiplied.
BOTH = dict.fromkeys(("few", "more"), Agreement(first=1.0, second=1.0, intercept=0.0, ask=0.8))
LIMITS = AnswerThresholds(sure=5.0, confirming=2.0)


@pytest.fixture
def plainly(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(acceptance, "table", lambda: {"some": PLAIN})
    monkeypatch.setattr(agreement, "agreements", lambda: BOTH)
    monkeypatch.setattr(freely_heard, "answer_thresholds", lambda: LIMITS)


def heard(text: str, likely: float = 0.5) -> RecognitionResult:
    """A hearing that is so likely right."""
    strange = -float(np.log(likely / (1 - likely)))
    words = tuple(Word(word, 0.9) for word in text.split())
    return RecognitionResult(
        (words,) if words else (), shares=(1.0,) * bool(words),
        evidence=Evidence("some", strange, 0, 0, 40.0, 0.4),
    )  # fmt: skip


def both(first: RecognitionResult, second: RecognitionResult, **alone: float) -> RecognitionResult:
    """Two hearings of one sound, and how the second hears short answers when it is asked freely."""
    assert second.evidence is not None
    assert first.evidence is not None
    freely = tuple(FreeOdds(word, odds) for word, odds in alone.items())
    evidence = Evidence("some", second.evidence.strange, 0, 0, 40.0, 0.4, freely=freely)
    told = RecognitionResult(second.readings, shares=second.shares, evidence=evidence)
    return RecognitionResult(
        first.readings, shares=first.shares, evidence=first.evidence, second=told
    )


def outcome(hearing: RecognitionResult, expect: str) -> tuple[str, str]:
    """The words, and whether they are entered, asked about or given up."""
    words = choose(hearing, expect)
    if not words:
        return "", "none"
    return " ".join(word.text for word in words), (
        "asked" if min(word.confidence or 0.0 for word in words) < 0.6 else "entered"
    )


@pytest.mark.parametrize(
    ("first", "second", "alone", "expect", "due"),
    [
        # 9 to 1 by both ears, whatever it sounds like to the second asked freely
        (("five", 0.75), ("five", 0.75), {"five": -2.0}, "grounds", ("five", "entered")),
        (("five", 0.6), ("five", 0.6), {"five": 1.0}, "grounds", ("five", "asked")),
        # what one heard alone, or what they differ on, is asked
        (("", 0.5), ("three", 0.9), {"three": 2.0}, "grounds", ("three", "asked")),
        (("none", 0.3), ("nine", 0.9), {"none": -4.0, "nine": 2.0}, "grounds", ("nine", "asked")),
        # unless the second is sure of it both ways: a logit of 2.2, and 3
        (("", 0.5), ("three", 0.9), {"three": 3.0}, "grounds", ("three", "entered")),
        (("none", 0.3), ("nine", 0.9), {"none": -4.0, "nine": 3.0}, "grounds", ("nine", "entered")),
        (("five", 0.1), ("five", 0.9), {"five": 3.0}, "grounds", ("five", "entered")),
        # a homophone's figure is the same answer, and said over and over is said
        (("", 0.5), ("three three three", 0.9), {"three": 3.0}, "grounds",
         ("three", "entered")),
        # more than one word by the first ear: the second may have heard a part
        (("three switches", 0.5), ("three", 0.9), {"three": 3.0}, "grounds",
         ("three", "asked")),
        # a number is no answer to something asked back, nor a "yes" to how many
        (("four", 0.9), ("four", 0.9), {"four": 6.0}, "confirm", ("four", "asked")),
        (("yes", 0.9), ("yes", 0.9), {"yes": 6.0}, "grounds", ("yes", "asked")),
        (("yes", 0.9), ("yes", 0.9), {"yes": 6.0}, "clamps", ("yes", "entered")),
        # to something asked back a "yes" must be no other word: it lets in what was held back
        (("yes", 0.9), ("yes", 0.9), {"yes": 0.0}, "confirm", ("yes", "asked")),
        (("yes", 0.9), ("yes", 0.9), {"yes": 2.0}, "confirm", ("yes", "entered")),
        (("no", 0.9), ("no", 0.9), {"yes": 2.0, "no": -1.0}, "confirm", ("no", "asked")),
    ],
)  # fmt: skip
@pytest.mark.usefixtures("plainly")
def test_what_becomes_of_a_short_answer(
    first: tuple[str, float],
    second: tuple[str, float],
    alone: dict[str, float],
    expect: str,
    due: tuple[str, str],
) -> None:
    assert outcome(both(heard(*first), heard(*second), **alone), expect) == due


def test_the_thresholds_lean_to_asking() -> None:
    found = freely_heard.answer_thresholds()
    assert found.sure > 2 * found.confirming > 0


def test_asked_freely_the_network_writes_what_a_person_said() -> None:
    """Voices that nothing was fitted with; recordings of `audio_fixtures`."""
    if MODEL is None:
        pytest.skip(f"{PACKAGE} is not installed")
    ear = WhisperRecogniser(MODEL, cleaner=SpeechEnhancer(lambda: None))
    for name, word, expect in (
        ("fourteen__hts", "fourteen", "device_size"),
        ("inside__slt", "inside", "clamps"),
    ):
        (found,) = ear.hear(read_wav(FOLDER / f"{name}.wav"), expect)
        assert found.evidence is not None
        odds = {one.word: one.odds for one in found.evidence.freely}
        assert max(odds, key=lambda one: odds[one]) == word
        assert odds[word] > 0
    (found,) = ear.hear(read_wav(FOLDER / "four_grounds__hts.wav"))
    assert found.evidence is not None
    assert found.evidence.freely == ()  # nothing was asked


def test_a_number_by_telephone_is_asked_or_entered_and_never_another() -> None:
    """People of the Free Spoken Digit Dataset, whom nothing was fitted with."""
    if MODEL is None or not DIGITS.is_dir():
        pytest.skip("the hearing network or the recordings are not here")
    from boxaloud.assistant.asr.ear_choice import EarChoice, made
    from boxaloud.assistant.asr.engines.ctc import weights_file

    ear = made(EarChoice("both", weights_file(), MODEL))
    for name, due in (("5_lucas_6", 5), ("9_jackson_5", 9), ("7_theo_6", 7), ("1_theo_6", 1)):
        sound = at_rate(read_wav(DIGITS / f"{name}.wav"))
        talk = Conversation()
        for words in ("two number twelve wires", "no clamps", "eighteen cubic inch box"):
            talk.hear(words)
        (found,) = ear.hear(sound, talk.asks)
        assert [word.text for word in choose(found, talk.asks)] == [NUMBERS[due]]


NUMBERS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
