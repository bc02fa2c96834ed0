"""Sound in which nothing is understood says why: silence, too quiet, clipped, or unclear."""

from __future__ import annotations

import numpy as np
import pytest
from boxaloud.assistant.asr.asr_types import Sound
from boxaloud.assistant.asr.audio.levels import normalise_level, rejection_reason, speech_level_dbfs
from boxaloud.assistant.asr.audio.pause_segmentation import split
from boxaloud.assistant.asr.audio.wav import read_wav
from boxaloud.assistant.asr.engines.pocketsphinx.pocketsphinx_recogniser import (
    PocketsphinxRecogniser,
)
from recordings import FOLDER, samples_of, sound_of, text_of

CHANCE = np.random.default_rng(1)
SPEECH = samples_of(read_wav(FOLDER / "oov_he_said_the_meeting_starts_at_half_past_nine__awb.wav"))
SAID = samples_of(read_wav(FOLDER / "demo" / "2_the_box_is_eighteen_cubic_inches__rms.wav"))


def hum(seconds: float) -> np.ndarray:
    time = np.arange(int(seconds * 16000)) / 16000
    wave = sum(np.sin(2 * np.pi * 60 * k * time) / k for k in range(1, 12))
    return 0.1 * wave + CHANCE.normal(0, 0.02, len(time))


def knocks(seconds: float) -> np.ndarray:
    wave = CHANCE.normal(0, 0.001, int(seconds * 16000))
    for start in range(4000, len(wave) - 2000, 9000):
        wave[start : start + 800] += CHANCE.normal(0, 0.4, 800) * np.exp(-np.arange(800) / 150)
    return wave


NOISES = {
    "digital silence": np.zeros(32000),
    "a quiet room": CHANCE.normal(0, 0.0004, 48000),
    "hiss": CHANCE.normal(0, 0.1, 64000),
    "hum of a motor": hum(4),
    "hammering": knocks(4),
    "one click": np.concatenate([np.zeros(8000), np.full(40, 0.9), np.zeros(8000)]),
    "a tone": 0.3 * np.sin(np.arange(48000) / 5),
    "half a second of hiss": np.concatenate([np.zeros(8000), CHANCE.normal(0, 0.2, 8000)]),
    "a single sample": np.array([0.5]),
    "nothing at all": np.zeros(0),
}


@pytest.mark.parametrize("expect", [None, "count", "confirm"])
@pytest.mark.parametrize("name", NOISES)
def test_noise_enters_nothing(name: str, expect: str | None, ear: PocketsphinxRecogniser) -> None:
    hearings = ear.hear(sound_of(NOISES[name]), expect)
    assert hearings
    for hearing in hearings:
        assert hearing.words == ()
        assert hearing.trouble is not None


@pytest.mark.parametrize(
    ("name", "values", "expected"),
    [
        ("digital silence", np.zeros(32000), "silence"),
        ("a quiet room", NOISES["a quiet room"], "silence"),
        ("talk far from the microphone", SPEECH * 0.015, "quiet"),
        ("talk that overdrives it", SPEECH * 8, "clipped"),
        ("talk about something else", SPEECH, "unclear"),
    ],
)
def test_the_reason_why_nothing_was_understood(
    name: str, values: np.ndarray, expected: str, ear: PocketsphinxRecogniser
) -> None:
    (hearing,) = ear.hear(sound_of(values))
    assert hearing.words == ()
    assert hearing.trouble == expected


@pytest.mark.parametrize("gain", [0.02, 0.1, 0.5, 1.5])
def test_what_is_said_softly_or_loudly_is_heard_alike(
    gain: float, ear: PocketsphinxRecogniser
) -> None:
    (hearing,) = ear.hear(sound_of(SAID * gain))
    assert text_of(hearing) == "the box is eighteen cubic inches"
    assert hearing.trouble is None


def test_utterances_are_parted_by_a_pause_and_not_by_a_breath() -> None:
    def with_gap(seconds: float) -> Sound:
        room = CHANCE.normal(0, 0.0004, int(seconds * 16000))
        return sound_of(np.concatenate([SAID[4000:-5600], room, SAID[4000:-5600]]))

    assert len(split(with_gap(1.2))) == 2
    assert len(split(with_gap(0.3))) == 1


def test_levelling_never_clips_and_brings_speech_to_one_loudness() -> None:
    levels = [
        speech_level_dbfs(normalise_level(sound_of(SAID * gain))) for gain in (0.02, 0.2, 1.0)
    ]
    assert max(levels) - min(levels) < 1.0
    assert np.abs(samples_of(normalise_level(sound_of(SAID * 0.02)))).max() < 1.0
    assert rejection_reason(normalise_level(sound_of(SAID))) != "clipped"
