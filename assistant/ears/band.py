"""Telephone sound: what a headset or a call cut off above 4 kHz is put back, as it mostly was.

The engine's model knows voices up to 7 kHz and takes an empty upper half for a strange voice.
What belongs there is foretold from the lower half, frame by frame, by a linear rule learnt from
the recordings of audio_fixtures/ (tests/ears/learn_upper_band.py), and filled in as noise.
"""

from __future__ import annotations

import tomllib
from functools import lru_cache
from importlib.resources import files
from typing import TYPE_CHECKING

from boxaloud.assistant.ears.hearing import Sound

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

RATE = 16000
WINDOW = 512
STEP = 160
#: Edges of the bands, in Hz: those that are known, and those that are put back.
LOWER = (150.0, 3700.0, 12)
UPPER = (3900.0, 7000.0, 4)
#: Above this (Hz) a telephone has cut everything off, down to so far (decibels) under the rest.
CUT = 4300.0
CUT_DB = -45.0
#: Logarithms of power are not followed further down than this, from the loudest frame.
DEEPEST = -12.0


def telephone(sound: Sound) -> bool:
    """True where the upper half of a 16 kHz sound is empty, and the lower is not."""
    import numpy as np

    power = (np.abs(spectra(_values(sound))) ** 2).mean(axis=0)
    high = np.fft.rfftfreq(WINDOW, 1 / RATE) > CUT
    lower, upper = float(power[~high].sum()), float(power[high].sum())
    return lower > 0 and upper < lower * 10 ** (CUT_DB / 10)


def widened(sound: Sound) -> Sound:
    """The sound with an upper half, as long as it was."""
    import numpy as np

    values = _values(sound)
    known = spectra(values)
    levels, loudest = lower_levels(known)
    ones = np.ones((len(levels), 1))
    foretold = np.hstack([levels, ones]) @ np.array(_rule()).T + loudest
    added = np.zeros_like(known)
    noise = spectra(np.random.default_rng(1).normal(0, 1, len(values)))
    for band, level in zip(_bands(UPPER), foretold.T, strict=True):
        own = np.log((np.abs(noise[:, band]) ** 2).mean(axis=1) + 1e-9)
        added[:, band] = noise[:, band] * np.exp((level - own) / 2)[:, None]
    filled = values + _joined(added, len(values))
    return Sound(np.rint(filled.clip(-1, 1) * 32767).astype("<i2").tobytes(), RATE)


def spectra(values: NDArray[np.float64]) -> NDArray[np.complex128]:
    """The spectrum of every window, each `STEP` samples after the one before."""
    import numpy as np

    padded = np.pad(values, WINDOW)
    windows = np.lib.stride_tricks.sliding_window_view(padded, WINDOW)[::STEP]
    return np.fft.rfft(windows * np.hanning(WINDOW), axis=1)


def lower_levels(known: NDArray[np.complex128]) -> tuple[NDArray[np.float64], float]:
    """Logarithms of power in the known bands, from the loudest frame down; and its level."""
    import numpy as np

    levels = band_levels(known, LOWER)
    loudest = float(np.log(np.exp(levels).mean(axis=1)).max(initial=-20.0))
    return np.maximum(levels - loudest, DEEPEST), loudest


def band_levels(
    known: NDArray[np.complex128], bands: tuple[float, float, int]
) -> NDArray[np.float64]:
    """The logarithm of the power of every frame in every band."""
    import numpy as np

    power = np.abs(known) ** 2
    levels = [np.log(1e-9 + power[:, band].mean(axis=1)) for band in _bands(bands)]
    return np.stack(levels, axis=1)


def _bands(edges: tuple[float, float, int]) -> list[NDArray[np.bool_]]:
    """Which bins of a spectrum belong to each band; bands are as wide as the ear hears them."""
    from itertools import pairwise

    import numpy as np

    low, high, number = edges
    bins = np.fft.rfftfreq(WINDOW, 1 / RATE)
    mels = np.linspace(_mel(low), _mel(high), number + 1)
    hertz = 700 * (10 ** (mels / 2595) - 1)
    return [(bins >= start) & (bins < end) for start, end in pairwise(hertz)]


def _mel(hertz: float) -> float:
    import math

    return 2595 * math.log10(1 + hertz / 700)


def _joined(spectra: NDArray[np.complex128], length: int) -> NDArray[np.float64]:
    """Windows laid over each other again."""
    import numpy as np

    window = np.hanning(WINDOW)
    pieces = np.fft.irfft(spectra, axis=1) * window
    whole = np.zeros(STEP * len(pieces) + WINDOW)
    weight = np.full(len(whole), 1e-3)
    for number, piece in enumerate(pieces):
        whole[number * STEP : number * STEP + WINDOW] += piece
        weight[number * STEP : number * STEP + WINDOW] += window**2
    joined: NDArray[np.float64] = (whole / weight)[WINDOW : WINDOW + length]
    return joined


def _values(sound: Sound) -> NDArray[np.float64]:
    import numpy as np

    return np.frombuffer(sound.samples, "<i2") / 32768


@lru_cache(maxsize=1)
def _rule() -> list[list[float]]:
    """For each upper band what each lower one adds to it, and a constant."""
    text = files("boxaloud.assistant.ears").joinpath("data/upper_band.toml").read_text("utf-8")
    rule: list[list[float]] = tomllib.loads(text)["rule"]
    return rule
