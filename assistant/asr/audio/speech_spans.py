"""From when to when speech lasts in a sound, for an engine that hears each stretch by itself."""

from __future__ import annotations

from itertools import pairwise
from typing import TypeAlias

from boxaloud.assistant.asr.asr_types import Sound
from boxaloud.assistant.asr.audio.pause_segmentation import (
    FRAME_SECONDS,
    MIN_SPEECH_SECONDS,
    NOISY_SPEECH_THRESHOLD,
    SPEECH_THRESHOLD,
    frame_levels,
    spans,
    speech_mask,
)
from boxaloud.assistant.asr.audio.speech_enhancement import CLEAN_SNR_DB, estimate_snr_db

#: From when to when, in seconds.
Span: TypeAlias = tuple[float, float]
#: A recording no longer than this that begins or ends within speech is one short answer, cut
#: closely: it has no background from which speech could be told.
CLOSELY_CUT_SECONDS = 1.0
#: So near to an end speech begins or ends there.
AT_AN_END_SECONDS = 0.06


def speech_spans(sound: Sound, longest: float) -> list[Span]:
    """Each stretch of speech, in order; one of more than `longest` seconds in equal parts."""
    quiet = estimate_snr_db(sound) >= CLEAN_SNR_DB
    parts: list[Span] = []
    for start, end in spans(sound, SPEECH_THRESHOLD if quiet else NOISY_SPEECH_THRESHOLD):
        number = int((end - start) / longest) + 1
        length = (end - start) / number
        parts += pairwise([*(start + length * at for at in range(number)), end])
    return parts or _closely_cut(sound)


def _closely_cut(sound: Sound) -> list[Span]:
    """All of a short recording that begins or ends within speech; nothing of any other."""
    speaking = speech_mask(frame_levels(sound), SPEECH_THRESHOLD)
    seconds = len(speaking) * FRAME_SECONDS
    near = round(AT_AN_END_SECONDS / FRAME_SECONDS)
    short = MIN_SPEECH_SECONDS <= seconds <= CLOSELY_CUT_SECONDS
    return [(0.0, seconds)] if short and any((*speaking[:near], *speaking[-near:])) else []
