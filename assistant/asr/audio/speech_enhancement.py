"""How much noise is in a sound, and as much of it taken away as helps the engine.

Quiet sound is left as it is. The louder the noise, the more of it is taken away: what a denoiser
leaves of the words suffers a little, and a trace of the noise hides that.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Protocol

from boxaloud.assistant.asr.asr_types import Sound
from boxaloud.assistant.asr.audio.pause_segmentation import (
    MIN_DYNAMIC_RANGE_DB,
    NOISY_SPEECH_THRESHOLD,
    SPEECH_THRESHOLD,
    frame_levels,
    split,
)
from boxaloud.assistant.asr.audio.percentiles import percentile

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

#: Decibels from the background up to the words: above this nothing is taken away. Recordings in
#: a quiet room have 45 and more; at 15 dB of hammering, which has pauses, it looks like 36.
CLEAN_SNR_DB = 42.0
#: A shorter sound is cut to its only word, of which nothing may be lost.
MIN_NOISY_SECONDS = 1.2
#: Decibels of noise taken away, where the words rise so far above it.
ATTENUATION_DB = (24.0, 18.0)
ATTENUATION_AT_SNR_DB = (11.0, 16.0)


class DenoisingStream(Protocol):
    """What takes noise out of sound while it comes."""

    def feed(self, values: NDArray[np.float32]) -> None:
        """More sound: 16 kHz, from -1 to 1."""
        ...

    def finish(self) -> NDArray[np.float32]:
        """All that was fed, without its noise."""
        ...


class SpeechEnhancer:
    """Takes noise away with a stream that is made when first needed; with none, does nothing."""

    def __init__(self, make: Callable[[], DenoisingStream | None]) -> None:
        self._make = make
        self._stream: DenoisingStream | None = None
        self._made = False

    def begin(self) -> DenoisingStream | None:
        """The stream, ready for a new sound; None where there is no denoiser.

        What was fed of an older sound and never taken is forgotten.
        """
        if not self._made:
            self._stream, self._made = self._make(), True
        elif self._stream is not None:
            self._stream.finish()
        return self._stream

    def utterances(self, sound: Sound) -> tuple[Sound, ...]:
        """The utterances of a 16 kHz sound, with less noise."""
        return parted(self.clean(sound), sound)

    def clean(self, sound: Sound) -> Sound:
        """A 16 kHz sound with less noise; the sound itself where it is quiet enough."""
        above = estimate_snr_db(sound)
        if above >= CLEAN_SNR_DB or not sound.samples or (stream := self.begin()) is None:
            return sound
        stream.feed(values(sound.samples))
        return mix_denoised(sound, stream.finish(), above)


def parted(clean: Sound, raw: Sound) -> tuple[Sound, ...]:
    """The utterances of a sound freed of noise; `raw` is the sound before that.

    Nobody speaks in steady noise, though what a denoiser leaves of it comes and goes as words do.
    """
    above = estimate_snr_db(raw)
    if above < MIN_DYNAMIC_RANGE_DB:
        return ()
    quiet = above >= CLEAN_SNR_DB or clean.seconds < MIN_NOISY_SECONDS
    return split(clean, SPEECH_THRESHOLD if quiet else NOISY_SPEECH_THRESHOLD)


def estimate_snr_db(sound: Sound) -> float:
    """How far the words rise above the background, in decibels, as far as one can tell."""
    levels = frame_levels(sound)
    return percentile(levels, 95) - percentile(levels, 10) if levels else CLEAN_SNR_DB


def mix_denoised(sound: Sound, clean: NDArray[np.float32], above: float) -> Sound:
    """The sound with its noise taken down as far as fits how loud it is."""
    import numpy as np

    limit = float(np.interp(above, ATTENUATION_AT_SNR_DB, ATTENUATION_DB))
    share = np.float32(10 ** (-limit / 20))
    mixed = clean * (1 - share) + values(sound.samples) * share
    return Sound(np.rint(mixed.clip(-1, 1) * 32767).astype("<i2").tobytes(), sound.rate)


def values(samples: bytes) -> NDArray[np.float32]:
    """Samples as numbers from -1 to 1."""
    import numpy as np

    return np.frombuffer(samples, "<i2").astype(np.float32) / np.float32(32768)
