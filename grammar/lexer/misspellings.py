"""Misspelt nouns and verbs, mended. Never a number, never a short word."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from boxaloud.grammar import grammar_data


class Mender:
    """Finds the one word of the grammar that an unknown word was meant to be."""

    def __init__(self, words: Iterable[str], known: set[str]) -> None:
        table = grammar_data.table("doubts")["repair"]
        self._shortest: int = table["shortest"]
        self._long: int = table["two_slips_from"]
        never = set(table["never_to"])
        self._known = known | set(table["never_from"])
        self._words = sorted(
            word for word in words if len(word) >= table["shortest_meant"] and word not in never
        )

    def mend(self, text: str) -> str | None:
        """The word of the grammar that `text` was meant to be; None when none is close enough.

        One slip (a letter wrong, missing, too many, or two exchanged) is mended, two in a long
        word; a word as close to two others is not.
        """
        if len(text) < self._shortest or len(text) > 20 or text in self._known:
            return None
        slips = 2 if len(text) >= self._long else 1
        if not any(_may_be(text, word, slips) for word in self._words):
            return None
        from rapidfuzz import process  # 17 ms to import, and most unknown words are like no other
        from rapidfuzz.distance import OSA

        found = process.extract(
            text, self._words, scorer=OSA.distance, limit=3, score_cutoff=slips
        )  # fmt: skip
        found = [one for one in found if one[0][0] == text[0] and _one_form(text, one[0])]
        if not found or self._torn(text, found):
            return None
        return found[0][0]

    @staticmethod
    def _torn(text: str, found: Sequence[tuple[str, float, int]]) -> bool:
        """Whether another word, not just its plural, is as close as the first."""
        best = found[0]
        return any(
            other[1] == best[1] and other[0].rstrip("s") != best[0].rstrip("s")
            for other in found[1:]
        )


_FORMS = ("ed", "ing")


def _one_form(text: str, word: str) -> bool:
    """Whether both are the same form of a verb, or neither is one: "stapled" is no "staple"."""
    return all(text.endswith(form) <= word.endswith(form) for form in _FORMS)


def _may_be(text: str, word: str, slips: int) -> bool:
    """Whether `text` may be `word` but for some slips; only words that begin alike count.

    Exact for one slip. Two change four letters at the most, a wrong one being one too many and
    another missing.
    """
    if word[0] != text[0] or abs(len(word) - len(text)) > slips:
        return False
    if slips == 1:
        return _one_slip(text, word)
    letters = {*text, *word}
    return sum(abs(text.count(one) - word.count(one)) for one in letters) <= 2 * slips


def _one_slip(text: str, word: str) -> bool:
    """Whether one letter is wrong, missing or too many, or two are exchanged, at the most."""
    alike = 0
    for one, other in zip(text, word, strict=False):
        if one != other:
            break
        alike += 1
    text, word = text[alike:], word[alike:]
    exchanged = text[:2] == word[1::-1] and text[2:] == word[2:]
    return text[1:] == word[1:] or text[1:] == word or text == word[1:] or exchanged
