"""How the trade goes on: how likely every word is after two others, from the ears' own models."""

from __future__ import annotations

import math
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

#: The base that the embedded engine's models count in.
LOG_BASE = 1.0001
SENTENCE_START, END = "<s>", "</s>"


class TrigramScorer:
    """A model of word triples, asked for all words at once. What was asked is remembered."""

    def __init__(self, model: Path, words: Sequence[str]) -> None:
        from pocketsphinx import NGramModel

        self._model = NGramModel.readfile(str(model))
        self._words = [*words, END]
        self._cache: dict[tuple[str, ...], NDArray[np.float64]] = {}

    def after(self, before: tuple[str, ...]) -> NDArray[np.float64]:
        """The logarithm of how likely each word is after these two at most, and the end, last."""
        if before not in self._cache:
            backwards = list(reversed(before))
            found = [self._model.prob([word, *backwards]) for word in self._words]
            self._cache[before] = np.array(found) * math.log(LOG_BASE)
        return self._cache[before]
