"""Live listening over recordings: any ear, the wake phrase, and whom it does not heed."""

from __future__ import annotations

import sys
from itertools import chain
from pathlib import Path

import numpy as np
import pytest
from boxaloud.assistant.asr import RecognitionResult, Sound, read_wav
from boxaloud.assistant.asr.audio.recorded_device import RecordedDevice
from boxaloud.assistant.asr.endpointer import Endpointer, EndpointEvent, ListeningMode
from boxaloud.assistant.asr.engines.pocketsphinx.pocketsphinx_recogniser import (
    PocketsphinxRecogniser,
)
from boxaloud.assistant.asr.hypotheses.meaning_representation import meaning
from boxaloud.assistant.asr.live_recognition import (
    FinalResult,
    LiveEvent,
    LiveRecogniser,
    PartialResult,
    WakeWordOnly,
)
from boxaloud.assistant.asr.vad import VoiceActivityDetector
from boxaloud.assistant.asr.wake_word import WakeWordDetector
from boxaloud.grammar.lexer.heard_words import Word

sys.path.insert(0, str(Path(__file__).parent))

from recordings import ABOUT_BOXES, FOLDER, OTHER_TALK, said_in

WAKE = Path(__file__).parent / "data" / "listen_box_aloud_no_clamps_inside__slt.wav"


class Parrot:
    """An ear that hears what it is told to, whatever is said; keeps what it was given."""

    def __init__(self, *words: str) -> None:
        self.words = list(words)
        self.given: list[tuple[float, str | None]] = []

    def hear(self, sound: Sound, expect: str | None = None) -> tuple[RecognitionResult, ...]:
        self.given.append((sound.seconds, expect))
        said = self.words[min(len(self.given), len(self.words)) - 1]
        return (RecognitionResult((tuple(Word(word, 1.0) for word in said.split()),)),)


def live(ear: object, mode: ListeningMode = "open", asks: str | None = None) -> LiveRecogniser:
    wake = WakeWordDetector() if mode == "wake" else None
    return LiveRecogniser(ear, Endpointer(VoiceActivityDetector(), mode), lambda: asks, wake)  # type: ignore[arg-type]


def outcomes(ears: LiveRecogniser, *sounds: Sound, key: bool = False) -> list[LiveEvent]:
    waiting: list[bool] = []
    device = RecordedDevice(sounds, lambda: waiting.append(key))
    found: list[LiveEvent] = []
    for frame in device.frames():
        if waiting and waiting.pop():
            found += ears.key()
        found += ears.frame(frame)
    return found


def heard(found: list[LiveEvent]) -> list[str]:
    return [
        " ".join(word.text for word in hearing.words)
        for outcome in found
        if isinstance(outcome, FinalResult)
        for hearing in outcome.hearings
    ]


@pytest.fixture(scope="module")
def said() -> Sound:
    return read_wav(FOLDER / "no_clamps_inside__kal16.wav")


def test_a_complete_statement_is_heard_once_by_the_ear(said: Sound) -> None:
    parrot = Parrot("no clamps inside")
    found = outcomes(live(parrot, asks="clamps"), said)
    assert heard(found) == ["no clamps inside"]
    assert PartialResult("no clamps inside") not in found[-1:]
    assert [expect for _, expect in parrot.given] == ["clamps"]  # judged and given: one decoding


def test_the_rest_of_an_unfinished_statement_is_waited_for_and_heard_as_one(said: Sound) -> None:
    pause = Sound(said.samples + bytes(16000) + said.samples)
    parrot = Parrot("two fourteen", "two fourteen two cables")
    assert heard(outcomes(live(parrot), pause)) == ["two fourteen two cables"]
    apart = outcomes(live(Parrot("no clamps inside", "two switches")), pause)
    assert heard(apart) == ["no clamps inside", "two switches"]


def test_push_to_talk_hears_only_after_the_key(said: Sound) -> None:
    assert outcomes(live(Parrot("no clamps"), "key"), said) == []
    found = outcomes(live(Parrot("no clamps"), "key"), said, said, key=True)
    assert heard(found) == ["no clamps", "no clamps"]
    assert [event for event in found if isinstance(event, EndpointEvent)] == [
        EndpointEvent.OPENED,
        EndpointEvent.CLOSED,
    ] * 2


@pytest.mark.parametrize("path", ABOUT_BOXES[::6], ids=lambda path: path.stem)
def test_what_is_understood_of_a_recording_is_understood_of_it_live(
    ear: PocketsphinxRecogniser, path: Path
) -> None:
    """The same engine, with the endpointer in front of it, over the same recording."""
    sound = read_wav(path)
    whole = [" ".join(word.text for word in hearing.words) for hearing in ear.hear(sound)]
    live_parts = heard(outcomes(live(ear), sound))
    meant = [list(chain(*map(meaning, texts))) for texts in (said_in(path), whole, live_parts)]
    assert meant[1] == meant[0]
    assert meant[2] == meant[0]


@pytest.mark.parametrize("path", OTHER_TALK[::3], ids=lambda path: path.stem)
def test_other_talk_is_not_taken_for_the_wake_phrase(path: Path) -> None:
    parrot = Parrot("two switches")
    assert outcomes(live(parrot, "wake"), read_wav(path)) == []
    assert parrot.given == []


def test_what_follows_the_wake_phrase_is_heard(said: Sound) -> None:
    parrot = Parrot("no clamps inside")
    whole = read_wav(WAKE)
    assert heard(outcomes(live(parrot, "wake"), whole)) == ["no clamps inside"]
    assert parrot.given[0][0] < whole.seconds - 0.5  # without the phrase


def test_after_the_phrase_alone_the_next_statement_needs_none(said: Sound) -> None:
    """The recording's first half is the phrase; a second after it another recording begins."""
    whole = read_wav(WAKE)
    phrase = Sound(whole.samples[: int(1.45 * 16000) * 2])
    found = outcomes(live(Parrot("no clamps inside"), "wake"), phrase, said)
    assert WakeWordOnly() in found
    assert heard(found) == ["no clamps inside"]


@pytest.mark.parametrize("kind", ["silence", "hiss", "hum"])
def test_a_minute_of_a_room_begins_no_statement(kind: str) -> None:
    length = 60 * 16000
    time = np.arange(length) / 16000
    sound = {
        "silence": np.zeros(length),
        "hiss": np.random.default_rng(1).normal(0, 900, length),
        "hum": 2500
        * np.sum([np.sin(2 * np.pi * 120 * n * time) / n for n in (1, 2, 3, 5)], axis=0),
    }[kind]
    parrot = Parrot("two switches")
    assert outcomes(live(parrot), Sound(sound.astype("<i2").tobytes())) == []
