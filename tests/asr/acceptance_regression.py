"""The logistic regression that tells how likely a hearing is right, and from where on it enters."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

PENALTY = 0.1
Kind = Literal["quiet statement", "statement", "answer", "other"]
#: Shares that may enter wrongly and unasked: of statements in a quiet room, of those in noise, by
#: telephone or cut, and of other talk.
WRONG: dict[Kind, float] = {"quiet statement": 0.01, "statement": 0.03, "other": 0.02}
Matrix = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Row:
    """What was measured of a hearing, and whether it was right."""

    voice: str
    kind: Kind
    features: tuple[float, ...]
    right: bool
    text: str = ""


def fitted(rows: Sequence[Row]) -> Matrix:
    """The weights, the intercept last."""
    x = np.array([[*row.features, 1.0] for row in rows])
    y = np.array([row.right for row in rows], float)
    penalty = np.diag([PENALTY] * (x.shape[1] - 1) + [1e-6])
    weights = np.zeros(x.shape[1])
    for _ in range(50):
        likely = 1 / (1 + np.exp(-x @ weights))
        slope = x.T @ (likely - y) + penalty @ weights
        bend = (x.T * (likely * (1 - likely))) @ x + penalty
        weights -= np.linalg.solve(bend, slope)
    return weights


def foretold(rows: Sequence[Row], weights: Matrix) -> Matrix:
    x = np.array([[*row.features, 1.0] for row in rows])
    likely: Matrix = 1 / (1 + np.exp(-x @ weights))
    return likely


def left_out(rows: Sequence[Row]) -> list[tuple[float, Row]]:
    """Every row as it is foretold by weights that were fitted without its voice."""
    found: list[tuple[float, Row]] = []
    for voice in dict.fromkeys(row.voice for row in rows):
        weights = fitted([row for row in rows if row.voice != voice])
        own = [row for row in rows if row.voice == voice]
        found += zip(foretold(own, weights).tolist(), own, strict=True)
    return found


def threshold(found: Sequence[tuple[float, Row]], sounds: Counter[Kind]) -> float:
    """The lowest probability from which on few enough of all `sounds` of each kind are wrong."""
    return max(_threshold(found, kind, share * sounds[kind]) for kind, share in WRONG.items())


def _threshold(found: Sequence[tuple[float, Row]], kind: Kind, most: float) -> float:
    own = [(likely, row.right) for likely, row in found if row.kind == kind]
    wrong = 0
    for likely, right in sorted(own, reverse=True):
        wrong += not right
        if wrong > most:
            return min(0.97, likely + 0.005)
    return 0.5
