"""From when to when speech lasts in a sound, for an engine that hears each stretch by itself."""

from __future__ import annotations

from itertools import pairwise
from typing import TypeAlias

from boxaloud.assistant.asr.asr_types import Sound
from boxaloud.assistant.asr.audio.pause_segmentation import (
    NOISY_SPEECH_THRESHOLD,
    SPEECH_THRESHOLD,
    spans,
)
from boxaloud.assistant.asr.audio.speech_enhancement import CLEAN_SNR_DB, estimate_snr_db

#: From when to when, in seconds.
Span: TypeAlias = tuple[float, float]


def speech_spans(sound: Sound, longest: float) -> list[Span]:
    """Each stretch of speech, in order; one of more than `longest` seconds in equal parts."""
    quiet = estimate_snr_db(sound) >= CLEAN_SNR_DB
    parts: list[Span] = []
    for start, end in spans(sound, SPEECH_THRESHOLD if quiet else NOISY_SPEECH_THRESHOLD):
        number = int((end - start) / longest) + 1
        length = (end - start) / number
        parts += pairwise([*(start + length * at for at in range(number)), end])
    return parts
