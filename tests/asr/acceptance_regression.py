"""The logistic regression that tells how likely a hearing is right, and from where on it enters."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, fields
from typing import Literal

import numpy as np
from boxaloud.assistant.asr.hypotheses.acceptance import FEW_WORDS, Features
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


def few(row: Row) -> bool:
    """Whether so few words were heard that `ask_few` holds for them."""
    place = [field.name for field in fields(Features)].index("shortness")
    return row.features[place] >= 1 / FEW_WORDS


def trade(found: Sequence[tuple[float, Row]]) -> str:
    """Of few words, how many enter at each threshold: answers rightly, others wrongly."""
    lines = ["| few words, asked under | right | wrong |", "| --- | --- | --- |"]
    for least in (0.86, 0.88, 0.90, 0.91, 0.92, 0.93, 0.935, 0.94, 0.95):
        entered = [row.right for likely, row in found if few(row) and likely >= least]
        lines.append(f"| {least} | {sum(entered)} | {len(entered) - sum(entered)} |")
    return "\n".join(lines)
