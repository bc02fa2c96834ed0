"""How the trade goes on: how likely every word is after two others, from the ears' own models.

The models are files in the ARPA form: sections of n-grams, each line the logarithm (base 10) of a
likelihood, the words, and what is added where one backs off from them (Katz, 1987). An array
library is not needed, so that a phone's browser reads them too; and little memory, so that it has
room for one of each question.
"""

from __future__ import annotations

import math
from array import array
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from importlib.resources.abc import Traversable
from itertools import pairwise

from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_messages import say

SENTENCE_START, END = "<s>", "</s>"
#: What a word is given that the model has not: as good as impossible.
UNKNOWN_LOG10 = -20.0
LN_10 = math.log(10)
#: A model has fewer words than two to this power.
WORD_BITS = 24
_Row = tuple[tuple[str, ...], float, float]


class TrigramScorer:
    """A model of word triples. What was asked of it is remembered.

    Raises:
        AsrError: the file is no model in the ARPA form.
    """

    def __init__(self, model: Traversable, words: Sequence[str]) -> None:
        self._place = {word: place for place, word in enumerate((*words, END))}
        self._alone = array("d", [UNKNOWN_LOG10]) * len(self._place)
        self._number: dict[str, int] = {}
        self._seen, self._backoff = _Rows(), _Rows()
        self._ranked: dict[tuple[int, int], array[int]] = {}
        self._asked: dict[tuple[str, ...], Continuation] = {}
        self._behind: dict[tuple[str, ...], _Followers] = {}
        try:
            for row in _rows(model):
                self._take(*row)
        except (OSError, ValueError, UnicodeDecodeError) as error:
            raise AsrError(say("lm.broken", path=model)) from error
        self._seen.sort()
        self._backoff.sort()

    def after(self, before: tuple[str, ...]) -> Continuation:
        """How likely each word is after these two at most, and the end."""
        if before not in self._asked:
            last = before[1:] or before
            pair = before if before[1:] else ()
            self._asked[before] = Continuation(
                self,
                self._followers(pair),
                self._followers(last),
                self._backed(last),
                self._backed(pair),
            )
        return self._asked[before]

    def _take(self, words: tuple[str, ...], likely: float, backoff: float) -> None:
        *before, last = words
        for word in words:
            self._number.setdefault(word, len(self._number) + 1)
        place = self._place.get(last)
        if place is not None:
            if before:
                self._seen.add(self._key(before), place, likely)
            else:
                self._alone[place] = likely
        if backoff:
            self._backoff.add(self._key(words), 0, backoff)

    def _key(self, words: Sequence[str]) -> int:
        """A number for words of the model, two at most; 0 where it has not one of them."""
        key = 0
        for word in words:
            number = self._number.get(word)
            if number is None:
                return 0
            key = key << WORD_BITS | number
        return key

    def _followers(self, before: tuple[str, ...]) -> _Followers:
        if before not in self._behind:
            self._behind[before] = _Followers(self._seen.of(self._key(before)))
        return self._behind[before]

    def _backed(self, before: tuple[str, ...]) -> float:
        return self._backoff.of(self._key(before)).get(0, 0.0)

    def alone(self, place: int) -> float:
        """How likely a word is by itself, in base 10."""
        return self._alone[place]

    def ranked(self, first: int, behind: int) -> Sequence[int]:
        """The words from one place to another, the likeliest by itself first."""
        key = first, behind
        if key not in self._ranked:
            ranked = sorted(range(first, behind), key=lambda place: -self._alone[place])
            self._ranked[key] = array("i", ranked)
        return self._ranked[key]

    def __len__(self) -> int:
        return len(self._alone)


class _Rows:
    """Numbers by a key and a place, twenty bytes each; those of a key are asked for together."""

    def __init__(self) -> None:
        self._keys, self._places, self._values = array("q"), array("i"), array("d")

    def add(self, key: int, place: int, value: float) -> None:
        self._keys.append(key)
        self._places.append(place)
        self._values.append(value)

    def sort(self) -> None:
        """Get ready to be asked; files mostly are in order."""
        if all(one <= other for one, other in pairwise(self._keys)):
            return
        order = sorted(range(len(self._keys)), key=self._keys.__getitem__)
        self._keys = array("q", [self._keys[at] for at in order])
        self._places = array("i", [self._places[at] for at in order])
        self._values = array("d", [self._values[at] for at in order])

    def of(self, key: int) -> dict[int, float]:
        """The numbers of a key by their places."""
        first, behind = bisect_left(self._keys, key), bisect_right(self._keys, key)
        return dict(zip(self._places[first:behind], self._values[first:behind], strict=True))


class _Followers:
    """What was seen behind some words: how likely, in base 10, by the place of each word."""

    def __init__(self, likely: dict[int, float]) -> None:
        self.likely = likely

    @cached_property
    def places(self) -> list[int]:
        """In order."""
        return sorted(self.likely)

    def between(self, first: int, behind: int) -> list[int]:
        """Those from one place to another."""
        found = self.places
        return found[bisect_left(found, first) : bisect_left(found, behind)]


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


def _rows(model: Traversable) -> Iterator[_Row]:
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
