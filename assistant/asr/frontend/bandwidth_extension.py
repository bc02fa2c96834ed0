"""Telephone sound: what a headset or a call cut off above 4 kHz is put back, as it mostly was.

The engine's model knows voices up to 7 kHz and takes an empty upper half for a strange voice.
What belongs there is foretold from the lower half, frame by frame, by a linear rule learnt from
the recordings of audio_fixtures/ (tests/asr/fit_bandwidth_extension.py), and filled in as noise.
"""

from __future__ import annotations

import tomllib
from functools import lru_cache
from importlib.resources import files
from typing import TYPE_CHECKING

from boxaloud.assistant.asr.asr_types import Sound

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

RATE = 16000
WINDOW_SAMPLES = 512
#: A long sound is looked at by the minute: its spectra take thirty times its room.
PIECE_BYTES = 60 * RATE * 2
STEP = 160
#: Edges of the bands, in Hz: those that are known, and those that are put back.
NARROWBAND = (150.0, 3700.0, 12)
EXTENSION_BAND = (3900.0, 7000.0, 4)
#: Above this (Hz) a telephone has cut everything off, down to so far (decibels) under the rest.
CUTOFF_HZ = 4300.0
CUTOFF_DB = -45.0
#: Logarithms of power are not followed further down than this, from the loudest frame.
LOG_POWER_FLOOR = -12.0


def telephone(sound: Sound) -> bool:
    """True where the upper half of a 16 kHz sound is empty, and the lower is not."""
    import numpy as np

    power = np.zeros(WINDOW_SAMPLES // 2 + 1)
    for start in range(0, len(sound.samples), PIECE_BYTES):
        piece = Sound(sound.samples[start : start + PIECE_BYTES])
        power += (np.abs(spectra(_to_float(piece))) ** 2).sum(axis=0)
    high = np.fft.rfftfreq(WINDOW_SAMPLES, 1 / RATE) > CUTOFF_HZ
    lower, upper = float(power[~high].sum()), float(power[high].sum())
    return lower > 0 and upper < lower * 10 ** (CUTOFF_DB / 10)


def extend_bandwidth(sound: Sound) -> Sound:
    """The sound with an upper half, as long as it was."""
    import numpy as np

    values = _to_float(sound)
    known = spectra(values)
    levels, loudest = narrowband_log_power(known)
    ones = np.ones((len(levels), 1))
    foretold = np.hstack([levels, ones]) @ np.array(_regression_weights()).T + loudest
    added = np.zeros_like(known)
    noise = spectra(np.random.default_rng(1).normal(0, 1, len(values)))
    for band, level in zip(_mel_bands(EXTENSION_BAND), foretold.T, strict=True):
        own = np.log((np.abs(noise[:, band]) ** 2).mean(axis=1) + 1e-9)
        added[:, band] = noise[:, band] * np.exp((level - own) / 2)[:, None]
    filled = values + _overlap_add(added, len(values))
    return Sound(np.rint(filled.clip(-1, 1) * 32767).astype("<i2").tobytes(), RATE)


def spectra(values: NDArray[np.float64]) -> NDArray[np.complex128]:
    """The spectrum of every window, each `STEP` samples after the one before."""
    import numpy as np

    padded = np.pad(values, WINDOW_SAMPLES)
    windows = np.lib.stride_tricks.sliding_window_view(padded, WINDOW_SAMPLES)[::STEP]
    return np.fft.rfft(windows * np.hanning(WINDOW_SAMPLES), axis=1)


def narrowband_log_power(known: NDArray[np.complex128]) -> tuple[NDArray[np.float64], float]:
    """Logarithms of power in the known bands, from the loudest frame down; and its level."""
    import numpy as np

    levels = band_log_power(known, NARROWBAND)
    loudest = float(np.log(np.exp(levels).mean(axis=1)).max(initial=-20.0))
    return np.maximum(levels - loudest, LOG_POWER_FLOOR), loudest


def band_log_power(
    known: NDArray[np.complex128], bands: tuple[float, float, int]
) -> NDArray[np.float64]:
    """The logarithm of the power of every frame in every band."""
    import numpy as np

    power = np.abs(known) ** 2
    levels = [np.log(1e-9 + power[:, band].mean(axis=1)) for band in _mel_bands(bands)]
    return np.stack(levels, axis=1)


def _mel_bands(edges: tuple[float, float, int]) -> list[NDArray[np.bool_]]:
    """Which bins of a spectrum belong to each band; bands are as wide as the ear hears them."""
    from itertools import pairwise

    import numpy as np

    low, high, number = edges
    bins = np.fft.rfftfreq(WINDOW_SAMPLES, 1 / RATE)
    mels = np.linspace(_hz_to_mel(low), _hz_to_mel(high), number + 1)
    hertz = 700 * (10 ** (mels / 2595) - 1)
    return [(bins >= start) & (bins < end) for start, end in pairwise(hertz)]


def _hz_to_mel(hertz: float) -> float:
    import math

    return 2595 * math.log10(1 + hertz / 700)


def _overlap_add(spectra: NDArray[np.complex128], length: int) -> NDArray[np.float64]:
    """Windows laid over each other again."""
    import numpy as np

    window = np.hanning(WINDOW_SAMPLES)
    pieces = np.fft.irfft(spectra, axis=1) * window
    whole = np.zeros(STEP * len(pieces) + WINDOW_SAMPLES)
    weight = np.full(len(whole), 1e-3)
    for number, piece in enumerate(pieces):
        whole[number * STEP : number * STEP + WINDOW_SAMPLES] += piece
        weight[number * STEP : number * STEP + WINDOW_SAMPLES] += window**2
    joined: NDArray[np.float64] = (whole / weight)[WINDOW_SAMPLES : WINDOW_SAMPLES + length]
    return joined


def _to_float(sound: Sound) -> NDArray[np.float64]:
    import numpy as np

    return np.frombuffer(sound.samples, "<i2") / 32768


@lru_cache(maxsize=1)
def _regression_weights() -> list[list[float]]:
    """For each upper band what each lower one adds to it, and a constant."""
    text = files("boxaloud.assistant.asr").joinpath("data/upper_band.toml").read_text("utf-8")
    rule: list[list[float]] = tomllib.loads(text)["rule"]
    return rule
