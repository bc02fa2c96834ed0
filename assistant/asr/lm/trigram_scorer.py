"""How the trade goes on: how likely every word is after two others, from the ears' own models.

The models are files in the ARPA form: sections of n-grams, each line the logarithm (base 10) of a
likelihood, the words, and what is added where one backs off from them (Katz, 1987).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from pathlib import Path

import numpy as np
from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_messages import say
from numpy.typing import NDArray

SENTENCE_START, END = "<s>", "</s>"
#: What a word is given that the model has not: as good as impossible.
UNKNOWN_LOG10 = -20.0
_Row = tuple[tuple[str, ...], float, float]


class TrigramScorer:
    """A model of word triples, asked for all words at once. What was asked is remembered.

    Raises:
        AsrError: the file is no model in the ARPA form.
    """

    def __init__(self, model: Path, words: Sequence[str]) -> None:
        self._place = {word: place for place, word in enumerate((*words, END))}
        self._unigrams = np.full(len(self._place), UNKNOWN_LOG10)
        self._backoff: dict[tuple[str, ...], float] = {}
        self._seen: dict[tuple[str, ...], tuple[list[int], list[float]]] = {}
        self._cache: dict[tuple[str, ...], NDArray[np.float64]] = {}
        try:
            for row in _rows(model):
                self._take(*row)
        except (OSError, ValueError, UnicodeDecodeError) as error:
            raise AsrError(say("lm.broken", path=model)) from error

    def after(self, before: tuple[str, ...]) -> NDArray[np.float64]:
        """The natural logarithm of how likely each word is after these two at most, and the end,
        last."""
        if before not in self._cache:
            self._cache[before] = self._backed_off(before) * math.log(10)
        return self._cache[before]

    def _take(self, words: tuple[str, ...], likely: float, backoff: float) -> None:
        *before, last = words
        place = self._place.get(last)
        if place is not None:
            if before:
                places, values = self._seen.setdefault(tuple(before), ([], []))
                places.append(place)
                values.append(likely)
            else:
                self._unigrams[place] = likely
        if backoff:
            self._backoff[words] = backoff

    def _backed_off(self, before: tuple[str, ...]) -> NDArray[np.float64]:
        found = self._unigrams.copy()
        for length in range(1, len(before) + 1):
            context = before[-length:]
            found += self._backoff.get(context, 0.0)
            if context in self._seen:
                places, values = self._seen[context]
                found[places] = values
        return found


def _rows(model: Path) -> Iterator[_Row]:
    """The n-grams of a file, each with its likelihood and its backing off."""
    order, ended = 0, False
    with model.open(encoding="utf-8") as lines:
        for line in lines:
            if line.startswith("\\"):
                order = int(line[1]) if line.endswith("-grams:\n") else 0
                ended = ended or line.startswith("\\end\\")
            elif order and (parts := line.split()):
                words = tuple(parts[1 : 1 + order])
                if len(words) < order:
                    raise ValueError(line)
                yield words, float(parts[0]), float(parts[1 + order]) if parts[1 + order :] else 0.0
    if not ended:
        raise ValueError("cut off")
