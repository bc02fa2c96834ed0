"""Words as a tree of letters: what may come next, and which words are whole."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.assistant.asr.engines.ctc.alphabet import ALPHABET
from boxaloud.assistant.asr.lm.pronunciations import OUT_OF_DOMAIN_PREFIX


class LetterTree:
    """Words by the letters that they are written in; the root is node 0.

    `words` are theirs in the order in which they are numbered. A word of other talk bears
    `OUT_OF_DOMAIN_PREFIX` and is written without it, so that two words may end at one node.
    """

    def __init__(self, words: Sequence[str]) -> None:
        self.words = tuple(sorted(words, key=spelling))
        self.children: list[dict[int, int]] = [{}]
        self.whole: list[list[int]] = [[]]
        self._first, self._last = [0], [len(self.words)]
        for number, word in enumerate(self.words):
            node = 0
            for letter in coded(spelling(word)):
                node = self._child(node, letter, number)
                self._last[node] = number + 1
            self.whole[node].append(number)

    def below(self, node: int) -> tuple[int, int]:
        """The words that a node may become: the first, and the one behind the last. Words below
        one node are neighbours, for they are sorted."""
        return self._first[node], self._last[node]

    def _child(self, node: int, letter: int, number: int) -> int:
        children = self.children[node]
        if letter not in children:
            children[letter] = len(self.children)
            self.children.append({})
            self.whole.append([])
            self._first.append(number)
            self._last.append(number)
        return children[letter]


def spelling(word: str) -> str:
    """How a word is written."""
    return word.removeprefix(OUT_OF_DOMAIN_PREFIX)


def coded(text: str) -> list[int]:
    """The outputs of the network that stand for the letters of a text."""
    return [1 + ALPHABET.index(letter) for letter in text]


def is_spelled(word: str) -> bool:
    """True where every letter of a word is one that the network writes."""
    return bool(word) and set(spelling(word)) <= set(ALPHABET) - {" "}
