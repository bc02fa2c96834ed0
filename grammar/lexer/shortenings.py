"""Words written short, as estimators write them: "clmps", "pigtls", "octgn".

No list could hold them all, and all follow two rules: vowels are dropped, and ends ("octag").
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache

from boxaloud.grammar import grammar_data

_VOWELS = frozenset("aeiou")
_SHORTEST, _LONGEST = 3, 12
#: Where a vowel is left, more letters must tell the word.
_SHORTEST_WITH_VOWELS = 4
_LEFT_OUT = 2
#: As many letters of a word must be missing at its end for its beginning to stand for it.
_CUT_OFF = 3


class Shortenings:
    """Finds the one word of the trade that an unknown short form stands for."""

    def __init__(self, plural: Mapping[str, str]) -> None:
        table = grammar_data.table("lexicon")["shortened"]
        self._words: tuple[str, ...] = tuple(table["words"])
        self._never = frozenset(table["never_from"])
        self._plural = plural

    def word(self, text: str) -> str | None:
        """The word that `text`, which is none by itself, is short for; None where no word is, or
        more than one."""
        if not (text.isascii() and text.isalpha() and _SHORTEST <= len(text) <= _LONGEST):
            return None
        if text in self._never:
            return None
        if (word := self._one(text, self._words)) is not None:
            return word
        if text[-1] != "s" or (word := self._one(text[:-1], self._words)) is None:
            return None
        return self._plural.get(word, word)

    def _one(self, text: str, words: Iterable[str]) -> str | None:
        if len(text) < _SHORTEST - (text[-1] != "s"):
            return None
        alike = [word for word in words if word[0] == text[0]]
        whole = [word for word in alike if _without_vowels(text, word)]
        if len(whole) == 1:
            return whole[0]
        if whole:
            return None
        begun = [word for word in alike if _begins(text, word)]
        return begun[0] if len(begun) == 1 else None


def _without_vowels(text: str, word: str) -> bool:
    """Whether `text` is the word with some of its vowels left out, and no more than that.

    Where all but one letter is there, it is a slip, which is mended and told.
    """
    if _spelt(text) and len(word) - len(text) < _LEFT_OUT:
        return False
    rest = _rest(text, word)
    return rest is not None and not any(_kept(word, at) for at in range(rest, len(word)))


def _begins(text: str, word: str) -> bool:
    """Whether `text` is the beginning of the word, with some of its vowels left out or none."""
    if text[-1] in _VOWELS or (_spelt(text) and len(text) < _SHORTEST_WITH_VOWELS):
        return False
    rest = _rest(text, word)
    return rest is not None and len(word) - rest >= (_CUT_OFF if _spelt(text) else 1)


def _spelt(text: str) -> bool:
    """Whether vowels are left in it, besides one that it begins with."""
    return any(letter in _VOWELS for letter in text[1:])


@lru_cache(maxsize=4096)
def _rest(text: str, word: str) -> int | None:
    """How far into `word` the letters of `text` go, where only vowels and the second of two like
    letters are left out on the way; None where they do not."""
    at = 0
    for letter in text:
        while at < len(word) and word[at] != letter and not _kept(word, at):
            at += 1
        if at == len(word) or word[at] != letter:
            return None
        at += 1
    return at


def _kept(word: str, at: int) -> bool:
    """Whether a short form keeps the letter: the first, and each consonant but a doubled one."""
    return at == 0 or (word[at] not in _VOWELS and word[at] != "y" and word[at] != word[at - 1])
