"""The learnt ear around its network, which here writes what the test wants it to."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from boxaloud.assistant.asr import Sound
from boxaloud.assistant.asr.engines.ctc.alphabet import ALPHABET
from boxaloud.assistant.asr.engines.ctc.ctc_encoder import SpanNetwork
from boxaloud.assistant.asr.engines.ctc.ctc_recogniser import CtcRecogniser
from boxaloud.assistant.asr.hypotheses import acceptance
from boxaloud.assistant.asr.hypotheses.acceptance import Weights
from boxaloud.assistant.asr.hypotheses.rescoring import choose
from boxaloud.assistant.asr.lm.language_model import own_models
from boxaloud.assistant.dialogue import Conversation
from boxaloud.grammar.lexer.heard_words import UNHEARD
from recordings import sound_of, text_of

Ear = Callable[[str], CtcRecogniser]
#: Places that a letter takes, with the blank behind it.
LETTER_PLACES = 3
SECONDS = 4.0
PAUSE, PAUSE_PLACES = "|", 9


class Writing:
    """A network that hears one text in whatever it is given, after some quiet. `PAUSE` is one."""

    name = "writing"

    def __init__(self, text: str, sure: float = 0.95) -> None:
        self.text, self.sure = text, sure

    def letters(self, spectrum: np.ndarray) -> np.ndarray:
        places = len(spectrum) // 2
        rows = [0] * 5
        for letter in self.text:
            if letter == PAUSE:
                rows += [0] * PAUSE_PLACES
                continue
            rows += [1 + ALPHABET.index(letter)] + [0] * (LETTER_PLACES - 1)
        assert len(rows) <= places, "too little sound"
        rows += [0] * (places - len(rows))
        found = np.full((places, 29), (1 - self.sure) / 28, np.float32)
        found[np.arange(places), rows] = self.sure
        return np.log(found)


@pytest.fixture
def hears(cache: Path) -> Ear:
    def made(text: str) -> CtcRecogniser:
        return CtcRecogniser(SpanNetwork(Writing(text)), own_models(cache=cache))

    return made


@pytest.fixture
def sound() -> Sound:
    """Something loud for four seconds, in quiet: what it is the network is told."""
    dice = np.random.default_rng(1)
    loud = dice.normal(0, 0.1, int(SECONDS * 16000))
    quiet = dice.normal(0, 0.0003, 8000)
    return sound_of(np.concatenate([quiet, loud, quiet]))


@pytest.mark.parametrize(
    "text",
    ["two fourteen two cables and one switch", "no clamps inside", "eighteen cubic inches"],
)
def test_what_is_written_is_heard(text: str, hears: Ear, sound: Sound) -> None:
    (heard,) = hears(text).hear(sound)
    assert text_of(heard) == text
    assert heard.evidence is not None
    assert heard.evidence.strange < 0.05
    assert heard.evidence.unread == 0
    assert sum(heard.shares) <= 1.0001
    assert " ".join(word.text for word in choose(heard)) == text


def test_the_open_question_is_listened_for(hears: Ear, sound: Sound) -> None:
    (heard,) = hears("yes").hear(sound, "confirm")
    assert text_of(heard) == "yes"


@pytest.mark.parametrize("text", ["the window was broken by the children", "where is my hat"])
def test_other_talk_is_not_taken_for_the_trade_s(text: str, hears: Ear, sound: Sound) -> None:
    (heard,) = hears(text).hear(sound)
    talk = Conversation()
    if words := choose(heard):
        talk.hear(words)
    assert not talk.talk.state.items
    assert not talk.talk.state.pending


def test_speech_behind_the_words_was_said_and_not_heard(hears: Ear, sound: Sound) -> None:
    (heard,) = hears("no clamps|zxzxxzxzxzxzxz").hear(sound)
    assert heard.evidence is not None
    assert heard.evidence.lost > 0.3
    assert [word.text for word in choose(heard)] == ["no", "clamps", UNHEARD]


def test_letters_that_go_on_behind_the_words_make_them_doubtful(hears: Ear, sound: Sound) -> None:
    """What goes on without a pause may be another word."""
    whole, longer = (hears(text).hear(sound)[0] for text in ("two switches", "two switchesqz"))
    assert whole.evidence is not None
    assert longer.evidence is not None
    assert whole.evidence.edge < 1 < longer.evidence.edge


def test_softer_speech_behind_the_words_is_somebody_else(hears: Ear) -> None:
    """Nine letters of three places and a pause, from 0.2 s before the loud part on."""
    dice = np.random.default_rng(1)
    said, on = (dice.normal(0, loud, int(seconds * 16000)) for loud, seconds in
                ((0.2, 0.55), (0.04, 2.0)))  # fmt: skip
    quiet = dice.normal(0, 0.0003, 8000)
    (heard,) = hears("no clamps|zxzxxzxzxzxzxz").hear(
        sound_of(np.concatenate([quiet, said, on, quiet]))
    )
    assert heard.evidence is not None
    assert heard.evidence.lost == 0
    assert [word.text for word in choose(heard)] == ["no", "clamps"]


def test_silence_is_told(hears: Ear) -> None:
    (heard,) = hears("two").hear(sound_of(np.zeros(16000)))
    assert heard.trouble == "silence"
    assert heard.readings == ()


def test_words_far_apart_are_one_statement_live(hears: Ear, sound: Sound) -> None:
    ear = hears("two switches")
    told: list[str] = []
    stream = ear.attend(None, told.append)
    stream.feed(sound.samples)
    assert stream.so_far() == "two switches"
    assert told == ["two switches"]
    (heard,) = stream.finish()
    assert text_of(heard) == "two switches"


def test_live_nothing_is_shown_of_what_would_be_given_up(
    hears: Ear, sound: Sound, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It would only flicker on the screen, and keep the microphone waiting for its end."""
    never = Weights(
        -9.0, (0.0,) * 12, ask=0.9, ask_few=0.9, ask_confirming=0.9, refuse=0.5, refuse_number=0.5
    )
    monkeypatch.setattr(acceptance, "table", lambda: {"ctc": never})
    told: list[str] = []
    stream = hears("two switches").attend(None, told.append)
    stream.feed(sound.samples)
    assert stream.so_far() == ""
    assert told == []
