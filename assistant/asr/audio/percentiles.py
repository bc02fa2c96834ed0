"""How loud most of a sound is: percentiles of a row of numbers, without an array library."""

from __future__ import annotations

from collections.abc import Sequence


def percentile(values: Sequence[float], share: float) -> float:
    """The value below which `share` per cent of the values lie, straight between two neighbours.

    Raises:
        IndexError: there are no values.
    """
    ranked = sorted(values)
    place = (len(ranked) - 1) * share / 100
    below = int(place)
    above = min(below + 1, len(ranked) - 1)
    return ranked[below] + (ranked[above] - ranked[below]) * (place - below)
