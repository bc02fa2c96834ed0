"""Misspelt nouns and verbs, mended. Never a number, never a short word."""

from __future__ import annotations

from collections.abc import Iterable

from rapidfuzz import process
from rapidfuzz.distance import OSA

from grammar import store


class Mender:
    """Finds the one word of the grammar that an unknown word was meant to be."""

    def __init__(self, words: Iterable[str], known: set[str]) -> None:
        table = store.table("doubts")["repair"]
        self._shortest: int = table["shortest"]
        self._likeness: float = table["likeness"]
        never = set(table["never_to"])
        self._known = known | set(table["never_from"])
        self._words = sorted(
            word for word in words if len(word) >= self._shortest and word not in never
        )

    def mend(self, text: str) -> str | None:
        """The word of the grammar closest to `text`; None when none is close enough."""
        if len(text) < self._shortest or len(text) > 20 or text in self._known:
            return None
        found = process.extract(
            text, self._words, scorer=OSA.normalized_similarity, limit=2,
            score_cutoff=self._likeness,
        )  # fmt: skip
        if not found or found[0][0][0] != text[0]:
            return None
        return found[0][0]
