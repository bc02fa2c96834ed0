"""Where in the sound each word of a hypothesis lies, and where the network would rather have heard
something else: the Viterbi path of its letters (Graves and others, 2006, section 4.1)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from boxaloud.assistant.asr.engines.ctc.ctc_weights import BLANK, SPACE
from boxaloud.assistant.asr.engines.ctc.letter_tree import coded, spelling
from numpy.typing import NDArray

IMPOSSIBLE = -1e30


@dataclass(frozen=True, slots=True)
class Alignment:
    """The best path of some words through the places of a sound.

    Attributes:
        spans: of each word the first place and the one behind its last.
        margins: of each place by how much (a logarithm, 0 at best) the network would rather have
            heard another letter there than the path has.
    """

    spans: tuple[tuple[int, int], ...]
    margins: NDArray[np.float64]

    def worst(self, places: int) -> float:
        """The sum of the margins over the stretch of so many places where it is greatest."""
        if not len(self.margins):
            return 0.0
        whole = np.concatenate([[0.0], np.cumsum(self.margins)])
        length = min(places, len(self.margins))
        return float((whole[length:] - whole[:-length]).max())

    def own(self, number: int) -> float:
        """The sum of the margins where a word lies."""
        start, end = self.spans[number]
        return float(self.margins[start:end].sum())


def align(letters: NDArray[np.float32], words: Sequence[str]) -> Alignment | None:
    """The best path of words through letters (places by letters, logarithms); None where there
    are too few places for them."""
    written, owner = _written(words)
    path = _path(letters.astype(np.float64), written)
    if path is None:
        return None
    labels = np.array([written[state // 2] if state % 2 else BLANK for state in path])
    margins = letters.max(1) - letters[np.arange(len(path)), labels]
    spans = []
    for number in range(len(words)):
        own = [at for at, state in enumerate(path) if state % 2 and owner[state // 2] == number]
        spans.append((own[0], own[-1] + 1))
    return Alignment(tuple(spans), margins.astype(np.float64))


def _written(words: Sequence[str]) -> tuple[list[int], list[int]]:
    """The letters of words with spaces between them, and the word of each; -1 for a space."""
    written: list[int] = []
    owner: list[int] = []
    for number, word in enumerate(words):
        if number:
            written.append(SPACE)
            owner.append(-1)
        own = coded(spelling(word))
        written += own
        owner += [number] * len(own)
    return written, owner


def _path(letters: NDArray[np.float64], written: Sequence[int]) -> list[int] | None:
    """The best state in each place; even states are blanks, odd ones letters."""
    labels = np.full(2 * len(written) + 1, BLANK)
    labels[1::2] = written
    skips = np.zeros(len(labels), bool)  # a letter may follow another letter without a blank
    skips[3::2] = labels[3::2] != labels[1:-2:2]
    best = np.full(len(labels), IMPOSSIBLE)
    best[:2] = letters[0, labels[:2]]
    came = np.zeros((len(letters), len(labels)), np.int64)
    for place in range(1, len(letters)):
        ways = np.stack(
            [
                best,
                np.concatenate([[IMPOSSIBLE], best[:-1]]),
                np.where(skips, np.concatenate([[IMPOSSIBLE] * 2, best[:-2]]), IMPOSSIBLE),
            ]
        )
        came[place] = ways.argmax(0)
        best = ways.max(0) + letters[place, labels]
    state = len(labels) - 1 if best[-1] >= best[-2] else len(labels) - 2
    if best[state] <= IMPOSSIBLE / 2:
        return None
    path = [state]
    for place in range(len(letters) - 1, 0, -1):
        path.append(path[-1] - int(came[place, path[-1]]))
    return path[::-1]
