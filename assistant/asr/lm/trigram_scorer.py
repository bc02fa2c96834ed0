"""How the trade goes on: how likely every word is after two others, from the ears' own models.

The models are files in the ARPA form: sections of n-grams, each line the logarithm (base 10) of a
likelihood, the words, and what is added where one backs off from them (Katz, 1987). An array
library is not needed, so that a phone's browser reads them too.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_messages import say

SENTENCE_START, END = "<s>", "</s>"
#: What a word is given that the model has not: as good as impossible.
UNKNOWN_LOG10 = -20.0
LN_10 = math.log(10)
_Row = tuple[tuple[str, ...], float, float]


class TrigramScorer:
    """A model of word triples. What was asked of it is remembered.

    Raises:
        AsrError: the file is no model in the ARPA form.
    """

    def __init__(self, model: Path, words: Sequence[str]) -> None:
        self._place = {word: place for place, word in enumerate((*words, END))}
        self._alone = [UNKNOWN_LOG10] * len(self._place)
        self._backoff: dict[tuple[str, ...], float] = {}
        self._seen: dict[tuple[str, ...], _Followers] = {}
        self._ranked: dict[tuple[int, int], list[int]] = {}
        self._asked: dict[tuple[str, ...], Continuation] = {}
        try:
            for row in _rows(model):
                self._take(*row)
        except (OSError, ValueError, UnicodeDecodeError) as error:
            raise AsrError(say("lm.broken", path=model)) from error

    def after(self, before: tuple[str, ...]) -> Continuation:
        """How likely each word is after these two at most, and the end."""
        if before not in self._asked:
            last = before[1:] or before
            pair = before if before[1:] else None
            self._asked[before] = Continuation(
                self,
                self._seen.get(pair, _NONE) if pair else _NONE,
                self._seen.get(last, _NONE),
                self._backoff.get(last, 0.0),
                self._backoff.get(pair, 0.0) if pair else 0.0,
            )
        return self._asked[before]

    def _take(self, words: tuple[str, ...], likely: float, backoff: float) -> None:
        *before, last = words
        place = self._place.get(last)
        if place is not None:
            if before:
                self._seen.setdefault(tuple(before), _Followers()).likely[place] = likely
            else:
                self._alone[place] = likely
        if backoff:
            self._backoff[words] = backoff

    def alone(self, place: int) -> float:
        """How likely a word is by itself, in base 10."""
        return self._alone[place]

    def ranked(self, first: int, behind: int) -> list[int]:
        """The words from one place to another, the likeliest by itself first."""
        key = first, behind
        if key not in self._ranked:
            self._ranked[key] = sorted(range(first, behind), key=lambda place: -self._alone[place])
        return self._ranked[key]

    def __len__(self) -> int:
        return len(self._alone)


class _Followers:
    """What was seen behind some words: how likely, in base 10, by the place of each word."""

    def __init__(self) -> None:
        self.likely: dict[int, float] = {}

    @cached_property
    def places(self) -> list[int]:
        """In order."""
        return sorted(self.likely)

    def between(self, first: int, behind: int) -> list[int]:
        """Those from one place to another."""
        found = self.places
        return found[bisect_left(found, first) : bisect_left(found, behind)]


_NONE = _Followers()


@dataclass(frozen=True, slots=True)
class Continuation:
    """What may come after some words, natural logarithms. A word by its place; the end is last.

    What was seen behind both words counts; then what was seen behind the last of them, and then
    how likely a word is by itself, each less what is lost by backing off to it.
    """

    scorer: TrigramScorer
    pair: _Followers
    last: _Followers
    backed: float
    twice: float

    def __len__(self) -> int:
        return len(self.scorer)

    def __getitem__(self, place: int) -> float:
        if place < 0:
            place += len(self)
        if place in self.pair.likely:
            return self.pair.likely[place] * LN_10
        if place in self.last.likely:
            return (self.last.likely[place] + self.twice) * LN_10
        return (self.scorer.alone(place) + self.backed + self.twice) * LN_10

    def __iter__(self) -> Iterator[float]:
        return (self[place] for place in range(len(self)))

    def likeliest(self, first: int, behind: int) -> float:
        """The greatest of those from one place to another; it is not looked at each."""
        pair, last = self.pair.likely, self.last.likely
        seen = self.pair.between(first, behind)
        others = (place for place in self.last.between(first, behind) if place not in pair)
        best = max((self[place] for place in (*seen, *others)), default=-math.inf)
        for place in self.scorer.ranked(first, behind):
            if place not in pair and place not in last:
                return max(best, self[place])
        return best


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
