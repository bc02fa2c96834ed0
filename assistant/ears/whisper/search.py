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
from boxaloud.assistant.ears.whisper.custom import BEGIN, Custom
from boxaloud.assistant.ears.whisper.network import Memory, Network
from boxaloud.assistant.ears.whisper.tree import Tree
from numpy.typing import NDArray

#: Ways followed at once, and by how much one may be behind the best that is whole.
WIDTH = 12
BEHIND = 8.0
#: What is given for how the trade speaks, and for every word; and for its length in time.
#: Measured with statements and voices that the benchmark does not use.
CUSTOM = 0.5
EACH_WORD = 1.3
LENGTH = 2.5
#: Seconds that a sound of speech lasts, and that all of a statement may differ: a share, and some.
SOUND_SECONDS = 0.075
AROUND_SECONDS = 0.1
LENGTH_SHARE = 0.22
LENGTH_SECONDS = 0.15
#: No length counts for worse than this.
LENGTH_WORST = 9.0
#: A way that goes on from the best to something new is taken for it, so far behind: the network
#: likes to stop early. Its words keep the small confidence that they have.
GOES_ON = 2.5
#: Of fewer pieces than this the network's liking says little.
FEW_PIECES = 4
#: Pieces a statement may have: some, and so many a second.
PIECES = 10
PIECES_A_SECOND = 6


@dataclass(frozen=True, slots=True)
class Found:
    """A whole way: its words, its merit, and how well the network alone likes it."""

    words: tuple[str, ...]
    merit: float
    liked: float


@dataclass(frozen=True, slots=True)
class Heard:
    """The best ways, the best first; and how well the network likes the free one, of `pieces`."""

    found: tuple[Found, ...]
    freely: float
    pieces: int

    @property
    def strange(self) -> float:
        """By how much a piece the network would rather have heard something else; 0 at best."""
        if not self.found:
            return float("inf")
        return max(0.0, self.freely - self.found[0].liked) / max(FEW_PIECES, self.pieces)


@dataclass(frozen=True, slots=True)
class _Way:
    merit: float
    liked: float
    spoken: float
    node: int
    words: tuple[str, ...]

    @property
    def before(self) -> tuple[str, ...]:
        return (BEGIN, *self.words)[-2:]


class _Listener:
    """The network listening to one memory of the sound, along all ways at once."""

    def __init__(self, network: Network, heard: Memory, prompt: NDArray[np.int64]) -> None:
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


