"""Sound as the network takes it: how loud each of 80 bands is, a hundred times a second."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

RATE = 16000
WINDOW_SAMPLES = 400
HOP_SAMPLES = 160
MEL_BANDS = 80
#: Below the loudest, in tenfold steps of power, nothing is told apart.
DYNAMIC_RANGE_LOG10 = 8.0
#: No band has less power.
LEAST_POWER = 1e-10
#: The bands are evenly spaced up to 1000 Hz and by ratio above it (Slaney's mel scale).
LINEAR_HZ_PER_MEL = 200 / 3
LOG_REGION_HZ = 1000.0
LOG_STEP = 6.4 ** (1 / 27)


def spectrum(values: NDArray[np.float32], seconds: float) -> NDArray[np.float32]:
    """The logarithm of the power in every band, frames by bands, for so many `seconds`.

    `values` are samples from -1 to 1 at `RATE`; quiet is added where they are fewer.
    """
    import numpy as np

    frames = int(seconds * RATE / HOP_SAMPLES) // 2 * 2
    length = frames * HOP_SAMPLES
    padded = np.pad(values[:length], (0, max(0, length - len(values))))
    padded = np.pad(padded, WINDOW_SAMPLES // 2, mode="reflect")
    windows = np.lib.stride_tricks.sliding_window_view(padded, WINDOW_SAMPLES)[::HOP_SAMPLES][
        :frames
    ]
    hann = np.hanning(WINDOW_SAMPLES + 1)[:-1].astype(np.float32)
    power = np.abs(np.fft.rfft(windows * hann, axis=1)).astype(np.float32) ** 2
    levels = np.log10(np.maximum(power @ mel_filter_bank().T, LEAST_POWER))
    raised: NDArray[np.float32] = (np.maximum(levels, levels.max() - DYNAMIC_RANGE_LOG10) + 4) / 4
    return raised.astype(np.float32)


@lru_cache(maxsize=1)
def mel_filter_bank() -> NDArray[np.float32]:
    """The weight of every frequency in every band: triangles of equal area."""
    import numpy as np

    bend = LOG_REGION_HZ / LINEAR_HZ_PER_MEL
    highest = bend + np.log(RATE / 2 / LOG_REGION_HZ) / np.log(LOG_STEP)
    steps = np.linspace(0, highest, MEL_BANDS + 2)
    edges = np.where(
        steps < bend, steps * LINEAR_HZ_PER_MEL, LOG_REGION_HZ * LOG_STEP ** (steps - bend)
    )
    hertz = np.fft.rfftfreq(WINDOW_SAMPLES, 1 / RATE)
    widths = np.diff(edges)
    away = edges[:, None] - hertz[None]
    rising, falling = -away[:-2] / widths[:-1, None], away[2:] / widths[1:, None]
    triangles = np.maximum(0, np.minimum(rising, falling))
    weights: NDArray[np.float32] = triangles * (2 / (edges[2:] - edges[:-2]))[:, None]
    return weights.astype(np.float32)
