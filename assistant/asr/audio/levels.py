"""Is a sound fit to be heard? Too quiet, overdriven, or silent; and a steady level for engines."""

from __future__ import annotations

from boxaloud.assistant.asr.asr_types import RejectionReason, Sound
from boxaloud.assistant.asr.audio.pause_segmentation import frame_levels, pcm
from boxaloud.assistant.asr.audio.percentiles import percentile

#: Share of samples at full scale from which words are lost.
CLIPPED_SHARE = 0.005
FULL_SCALE = 32700
#: Speech quieter than this (decibels under full scale) drowns in a recorder's own hiss.
QUIET_DBFS = -45.0
SILENCE_DBFS = -60.0
#: Where speech is brought to before an engine hears it, and the most it is raised.
TARGET_DBFS = -18.0
MAX_GAIN_DB = 40.0


def speech_level_dbfs(sound: Sound) -> float:
    """The level of the loudest frames, in decibels under full scale; -120 for no sound."""
    levels = frame_levels(sound)
    return percentile(levels, 95) if levels else -120.0


def rejection_reason(sound: Sound) -> RejectionReason:
    """Why nothing was understood in a sound."""
    if _is_clipped(sound):
        return "clipped"
    level = speech_level_dbfs(sound)
    if level < SILENCE_DBFS:
        return "silence"
    return "quiet" if level < QUIET_DBFS else "unclear"


def _is_clipped(sound: Sound) -> bool:
    samples = pcm(sound)
    if not samples or (max(samples) < FULL_SCALE and min(samples) > -FULL_SCALE):
        return False
    return sum(abs(sample) >= FULL_SCALE for sample in samples) / len(samples) > CLIPPED_SHARE


def technical_trouble(sound: Sound) -> RejectionReason | None:
    """What is wrong with the sound itself, in case nothing is understood in it."""
    reason = rejection_reason(sound)
    return None if reason == "unclear" else reason


def normalise_level(sound: Sound) -> Sound:
    """The sound as loud as engines like it, never overdriven."""
    import numpy as np

    samples = np.frombuffer(sound.samples, "<i2").astype(np.float64)
    peak = float(np.abs(samples).max(initial=0.0))
    if peak == 0.0:
        return sound
    gain = 10 ** (min(TARGET_DBFS - speech_level_dbfs(sound), MAX_GAIN_DB) / 20)
    gain = min(gain, 32000 / peak)
    return Sound(np.rint(samples * gain).astype("<i2").tobytes(), sound.rate)
