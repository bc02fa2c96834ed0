"""Which of many expressions a line may match, from its words alone.

What an expression needs (`grammar.needed`) is a row of lists, of each of which one text must
stand in the line. A word says of each list whether it may hold one of its texts, as one bit; so
the words of a line, each looked at once, tell of all lists together. What passes may still lack
what it needs, but what does not pass cannot match.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from boxaloud.grammar.patterns.pattern_requirements import Needs

#: Words that are remembered with their bits.
REMEMBERED = 4096
#: Lines that are remembered with what they may match: things are tags in them, so that half of
#: the lines of another person's talk are not new. They can be long, and must not fill the memory.
LINES = 1024


class Sieve:
    """Made once of the needs of all expressions; `passing` sifts a line."""

    def __init__(self, needs: Sequence[Needs]) -> None:
        self._count = len(needs)
        self._layers = max(map(len, needs), default=0)
        self._always = 0
        self._whole: dict[str, int] = {}
        self._begins: dict[str, int] = {}
        self._ends: dict[str, int] = {}
        self._inside: dict[str, int] = {}
        self._mask = (1 << self._count) - 1
        for texts, bits in self._lists(needs).items():
            for text in texts:
                self._add(text, bits)
        self._longest = max(map(len, self._inside), default=0)
        self._of = lru_cache(maxsize=REMEMBERED)(self._bits)
        self.passing = lru_cache(maxsize=LINES)(self._passing)
        """The places of the expressions that a line may match, in order."""
        self.mask = lru_cache(maxsize=LINES)(self._may)
        """The same as one number, in which each has the bit of its place."""

    def _lists(self, needs: Sequence[Needs]) -> dict[tuple[str, ...], int]:
        """Each list with its bits: in the layer of its place, one for each expression."""
        found: dict[tuple[str, ...], int] = {}
        for index, lists in enumerate(needs):
            for layer in range(self._layers):
                bit = 1 << (layer * self._count + index)
                if layer < len(lists):
                    texts = tuple(lists[layer])
                    found[texts] = found.get(texts, 0) | bit
                else:
                    self._always |= bit
        return found

    def _add(self, text: str, bits: int) -> None:
        """A text stands in a line only where its longest piece stands in a word."""
        pieces = text.split(" ")
        place = max(range(len(pieces)), key=lambda at: len(pieces[at]))
        piece, first, last = pieces[place], place == 0, place == len(pieces) - 1
        if not piece:
            self._always |= bits
            return
        where = self._ends if first else self._begins if last else self._whole
        if first and last:
            where = self._inside
        where[piece] = where.get(piece, 0) | bits

    def _bits(self, word: str) -> int:
        """The lists of which a word may hold a text."""
        found = self._whole.get(word, 0)
        size = len(word)
        for start in range(size):
            found |= self._ends.get(word[start:], 0) | self._begins.get(word[: start + 1], 0)
            for end in range(start + 1, min(size, start + self._longest) + 1):
                found |= self._inside.get(word[start:end], 0)
        return found

    def _may(self, line: str) -> int:
        found, of = self._always, self._of
        for word in line.split(" "):
            found |= of(word)
        passed = self._mask
        for _ in range(self._layers):
            passed &= found
            found >>= self._count
        return passed

    def _passing(self, line: str) -> tuple[int, ...]:
        passed = self._may(line)
        places = []
        while passed:
            lowest = passed & -passed
            passed ^= lowest
            places.append(lowest.bit_length() - 1)
        return tuple(places)
