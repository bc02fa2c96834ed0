"""The search for what was said: many ways are followed at once, of the trade's words only.

A way is judged by how the network hears it, by how the trade speaks, and by whether so many
words take so long to say: the network alone likes to stop early or to say a thing again.
Beside them one way is followed freely, among common English too: by how much better the network
likes that one, other talk is known.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from boxaloud.assistant.asr.engines.whisper.prefix_tree import PrefixTree
from boxaloud.assistant.asr.engines.whisper.transformer import (
    KeyValueCache,
    Transformer,
    log_softmax,
)
from boxaloud.assistant.asr.lm.trigram_scorer import SENTENCE_START, TrigramScorer
from numpy.typing import NDArray

#: Ways followed at once, and by how much one may be behind the best that is whole.
BEAM_WIDTH = 12
BEAM_THRESHOLD = 8.0
#: What is given for how the trade speaks, and for every word; and for its length in time.
#: Measured with statements and voices that the benchmark does not use.
LM_WEIGHT = 0.5
WORD_BONUS = 1.3
DURATION_WEIGHT = 2.5
#: Seconds that a sound of speech lasts, and that all of a statement may differ: a share, and some.
PHONE_SECONDS = 0.075
DURATION_OFFSET_SECONDS = 0.1
DURATION_RELATIVE_SD = 0.22
DURATION_SD_SECONDS = 0.15
#: No length counts for worse than this.
MAX_DURATION_COST = 9.0
#: A way that goes on from the best to something new is taken for it, so far behind: the network
#: likes to stop early. Its words keep the small confidence that they have.
CONTINUATION_MARGIN = 2.5
#: Of fewer pieces than this the network's liking says little.
MIN_TOKENS = 4
#: Pieces a statement may have: some, and so many a second.
MAX_TOKENS = 10
MAX_TOKENS_PER_SECOND = 6


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """A whole way: its words, its merit, and how well the network alone likes it."""

    words: tuple[str, ...]
    merit: float
    liked: float


@dataclass(frozen=True, slots=True)
class SearchResult:
    """The best ways, the best first; and how well the network likes the free one, of `pieces`."""

    found: tuple[Hypothesis, ...]
    freely: float
    pieces: int

    @property
    def strange(self) -> float:
        """By how much a piece the network would rather have heard something else; 0 at best."""
        if not self.found:
            return float("inf")
        return max(0.0, self.freely - self.found[0].liked) / max(MIN_TOKENS, self.pieces)


@dataclass(frozen=True, slots=True)
class _PartialHypothesis:
    merit: float
    liked: float
    spoken: float
    node: int
    words: tuple[str, ...]

    @property
    def before(self) -> tuple[str, ...]:
        return (SENTENCE_START, *self.words)[-2:]


class _DecoderState:
    """The network listening to one memory of the sound, along all ways at once."""

    def __init__(
        self, network: Transformer, heard: KeyValueCache, prompt: NDArray[np.int64]
    ) -> None:
        self._network = network
        self._heard = heard
        self._place = prompt.shape[1]
        self.state, self._said = network.step(np.repeat(prompt, 2, axis=0), 0, None, heard)

    def go_on(self, rows: Sequence[int], pieces: NDArray[np.int64]) -> None:
        """Go on along these rows of the ways there were, each with its piece."""
        said = [(keys[rows], values[rows]) for keys, values in self._said]
        taken = pieces[:, None]
        self.state, self._said = self._network.step(taken, self._place, said, self._heard)
        self._place += 1


class BeamSearch:
    """Ready to search for the trade's words with a network."""

    def __init__(
        self,
        network: Transformer,
        tree: PrefixTree,
        words: Sequence[str],
        sounds: Mapping[str, int],
        prompt: Sequence[int],
    ) -> None:
        self._network = network
        self._tree = tree
        self._words = words
        self._sounds = sounds
        self._prompt = np.array([prompt])
        self._embeddings = network.of_pieces(tree.pieces)
        self._lookahead_cache: dict[tuple[TrigramScorer, tuple[str, ...]], NDArray[np.float64]] = {}

    def search(
        self, heard: Sequence[KeyValueCache], seconds: float, custom: TrigramScorer
    ) -> SearchResult:
        """The best ways to hear a sound in which speech lasts so many seconds.

        `heard` are memories of the same sound, with its noise and without: what both like wins.
        """
        ways, whole = [_PartialHypothesis(0.0, 0.0, 0.0, 0, ())], list[Hypothesis]()
        freely, pieces, free = 0.0, 0, True
        listeners = [_DecoderState(self._network, memory, self._prompt) for memory in heard]
        for _ in range(int(MAX_TOKENS + MAX_TOKENS_PER_SECOND * seconds)):
            likely = self._next_log_probabilities(listeners)
            chosen = int(likely[0].argmax())
            if free:
                freely, pieces = freely + float(likely[0, chosen]), pieces + 1
                free = chosen < len(self._tree.pieces) - 2
            whole += self._complete_hypotheses(ways, likely[1:], seconds, custom)
            best = max((one.merit for one in whole), default=-np.inf)
            nexts = sorted(self._expand(ways, likely[1:], custom), key=lambda one: -one[0].merit)
            kept = [one for one in nexts[:BEAM_WIDTH] if one[0].merit > best - BEAM_THRESHOLD]
            if not kept:
                break
            ways = [way for way, _, _ in kept]
            rows = [0, *(row + 1 for _, row, _ in kept)]
            taken = self._tree.pieces[[chosen, *(piece for _, _, piece in kept)]]
            for listener in listeners:
                listener.go_on(rows, taken)
        return SearchResult(_rank(whole), freely, pieces)

    def _next_log_probabilities(self, listeners: Sequence[_DecoderState]) -> NDArray[np.float32]:
        """How likely every piece is next, ways by pieces."""
        each = [log_softmax(listener.state @ self._embeddings) for listener in listeners]
        mean: NDArray[np.float32] = sum(each[1:], each[0]) / np.float32(len(each))
        return mean

    def _expand(
        self, ways: list[_PartialHypothesis], likely: NDArray[np.float32], custom: TrigramScorer
    ) -> list[tuple[_PartialHypothesis, int, int]]:
        """Each way with one more piece, its row, and the piece."""
        found = []
        for row, way in enumerate(ways):
            found += self._extend(way, row, likely[row], custom)
            if (ended := self._complete_word(way, custom)) is not None:
                found += self._extend(ended, row, likely[row], custom)
        return found

    def _extend(
        self, way: _PartialHypothesis, row: int, likely: NDArray[np.float32], custom: TrigramScorer
    ) -> list[tuple[_PartialHypothesis, int, int]]:
        """A way with one more piece of the word it is in."""
        pieces, nodes = self._tree.children[way.node]
        if not len(pieces):
            return []
        ahead = self._lm_lookahead(way.before, custom)[nodes]
        liked = way.liked + likely[pieces]
        merits = liked + LM_WEIGHT * (way.spoken + ahead) + WORD_BONUS * (len(way.words) + 1)
        best = np.argsort(-merits)[:BEAM_WIDTH]
        return [
            (
                _PartialHypothesis(
                    float(merits[at]), float(liked[at]), way.spoken, int(nodes[at]), way.words
                ),
                row,
                int(pieces[at]),
            )
            for at in best
        ]

    def _complete_word(
        self, way: _PartialHypothesis, custom: TrigramScorer
    ) -> _PartialHypothesis | None:
        """A way whose word is whole, before the next one."""
        number = self._tree.word[way.node]
        if number is None:
            return None
        spoken = way.spoken + float(custom.after(way.before)[number])
        return _PartialHypothesis(
            way.merit, way.liked, spoken, 0, (*way.words, self._words[number])
        )

    def _complete_hypotheses(
        self,
        ways: list[_PartialHypothesis],
        likely: NDArray[np.float32],
        seconds: float,
        custom: TrigramScorer,
    ) -> list[Hypothesis]:
        """The ways that may end here."""
        found = []
        for row, way in enumerate(ways):
            if (ended := self._complete_word(way, custom)) is None:
                continue
            liked = way.liked + float(np.logaddexp(likely[row, -1], likely[row, -2]))
            spoken = ended.spoken + float(custom.after(ended.before)[-1])
            merit = liked + LM_WEIGHT * spoken + WORD_BONUS * len(ended.words)
            merit -= DURATION_WEIGHT * self._duration_cost(ended.words, seconds)
            found.append(Hypothesis(ended.words, merit, liked))
        return found

    def _duration_cost(self, words: tuple[str, ...], seconds: float) -> float:
        """How unlikely it is that these words take so long."""
        usual = PHONE_SECONDS * sum(self._sounds[word] for word in words) + DURATION_OFFSET_SECONDS
        off = (seconds - usual) / (DURATION_RELATIVE_SD * seconds + DURATION_SD_SECONDS)
        return min(0.5 * off * off, MAX_DURATION_COST)

    def _lm_lookahead(self, before: tuple[str, ...], custom: TrigramScorer) -> NDArray[np.float64]:
        """How likely the likeliest word is that each node may become."""
        key = (custom, before)
        if key not in self._lookahead_cache:
            likely = np.array([*custom.after(before)])
            self._lookahead_cache[key] = self._tree.likeliest_below(likely[:-1])
        return self._lookahead_cache[key]


def _rank(whole: Sequence[Hypothesis]) -> tuple[Hypothesis, ...]:
    """The best first; or one that goes on from it to something new, not far behind."""
    ranked = sorted(whole, key=lambda one: -one.merit)
    for longer in ranked[1:]:
        best = ranked[0]
        length = len(best.words)
        if longer.merit < best.merit - CONTINUATION_MARGIN:
            break
        on = longer.words[length:]
        if on and longer.words[:length] == best.words and not _repeats(best.words, on):
            ranked = [longer, *(one for one in ranked if one is not longer)]
    return tuple(ranked)


def _repeats(before: tuple[str, ...], on: tuple[str, ...]) -> bool:
    """True where what is gone on with is what was just said, or all that was said."""
    lengths = range(1, min(len(before), len(on)) + 1)
    return on[: len(before)] == before[: len(on)] or any(
        before[-length:] == on[:length] for length in lengths
    )
