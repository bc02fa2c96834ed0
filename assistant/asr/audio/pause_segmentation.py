"""A recording cut at its pauses: one piece for each utterance."""

from __future__ import annotations

import math
import sys
from array import array
from collections.abc import Sequence
from functools import lru_cache
from operator import mul

from boxaloud.assistant.asr.asr_types import Sound
from boxaloud.assistant.asr.audio.percentiles import percentile

FRAME_SECONDS = 0.02
#: A silence as long as this parts two utterances.
MIN_PAUSE_SECONDS = 0.7
#: A knock or a click is shorter than any word.
MIN_SPEECH_SECONDS = 0.12
#: Sound kept before and after the words, which begin and end softer than they are.
PADDING_SECONDS = 0.2
#: Where a recording begins or ends within the words, room sound of its own level is added, at
#: most this far (decibels) under the words: engines need to hear where speech begins.
COMFORT_NOISE_DB = 45.0
#: Below this level (decibels under full scale) there is nothing to hear.
SILENCE_DBFS = -60.0
#: Speech rises and falls at least this much; steadier sound is a machine or a room.
MIN_DYNAMIC_RANGE_DB = 4.0
#: How far from the background up to the loudest a frame must be to be speech; and where there is
#: noise, which rises too.
SPEECH_THRESHOLD = 0.3
NOISY_SPEECH_THRESHOLD = 0.5


def split(sound: Sound, share: float = SPEECH_THRESHOLD) -> tuple[Sound, ...]:
    """The utterances of a recording in order; none where nothing rises above the background.

    `share`: how far from the background up to the loudest speech begins.
    """
    levels = frame_levels(sound)
    spans = _merge_spans(speech_mask(levels, share))
    return tuple(_padded_segment(sound, start, end, levels) for start, end in spans)


def spans(sound: Sound, share: float = SPEECH_THRESHOLD) -> list[tuple[float, float]]:
    """From when to when, in seconds, each utterance of a recording lasts."""
    found = _merge_spans(speech_mask(frame_levels(sound), share))
    return [(start * FRAME_SECONDS, end * FRAME_SECONDS) for start, end in found]


def _padded_segment(sound: Sound, start: int, end: int, levels: Sequence[float]) -> Sound:
    """The frames from `start` to `end` with a margin of quiet, added where there is none."""
    margin = int(PADDING_SECONDS / FRAME_SECONDS)
    frame = int(FRAME_SECONDS * sound.rate) * 2
    first, last = max(0, start - margin), min(len(levels), end + margin)
    before = _comfort_noise(levels, (margin - (start - first)) * frame // 2)
    after = _comfort_noise(levels, (margin - (last - end)) * frame // 2)
    return Sound(before + sound.samples[first * frame : last * frame] + after, sound.rate)


def _comfort_noise(levels: Sequence[float], samples: int) -> bytes:
    """Noise as loud as the background, the same each time."""
    import numpy as np

    floor, top = percentile(levels, 10), percentile(levels, 98)
    loud = 32768 * 10 ** (min(floor, top - COMFORT_NOISE_DB) / 20)
    noise = np.random.default_rng(samples).normal(0, loud, samples)
    return noise.clip(-32768, 32767).astype("<i2").tobytes()


@lru_cache(maxsize=2)
def frame_levels(sound: Sound) -> tuple[float, ...]:
    """The level of every whole frame of 20 ms, in decibels under full scale.

    Remembered of the last two sounds: each is asked for again and again while it is heard.
    """
    samples = pcm(sound)
    frame = int(FRAME_SECONDS * sound.rate)
    levels = []
    for start in range(0, len(samples) - frame + 1, frame):
        every = samples[start : start + frame]
        whole = sum(every)
        power = (frame * sum(map(mul, every, every)) - whole * whole) / (frame * 32768) ** 2
        levels.append(10 * math.log10(power + 1e-12))
    return tuple(levels)


def pcm(sound: Sound) -> array[int]:
    """The samples as whole numbers."""
    samples = array("h", sound.samples)
    if sys.byteorder == "big":
        samples.byteswap()
    return samples


def speech_mask(levels: Sequence[float], share: float) -> list[bool]:
    """Which frames are so loud that they are speech; none where all are as loud."""
    if not levels:
        return []
    floor, top = percentile(levels, 10), percentile(levels, 98)
    if top < SILENCE_DBFS or top - floor < MIN_DYNAMIC_RANGE_DB:
        return [False] * len(levels)
    return [level > floor + share * (top - floor) for level in levels]


def _merge_spans(speaking: Sequence[bool]) -> list[tuple[int, int]]:
    """Runs of speech, joined over short pauses, without those too short to be a word."""
    pause = MIN_PAUSE_SECONDS / FRAME_SECONDS
    joined: list[list[int]] = []
    for frame in (at for at, speaks in enumerate(speaking) if speaks):
        if joined and frame - joined[-1][1] < pause:
            joined[-1][1] = frame + 1
            joined[-1][2] += 1
        else:
            joined.append([frame, frame + 1, 1])
    shortest = MIN_SPEECH_SECONDS / FRAME_SECONDS
    return [(start, end) for start, end, loud in joined if loud >= shortest]
