"""The word triples of each open question, for an engine that searches with them itself."""

from __future__ import annotations

from collections.abc import Sequence
from importlib.resources.abc import Traversable
from typing import Protocol

from boxaloud.assistant.asr.lm.trigram_scorer import TrigramScorer


class SpokenLanguage(Protocol):
    """How the trade speaks: its words and common others, and files of language models."""

    @property
    def known(self) -> frozenset[str]:
        """The words of the trade."""
        ...

    @property
    def others(self) -> tuple[str, ...]:
        """Common words of other talk, as they stand in the models."""
        ...

    def narrows(self, expect: str | None) -> str | None:
        """`expect` where there is a model of its answers alone, else None."""
        ...

    def model_file(self, expect: str | None) -> Traversable:
        """The model of an open question, or the open one."""
        ...


class QuestionScorers:
    """The models of a language, read when first needed. `words` are those that are scored."""

    def __init__(self, language: SpokenLanguage, words: Sequence[str]) -> None:
        self._language = language
        self._words = words
        self._read: dict[str | None, TrigramScorer] = {}

    def narrow(self, expect: str | None) -> TrigramScorer | None:
        """The model of answers to an open question; None where it has none of its own."""
        name = self._language.narrows(expect)
        return None if name is None else self._scorer(name)

    def open(self) -> TrigramScorer:
        """The model of all that can be said."""
        return self._scorer(None)

    def _scorer(self, name: str | None) -> TrigramScorer:
        if name not in self._read:
            self._read[name] = TrigramScorer(self._language.model_file(name), self._words)
        return self._read[name]
