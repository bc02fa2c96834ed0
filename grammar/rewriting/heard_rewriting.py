"""The words of an ear as one text that is rewritten, and back from that text to words."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.heard_words import Word

#: A break that a rule put in place of a space parts two words.
_WORD = lazy_pattern(r"\S+?,(?=[^\W\d])|\S+")


class HeardText:
    """Words joined to a text, with how sure the ear was of each character of it.

    What is blanked is dropped. What stands in place of words is as sure as the least sure of them.
    """

    def __init__(self, words: Sequence[Word]) -> None:
        self._words = words
        self.text = " ".join(word.text for word in words)
        self._sure: list[float | None] = []
        for word in words:
            self._sure += [word.confidence] * (len(word.text) + 1)

    def replace(self, start: int, end: int, told: str) -> None:
        """Put a text of the same length in place of what stands from `start` to `end`."""
        before = self.text
        self.text = before[:start] + told + before[end:]
        least = _least(self._sure[place] for place in range(start, end) if before[place] != " ")
        for found in _words_touching(self.text, start, end):
            first, last = found.span()
            if not _is_word(before, first, last) or before[first:last] != found[0]:
                sure = _least([least, *self._sure[first:start], *self._sure[end:last]])
                self._sure[first:last] = [sure] * (last - first)

    def words(self) -> Sequence[Word]:
        """The words as they stand now; those that were left alone are the same."""
        kept: list[Word] = []
        place = done = 0
        for word in self._words:
            end = place + len(word.text)
            if self.text[place:end] == word.text and _is_word(self.text, place, end):
                kept += [*self._between(done, place), word]
                done = end
            place = end + 1
        return [*kept, *self._between(done, len(self.text))]

    def _between(self, start: int, end: int) -> Iterable[Word]:
        for found in _WORD.finditer(self.text, start, end):
            yield Word(found[0], _least(self._sure[found.start() : found.end()]))


def _least(sure: Iterable[float | None]) -> float | None:
    return min((each for each in sure if each is not None), default=None)


def _is_word(text: str, start: int, end: int) -> bool:
    """Whether what stands there is parted from the rest on both sides."""
    return not text[start - 1 : start].strip() and not text[end : end + 1].strip()


def _words_touching(text: str, start: int, end: int) -> Iterable[re.Match[str]]:
    """The words of a text of which a part at least stands from `start` to `end`."""
    while start and not text[start - 1].isspace():
        start -= 1
    for found in _WORD.finditer(text, start):
        if found.start() >= end:
            return
        yield found
