"""Is a sound fit to be heard? Too quiet, overdriven, or silent; and a steady level for engines."""

from __future__ import annotations

from boxaloud.assistant.ears.hearing import Sound, Trouble
from boxaloud.assistant.ears.split import frame_levels

#: Share of samples at full scale from which words are lost.
CLIPPED_SHARE = 0.005
FULL_SCALE = 32700
#: Speech quieter than this (decibels under full scale) drowns in a recorder's own hiss.
QUIET_DB = -45.0
SILENT_DB = -60.0
#: Where speech is brought to before an engine hears it, and the most it is raised.
WANTED_DB = -18.0
MOST_GAIN_DB = 40.0


def loudness(sound: Sound) -> float:
    """The level of the loudest frames, in decibels under full scale; -120 for no sound."""
    import numpy as np

    levels = frame_levels(sound)
    return float(np.percentile(levels, 95)) if len(levels) else -120.0


def reason(sound: Sound) -> Trouble:
    """Why nothing was understood in a sound."""
    import numpy as np

    samples = np.abs(np.frombuffer(sound.samples, "<i2").astype(np.int32))
    if len(samples) and float((samples >= FULL_SCALE).mean()) > CLIPPED_SHARE:
        return "clipped"
    level = loudness(sound)
    if level < SILENT_DB:
        return "silence"
    return "quiet" if level < QUIET_DB else "unclear"


def levelled(sound: Sound) -> Sound:
    """The sound as loud as engines like it, never overdriven."""
    import numpy as np

    samples = np.frombuffer(sound.samples, "<i2").astype(np.float64)
    peak = float(np.abs(samples).max(initial=0.0))
    if peak == 0.0:
        return sound
    gain = 10 ** (min(WANTED_DB - loudness(sound), MOST_GAIN_DB) / 20)
    gain = min(gain, 32000 / peak)
    return Sound(np.rint(samples * gain).astype("<i2").tobytes(), sound.rate)
