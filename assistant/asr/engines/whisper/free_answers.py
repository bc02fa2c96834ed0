"""How the network hears a word when it is asked freely, among all words that it can write.

The search asks which of the trade's words was said; a word that sounds like one of them is easily
taken for it. Asked freely the network writes "side" where the search found "five".
"""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Any

import numpy as np
from boxaloud.assistant.asr.asr_types import FreeOdds
from boxaloud.assistant.asr.engines.whisper.bpe_tokeniser import BpeTokeniser
from boxaloud.assistant.asr.engines.whisper.transformer import Array, KeyValueCache, Transformer

#: Odds are not told beyond this, either way: a logarithm.
MOST_ODDS = 8.0


@dataclass(frozen=True, slots=True)
class AnswerForms:
    """The pieces that stand for each short answer, and what the network is led on by."""

    pieces: tuple[tuple[str, tuple[int, ...]], ...]
    lead: tuple[int, ...]


class FreeAnswers:
    """Ready to ask a network about short answers."""

    def __init__(self, network: Transformer, tokeniser: BpeTokeniser) -> None:
        self._network = network
        self._start, self._end = tokeniser.start, tokeniser.end
        self._forms = answer_forms(tokeniser)
        self._before = tokeniser.before

    def odds(self, heard: Sequence[KeyValueCache]) -> tuple[FreeOdds, ...]:
        """How much likelier each answer is than the likeliest other word, as the one word that
        begins what is heard; the mean of both ways of asking, and of memories of the same sound."""
        every = [row for memory in heard for row in self._scores(memory)]
        return tuple(
            FreeOdds(word, sum(_odds(row, list(pieces)) for row in every) / len(every))
            for word, pieces in self._forms.pieces
        )

    def _scores(self, heard: KeyValueCache) -> Array:
        """Scores of all pieces to begin with, two rows: with nothing before, and led on."""
        led = (self._before, *self._forms.lead, *self._start)
        states = [
            self._network.step(np.array([prompt]), 0, None, heard)[0][0]
            for prompt in (self._start, led)
        ]
        return self._network.scores(np.stack(states))[:, : self._end]


def _odds(scores: Array, own: list[int]) -> float:
    """The likelihood of some pieces together by that of the likeliest other, a logarithm."""
    other = np.delete(scores, own).max()
    found = float(np.logaddexp.reduce(scores[own]) - other)
    return max(-MOST_ODDS, min(MOST_ODDS, found))


def answer_forms(tokeniser: BpeTokeniser) -> AnswerForms:
    """The short answers by the pieces of a model."""
    table = _table()
    found = []
    for word, others in table["forms"].items():
        pieces = {piece for form in (word, *others) for piece in tokeniser.single(form)}
        if pieces:
            found.append((word, tuple(sorted(pieces))))
    return AnswerForms(tuple(found), tokeniser.of(table["lead"]))


def homophones() -> frozenset[str]:
    """Words and figures that no ear can tell from a short answer."""
    return frozenset(other for others in _table()["forms"].values() for other in others)


@lru_cache(maxsize=1)
def _table() -> dict[str, Any]:
    path = files("boxaloud.assistant.asr") / "data" / "answer_forms.toml"
    return tomllib.loads(path.read_text(encoding="utf-8"))
