"""Is somebody speaking in this frame? By the engine's own detector, and louder than the room.

The detector alone takes a drill for a voice. So a frame must also stand out of the room in some
of the bands that speech is made of; each band is compared with itself, and neither the low hum of
a motor nor the hiss of air hides the others.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Sequence
from typing import TypeAlias

from boxaloud.assistant.asr.audio.audio_devices import FRAME_SAMPLES, FRAME_SECONDS, SAMPLE_RATE

#: Says of one frame whether it is speech.
SpeechClassifier: TypeAlias = Callable[[bytes], bool]

#: The bands' edges, in hertz.
BAND_EDGES_HZ = (250, 500, 900, 1600, 2600, 4000)
#: How long the room is remembered, to know how loud it is by itself.
NOISE_FLOOR_SECONDS = 3.0
#: How far the two bands that stand out most must do so, and a level that is nothing at all.
SNR_THRESHOLD_DB = 7.5
SILENCE_DBFS = -70.0
#: How strict the detector is, 0 to 3. These are measured by tests/asr/measure_endpointing.py.
STRICTNESS = 2


class RoomBands:
    """Tells frames that stand out of the room. Call it with the bands of each, in order."""

    def __init__(self, above: float = SNR_THRESHOLD_DB) -> None:
        self._threshold = above
        self._recent: deque[Sequence[float]] = deque(
            maxlen=int(NOISE_FLOOR_SECONDS / FRAME_SECONDS)
        )

    def __call__(self, bands: Sequence[float]) -> bool:
        """True where the two bands that stand out most do so far enough. `bands` are levels in
        decibels under full scale, between `BAND_EDGES_HZ`."""
        self._recent.append(bands)
        low = len(self._recent) // 10
        room: list[float] = [sorted(band)[low] for band in zip(*self._recent, strict=True)]
        excess: list[float] = sorted(
            level - max(floor, SILENCE_DBFS) for level, floor in zip(bands, room, strict=True)
        )
        return sum(excess[-2:]) / 2 > self._threshold


class VoiceActivityDetector:
    """Tells speech from a room, frame by frame. Call it with frames of 20 ms in order."""

    def __init__(self, strictness: int = STRICTNESS, above: float = SNR_THRESHOLD_DB) -> None:
        from pocketsphinx import Vad

        self._vad = Vad(strictness, SAMPLE_RATE, FRAME_SECONDS)
        self._stands_out = RoomBands(above)

    def __call__(self, samples: bytes) -> bool:
        """True where the frame is speech."""
        return self._stands_out(band_levels(samples)) and bool(self._vad.is_speech(samples))


def decibels(samples: bytes) -> float:
    """The level of some samples, in decibels under full scale; -120 for nothing."""
    import numpy as np

    values = np.frombuffer(samples, "<i2").astype(np.float64) / 32768
    power = float(values.var()) if len(values) else 0.0
    return float(10 * np.log10(power + 1e-12))


def band_levels(samples: bytes) -> list[float]:
    """The level of each band, in decibels under full scale."""
    import numpy as np

    values = np.frombuffer(samples, "<i2").astype(np.float64) / 32768
    spectrum = np.abs(np.fft.rfft(values * np.hanning(len(values)), FRAME_SAMPLES)) ** 2
    edges = [edge * FRAME_SAMPLES // SAMPLE_RATE for edge in BAND_EDGES_HZ]
    power = np.add.reduceat(spectrum[: edges[-1]], edges[:-1]) / FRAME_SAMPLES**2
    levels: list[float] = (10 * np.log10(power + 1e-12)).tolist()
    return levels
