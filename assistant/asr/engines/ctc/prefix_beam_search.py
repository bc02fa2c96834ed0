"""The search for what was said: words whose letters the network likes and that the trade says.

Prefixes are followed through the places of the sound, and all ways to place the same letters are
counted together (Graves, 2012, section 7.5.3; Hannun and others, 2014). A prefix is a number of
whole words and a node of the tree of letters; the words are weighed by word triples, and a word
that is not yet whole by the likeliest that it may become.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple, TypeAlias

from boxaloud.assistant.asr.engines.ctc.alphabet import BLANK, SPACE
from boxaloud.assistant.asr.engines.ctc.letter_tree import LetterTree
from boxaloud.assistant.asr.lm.trigram_scorer import SENTENCE_START, Continuation, TrigramScorer

#: Prefixes followed at once, and by how much one may be behind the best.
BEAM_WIDTH = 24
BEAM_THRESHOLD = 14.0
#: Letters less likely than this are not followed; a place that is so surely blank says nothing.
MIN_LETTER = -9.0
SURELY_BLANK = -0.002
#: What is given for how the trade speaks, and for every word.
LM_WEIGHT = 0.6
WORD_BONUS = 0.6
IMPOSSIBLE = -1e30
#: How likely each letter is in each place of a sound: rows of logarithms, the blank first.
Letters: TypeAlias = Sequence[Sequence[float]]


@dataclass(frozen=True, slots=True)
class CtcHypothesis:
    """A whole way: its words, its merit, and how well the network alone likes it (logarithms)."""

    words: tuple[str, ...]
    merit: float
    liked: float


class _Prefix(NamedTuple):
    """What is known of a prefix: how likely it is with the blank last and with its last letter
    last, that letter, and how the trade likes its whole words."""

    blank: float
    letter: float
    last: int
    spoken: float

    @property
    def liked(self) -> float:
        return add(self.blank, self.letter)


#: Whole words by number, and the node that the word begun has come to.
_Key: TypeAlias = tuple[tuple[int, ...], int]
_Beam: TypeAlias = dict[_Key, _Prefix]


class PrefixBeamSearch:
    """Ready to search for the words of a tree."""

    def __init__(self, tree: LetterTree) -> None:
        self._tree = tree
        self._ahead: dict[tuple[TrigramScorer, tuple[str, ...]], dict[int, float]] = {}

    def search(self, letters: Letters, scorer: TrigramScorer) -> tuple[CtcHypothesis, ...]:
        """The best ways to hear letters (places by letters, logarithms), the best first.

        `scorer` knows the words of the tree, in its order.
        """
        beam: _Beam = {((), 0): _Prefix(0.0, IMPOSSIBLE, BLANK, 0.0)}
        for row in letters:
            if row[BLANK] > SURELY_BLANK:
                beam = {
                    key: _Prefix(one.liked + row[BLANK], IMPOSSIBLE, one.last, one.spoken)
                    for key, one in beam.items()
                }
            else:
                beam = self._pruned(self._extended(beam, row, scorer), scorer)
        return self._whole(beam, scorer)

    def _extended(self, beam: _Beam, row: Sequence[float], scorer: TrigramScorer) -> _Beam:
        """Every prefix as it is, and with each letter that may come next."""
        heard = [letter for letter in range(1, len(row)) if row[letter] > MIN_LETTER]
        found: _Beam = {}
        for (words, node), one in beam.items():
            liked = one.liked
            stays = one.letter + row[one.last] if one.letter > IMPOSSIBLE else IMPOSSIBLE
            _put(found, (words, node), one._replace(blank=liked + row[BLANK], letter=stays))
            children = self._tree.children[node]
            for letter in heard:
                before = one.blank if letter == one.last else liked
                if before <= IMPOSSIBLE:
                    continue
                if letter in children:
                    new = _Prefix(IMPOSSIBLE, before + row[letter], letter, one.spoken)
                    _put(found, (words, children[letter]), new)
                elif letter == SPACE:
                    for number in self._tree.whole[node]:
                        spoken = one.spoken + self._worth(words, number, scorer)
                        new = _Prefix(IMPOSSIBLE, before + row[letter], SPACE, spoken)
                        _put(found, ((*words, number), 0), new)
        return found

    def _pruned(self, beam: _Beam, scorer: TrigramScorer) -> _Beam:
        """The best prefixes."""
        ranked = sorted(
            ((self._rank(key, one, scorer), key) for key, one in beam.items()), reverse=True
        )
        least = ranked[0][0] - BEAM_THRESHOLD
        return {key: beam[key] for rank, key in ranked[:BEAM_WIDTH] if rank > least}

    def _rank(self, key: _Key, one: _Prefix, scorer: TrigramScorer) -> float:
        words, node = key
        rank = one.liked + one.spoken
        if node:
            rank += LM_WEIGHT * self._likeliest(words, node, scorer) + WORD_BONUS / 2
        return rank

    def _whole(self, beam: _Beam, scorer: TrigramScorer) -> tuple[CtcHypothesis, ...]:
        """The prefixes that may end here, with their last word and the end of the statement."""
        found: dict[tuple[int, ...], tuple[float, float]] = {}
        for (words, node), one in beam.items():
            for ended, spoken in self._endings(words, node, one.spoken, scorer):
                spoken += LM_WEIGHT * self._likely(ended, scorer)[-1]
                liked, best = found.get(ended, (IMPOSSIBLE, spoken))
                found[ended] = add(liked, one.liked), best
        made = [
            CtcHypothesis(self._texts(words), liked + spoken, liked)
            for words, (liked, spoken) in found.items()
        ]
        return tuple(sorted(made, key=lambda one: -one.merit))

    def _endings(
        self, words: tuple[int, ...], node: int, spoken: float, scorer: TrigramScorer
    ) -> list[tuple[tuple[int, ...], float]]:
        if node == 0:
            return [(words, spoken)] if words else []
        return [
            ((*words, number), spoken + self._worth(words, number, scorer))
            for number in self._tree.whole[node]
        ]

    def _worth(self, words: tuple[int, ...], number: int, scorer: TrigramScorer) -> float:
        """What one more word adds to a prefix."""
        return LM_WEIGHT * self._likely(words, scorer)[number] + WORD_BONUS

    def _likely(self, words: tuple[int, ...], scorer: TrigramScorer) -> Continuation:
        """How likely each word is next."""
        return scorer.after(self._before(words))

    def _likeliest(self, words: tuple[int, ...], node: int, scorer: TrigramScorer) -> float:
        """How likely the likeliest word is that a node may become."""
        before = self._before(words)
        known = self._ahead.setdefault((scorer, before), {})
        if node not in known:
            known[node] = scorer.after(before).likeliest(*self._tree.below(node))
        return known[node]

    def _before(self, words: tuple[int, ...]) -> tuple[str, ...]:
        return (SENTENCE_START, *self._texts(words[-2:]))[-2:]

    def _texts(self, words: tuple[int, ...]) -> tuple[str, ...]:
        return tuple(self._tree.words[number] for number in words)


def _put(beam: _Beam, key: _Key, new: _Prefix) -> None:
    """Count a prefix together with what has come to the same."""
    old = beam.get(key)
    if old is not None:
        new = new._replace(blank=add(old.blank, new.blank), letter=add(old.letter, new.letter))
    beam[key] = new


def add(one: float, other: float) -> float:
    """The logarithm of the sum of two likelihoods, from theirs."""
    if one < other:
        one, other = other, one
    return one if other <= IMPOSSIBLE else one + math.log1p(math.exp(other - one))
