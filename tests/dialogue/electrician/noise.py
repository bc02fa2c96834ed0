"""An ear that mishears: words swapped for ones that sound close, with confidences.

The confidences are invented, in the shape that the recognisers of the ears room give: words
heard right mostly near one (Beta(12, 0.7), mean 0.94), words heard wrong anywhere (Beta(3, 3),
mean 0.5) in seven cases of ten, and in three as sure as if they were right.
"""

from __future__ import annotations

import json
import math
import random
from pathlib import Path

from grammar.words import Word

CLOSE: dict[str, list[tuple[str, float]]] = json.loads(
    Path(__file__).with_name("close_words.json").read_text(encoding="utf-8")
)
OVERSURE = 0.3
SHARPNESS = 4.0


class Ear:
    """Mishears each word with probability `errors`."""

    def __init__(self, errors: float, dice: random.Random) -> None:
        self.errors = errors
        self.dice = dice
        self.wrong = 0
        self.words = 0

    def hear(self, said: str) -> list[Word]:
        return [self._word(word) for word in said.split()]

    def _word(self, word: str) -> Word:
        self.words += 1
        near = CLOSE.get(word, [])
        if not near or self.dice.random() >= self.errors:
            return Word(word, self._right())
        self.wrong += 1
        weights = [math.exp(-SHARPNESS * far) for _, far in near]
        (other, _), *_ = self.dice.choices(near, weights)
        sure = self._right() if self.dice.random() < OVERSURE else self.dice.betavariate(3, 3)
        return Word(other, round(sure, 3))

    def _right(self) -> float:
        return round(self.dice.betavariate(12, 0.7), 3)
