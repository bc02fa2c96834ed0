"""Where in the sound each word of a hypothesis lies, and where the network would rather have heard
something else: the Viterbi path of its letters (Graves and others, 2006, section 4.1)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from boxaloud.assistant.asr.engines.ctc.alphabet import BLANK, SPACE
from boxaloud.assistant.asr.engines.ctc.letter_tree import coded, spelling

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
    margins: tuple[float, ...]

    def worst(self, places: int) -> float:
        """The sum of the margins over the stretch of so many places where it is greatest."""
        if not self.margins:
            return 0.0
        whole = [0.0, *accumulate(self.margins)]
        length = min(places, len(self.margins))
        return max(end - start for start, end in zip(whole, whole[length:], strict=False))

    def own(self, number: int) -> float:
        """The sum of the margins where a word lies."""
        start, end = self.spans[number]
        return sum(self.margins[start:end])


def align(letters: Sequence[Sequence[float]], words: Sequence[str]) -> Alignment | None:
    """The best path of words through letters (places by letters, logarithms); None where there
    are too few places for them."""
    written, owner = _written(words)
    path = _path(letters, written)
    if path is None:
        return None
    labels = [written[state // 2] if state % 2 else BLANK for state in path]
    margins = [max(row) - row[label] for row, label in zip(letters, labels, strict=True)]
    spans = []
    for number in range(len(words)):
        own = [at for at, state in enumerate(path) if state % 2 and owner[state // 2] == number]
        spans.append((own[0], own[-1] + 1))
    return Alignment(tuple(spans), tuple(margins))


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


def _path(letters: Sequence[Sequence[float]], written: Sequence[int]) -> list[int] | None:
    """The best state in each place; even states are blanks, odd ones letters."""
    labels = [BLANK] * (2 * len(written) + 1)
    labels[1::2] = written
    # a letter may follow another letter without a blank
    skips = [at > 1 and at % 2 == 1 and one != labels[at - 2] for at, one in enumerate(labels)]
    best = [letters[0][label] if at < 2 else IMPOSSIBLE for at, label in enumerate(labels)]
    came: list[list[int]] = []
    for row in letters[1:]:
        steps = []
        new = []
        one = two = IMPOSSIBLE
        for here, label, skip in zip(best, labels, skips, strict=True):
            step, way = (1, one) if one > here else (0, here)
            if skip and two > way:
                step, way = 2, two
            steps.append(step)
            new.append(way + row[label])
            one, two = here, one
        came.append(steps)
        best = new
    state = len(labels) - 1 if best[-1] >= best[-2] else len(labels) - 2
    if best[state] <= IMPOSSIBLE / 2:
        return None
    path = [state]
    for steps in reversed(came):
        path.append(path[-1] - steps[path[-1]])
    return path[::-1]
