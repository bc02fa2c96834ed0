"""An ear that mishears: words swapped for ones that sound close, lost, or put in from nowhere.

The confidences are invented, in the shape that the recognisers of the ears room give: words
heard right mostly near one (Beta(12, 0.7), mean 0.94), words heard wrong anywhere (Beta(3, 3),
mean 0.5) in seven cases of ten, and in three as sure as if they were right. The shares of the
three kinds of error are invented too: recognisers mostly swap words, and of what they lose or
put in most is short.
"""

from __future__ import annotations

import json
import math
import random
from pathlib import Path

from boxaloud.grammar.lexer.heard_words import Word

CLOSE: dict[str, list[tuple[str, float]]] = json.loads(
    Path(__file__).with_name("close_words.json").read_text(encoding="utf-8")
)
OVERSURE = 0.3
SHARPNESS = 4.0
LOST, PUT_IN = 0.18, 0.12
"""Shares of the errors that lose a word and that put one in; the rest swap one."""
SHORT = ["a", "the", "and", "of", "to", "in", "it", "is", "uh", "on", "for", "no", "two", "one"]
"""Words that noise is taken for."""
LONG = 3.0
"""A word of two letters is lost so many times as often as one of six or more."""


class Recogniser:
    """Gets each word wrong with probability `errors`. `swaps_only`: never loses one, nor puts
    one in."""

    def __init__(self, errors: float, dice: random.Random, swaps_only: bool = False) -> None:
        self.errors = errors
        self.dice = dice
        self.swaps_only = swaps_only
        self.wrong = 0
        self.words = 0

    def hear(self, said: str) -> list[Word]:
        heard = [word for each in said.split() for word in self._word(each)]
        return heard or [Word(said.split()[-1], self._right())]  # a line of nothing is no line

    def _word(self, word: str) -> list[Word]:
        self.words += 1
        if self.dice.random() >= self.errors:
            return [Word(word, self._right())]
        kind = self._kind(word)
        if kind == "lost":
            self.wrong += 1
            return []
        if kind == "put in":
            self.wrong += 1
            return [Word(word, self._right()), Word(self.dice.choice(SHORT), self._wrong())]
        near = CLOSE.get(word, [])
        if not near and (self.swaps_only or word in CLOSE):
            return [Word(word, self._right())]
        self.wrong += 1
        if not near:  # a word that the recogniser does not know
            return [Word(self.dice.choice(SHORT), self._wrong())]
        weights = [math.exp(-SHARPNESS * far) for _, far in near]
        (other, _), *_ = self.dice.choices(near, weights)
        return [Word(other, self._wrong())]

    def _kind(self, word: str) -> str:
        if self.swaps_only:
            return "swapped"
        short = min(max(6 - len(word), 0), 4) / 4  # 1 at two letters, 0 from six on
        lost = LOST * (1 + (LONG - 1) * short) / 2
        weights = [1 - lost - PUT_IN, lost, PUT_IN]
        return self.dice.choices(["swapped", "lost", "put in"], weights)[0]

    def _right(self) -> float:
        return round(self.dice.betavariate(12, 0.7), 3)

    def _wrong(self) -> float:
        sure = self._right() if self.dice.random() < OVERSURE else self.dice.betavariate(3, 3)
        return round(sure, 3)
