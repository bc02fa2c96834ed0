"""Percentiles as the array library makes them."""

from __future__ import annotations

import numpy as np
import pytest
from boxaloud.assistant.asr.audio.pause_segmentation import frame_levels
from boxaloud.assistant.asr.audio.percentiles import percentile
from recordings import samples_of, sound_of


@pytest.mark.parametrize("count", [1, 2, 9, 150])
@pytest.mark.parametrize("share", [0, 10, 80, 95, 98, 100])
def test_they_are_what_the_array_library_makes(count: int, share: int) -> None:
    values = np.random.default_rng(count).normal(0, 10, count)
    assert percentile(values.tolist(), share) == pytest.approx(float(np.percentile(values, share)))


def test_levels_are_the_variance_of_each_frame() -> None:
    """20 ms at 16 kHz are 320 samples; what is left over is no frame."""
    sound = sound_of(np.random.default_rng(1).normal(0.1, 0.05, 1000))
    frames = samples_of(sound)[:960].reshape(3, 320)
    assert frame_levels(sound) == pytest.approx((10 * np.log10(frames.var(axis=1))).tolist())
