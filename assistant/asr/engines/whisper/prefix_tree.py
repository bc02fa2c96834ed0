"""The trade's words as a tree of pieces: what may come next, and which word is whole."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from boxaloud.assistant.asr.engines.whisper.bpe_tokeniser import BpeTokeniser
from numpy.typing import NDArray


class PrefixTree:
    """Words by the pieces they are written in.

    `pieces` are the numbers of all pieces that are told apart: those of the words, those of
    `others`, which nothing follows but by which other talk is known, and the two marks that end
    a sentence, last. A node's `children` are places in `pieces` and the nodes they lead to.
    """

    def __init__(self, words: Sequence[str], others: Sequence[str], pieces: BpeTokeniser) -> None:
        nodes: list[dict[int, int]] = [{}]
        self.word: list[int | None] = [None]
        below: list[list[int]] = [[]]
        for number, word in enumerate(words):
            node = 0
            below[0].append(number)
            for piece in pieces.of(word):
                if piece not in nodes[node]:
                    nodes[node][piece] = len(nodes)
                    nodes.append({})
                    self.word.append(None)
                    below.append([])
                node = nodes[node][piece]
                below[node].append(number)
            self.word[node] = number
        known = {piece for node in nodes for piece in node}
        known.update(piece for word in others for piece in pieces.of(word))
        known -= {pieces.stop, pieces.end}
        self.pieces = np.array([*sorted(known), pieces.stop, pieces.end])
        place = {int(piece): at for at, piece in enumerate(self.pieces)}
        self.children = [
            (
                np.array([place[piece] for piece in node], np.int64),
                np.array(list(node.values()), np.int64),
            )
            for node in nodes
        ]
        self._words_below = [np.array(words_below) for words_below in below]

    def likeliest_below(self, likelihoods: NDArray[np.float64]) -> NDArray[np.float64]:
        """For every node the greatest likelihood among the words that it may become."""
        return np.array([likelihoods[words].max() for words in self._words_below])