class Search:
    """Ready to search for the trade's words with a network."""

    def __init__(
        self,
        network: Network,
        tree: Tree,
        words: Sequence[str],
        sounds: Mapping[str, int],
        prompt: Sequence[int],
    ) -> None:
        self._network = network
        self._tree = tree
        self._words = words
        self._sounds = sounds
        self._prompt = np.array([prompt])
        self._pieces = network.of_pieces(tree.pieces)
        self._ahead: dict[tuple[Custom, tuple[str, ...]], NDArray[np.float64]] = {}

    def search(self, heard: Sequence[Memory], seconds: float, custom: Custom) -> Heard:
        """The best ways to hear a sound in which speech lasts so many seconds.

        `heard` are memories of the same sound, with its noise and without: what both like wins.
        """
        ways, whole = [_Way(0.0, 0.0, 0.0, 0, ())], list[Found]()
        freely, pieces, free = 0.0, 0, True
        listeners = [_Listener(self._network, memory, self._prompt) for memory in heard]
        for _ in range(int(PIECES + PIECES_A_SECOND * seconds)):
            likely = self._likely(listeners)
            chosen = int(likely[0].argmax())
            if free:
                freely, pieces = freely + float(likely[0, chosen]), pieces + 1
                free = chosen < len(self._tree.pieces) - 2
            whole += self._ends(ways, likely[1:], seconds, custom)
            best = max((one.merit for one in whole), default=-np.inf)
            nexts = sorted(self._nexts(ways, likely[1:], custom), key=lambda one: -one[0].merit)
            kept = [one for one in nexts[:WIDTH] if one[0].merit > best - BEHIND]
            if not kept:
                break
            ways = [way for way, _, _ in kept]
            rows = [0, *(row + 1 for _, row, _ in kept)]
            taken = self._tree.pieces[[chosen, *(piece for _, _, piece in kept)]]
            for listener in listeners:
                listener.go_on(rows, taken)
        return Heard(_ranked(whole), freely, pieces)

    def _likely(self, listeners: Sequence[_Listener]) -> NDArray[np.float32]:
        """How likely every piece is next, ways by pieces."""
        each = [_logarithms(listener.state @ self._pieces) for listener in listeners]
        mean: NDArray[np.float32] = sum(each[1:], each[0]) / np.float32(len(each))
        return mean

    def _nexts(
        self, ways: list[_Way], likely: NDArray[np.float32], custom: Custom
    ) -> list[tuple[_Way, int, int]]:
        """Each way with one more piece, its row, and the piece."""
        found = []
        for row, way in enumerate(ways):
            found += self._grown(way, row, likely[row], custom)
            if (ended := self._ended(way, custom)) is not None:
                found += self._grown(ended, row, likely[row], custom)
        return found

    def _grown(
        self, way: _Way, row: int, likely: NDArray[np.float32], custom: Custom
    ) -> list[tuple[_Way, int, int]]:
        """A way with one more piece of the word it is in."""
        pieces, nodes = self._tree.children[way.node]
        if not len(pieces):
            return []
        ahead = self._looked(way.before, custom)[nodes]
        liked = way.liked + likely[pieces]
        merits = liked + CUSTOM * (way.spoken + ahead) + EACH_WORD * (len(way.words) + 1)
        best = np.argsort(-merits)[:WIDTH]
        return [
            (
                _Way(float(merits[at]), float(liked[at]), way.spoken, int(nodes[at]), way.words),
                row,
                int(pieces[at]),
            )
            for at in best
        ]

    def _ended(self, way: _Way, custom: Custom) -> _Way | None:
        """A way whose word is whole, before the next one."""
        number = self._tree.word[way.node]
        if number is None:
            return None
        spoken = way.spoken + float(custom.after(way.before)[number])
        return _Way(way.merit, way.liked, spoken, 0, (*way.words, self._words[number]))

    def _ends(
        self, ways: list[_Way], likely: NDArray[np.float32], seconds: float, custom: Custom
    ) -> list[Found]:
        """The ways that may end here."""
        found = []
        for row, way in enumerate(ways):
            if (ended := self._ended(way, custom)) is None:
                continue
            liked = way.liked + float(np.logaddexp(likely[row, -1], likely[row, -2]))
            spoken = ended.spoken + float(custom.after(ended.before)[-1])
            merit = liked + CUSTOM * spoken + EACH_WORD * len(ended.words)
            merit -= LENGTH * self._misfit(ended.words, seconds)
            found.append(Found(ended.words, merit, liked))
        return found

    def _misfit(self, words: tuple[str, ...], seconds: float) -> float:
        """How unlikely it is that these words take so long."""
        usual = SOUND_SECONDS * sum(self._sounds[word] for word in words) + AROUND_SECONDS
        off = (seconds - usual) / (LENGTH_SHARE * seconds + LENGTH_SECONDS)
        return min(0.5 * off * off, LENGTH_WORST)

    def _looked(self, before: tuple[str, ...], custom: Custom) -> NDArray[np.float64]:
        """How likely the likeliest word is that each node may become."""
        key = (custom, before)
        if key not in self._ahead:
            self._ahead[key] = self._tree.likeliest_below(custom.after(before)[:-1])
        return self._ahead[key]


def _ranked(whole: Sequence[Found]) -> tuple[Found, ...]:
    """The best first; or one that goes on from it to something new, not far behind."""
    ranked = sorted(whole, key=lambda one: -one.merit)
    for longer in ranked[1:]:
        best = ranked[0]
        length = len(best.words)
        if longer.merit < best.merit - GOES_ON:
            break
        on = longer.words[length:]
        if on and longer.words[:length] == best.words and not _again(best.words, on):
            ranked = [longer, *(one for one in ranked if one is not longer)]
    return tuple(ranked)


def _again(before: tuple[str, ...], on: tuple[str, ...]) -> bool:
    """True where what is gone on with is what was just said, or all that was said."""
    lengths = range(1, min(len(before), len(on)) + 1)
    return on[: len(before)] == before[: len(on)] or any(
        before[-length:] == on[:length] for length in lengths
    )


def _logarithms(scores: NDArray[np.float32]) -> NDArray[np.float32]:
    """Logarithms of likelihoods from scores, each row by itself."""
    scores = scores - scores.max(-1, keepdims=True)
    logarithms: NDArray[np.float32] = scores - np.log(np.exp(scores).sum(-1, keepdims=True))
    return logarithms
