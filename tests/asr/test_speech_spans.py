"""Where speech lies in a sound, closely cut recordings among them."""

from __future__ import annotations

import numpy as np
import pytest
from boxaloud.assistant.asr.audio.speech_spans import CLOSELY_CUT_SECONDS, speech_spans
from recordings import sound_of

RATE = 16000
LONGEST = 14.0


def tone(seconds: float, loud: float) -> np.ndarray:
    wave: np.ndarray = loud * np.sin(np.arange(round(seconds * RATE)) * 0.4)
    return wave


def word(seconds: float) -> np.ndarray:
    """Loud for a fifth, then soft, as a short word is."""
    return np.concatenate([tone(seconds * 0.2, 0.5), tone(seconds * 0.8, 0.02)])


def test_a_recording_cut_within_its_word_is_speech_from_end_to_end() -> None:
    """The loud fifth alone, 0.08 s, is too short for a word."""
    for said in (word(0.4), word(0.4)[::-1]):
        ((start, end),) = speech_spans(sound_of(said), LONGEST)
        assert (start, end) == pytest.approx((0.0, 0.4))


def test_as_short_a_sound_with_quiet_around_it_is_a_knock() -> None:
    quiet = tone(0.2, 0.001)
    assert speech_spans(sound_of([*quiet, *tone(0.08, 0.5), *quiet]), LONGEST) == []


def test_a_longer_recording_has_a_background_of_its_own() -> None:
    quiet = tone(CLOSELY_CUT_SECONDS, 0.001)
    assert speech_spans(sound_of([*tone(0.08, 0.5), *quiet]), LONGEST) == []


@pytest.mark.parametrize("sound", [tone(0.5, 0.3), tone(0.5, 0.0001), tone(0.06, 0.5)])
def test_steady_sound_silence_and_a_click_are_no_word(sound: np.ndarray) -> None:
    assert speech_spans(sound_of(sound), LONGEST) == []
