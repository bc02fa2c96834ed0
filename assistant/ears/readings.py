"""Other ways an utterance may have gone, and how sure each word is, from an engine's hypotheses."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

from assistant.ears.hearing import UNKNOWN
from grammar.words import Word

#: Readings given of an utterance, and how many hypotheses are weighed for them.
READINGS = 5
WEIGHED = 15


@dataclass(frozen=True, slots=True)
class Segment:
    """A word of the best path: how long it lasts in frames, and its posterior probability."""

    text: str
    frames: int
    probability: float


def sureness(segments: Sequence[Segment], known: frozenset[str]) -> float:
    """How much of an utterance was surely heard as the trade's words: 0 none, 1 all."""
    whole = sum(part.frames for part in segments)
    sure = sum(part.frames * part.probability for part in segments if part.text in known)
    return sure / whole if whole else 0.0


def masked(words: Iterable[str], known: frozenset[str]) -> tuple[str, ...]:
    """The words, with one `UNKNOWN` for each run of them that is not of the trade."""
    masked: list[str] = []
    for word in words:
        text = word if word in known else UNKNOWN
        if text != UNKNOWN or masked[-1:] != [UNKNOWN]:
            masked.append(text)
    return tuple(masked)


def readings(hypotheses: Iterable[tuple[tuple[str, ...], float]]) -> tuple[tuple[Word, ...], ...]:
    """Weigh hypotheses against each other.

    Args:
        hypotheses: texts, the likeliest first, each with the logarithm of its likelihood. One
            text may come several times, having been found in several ways.

    Returns:
        The likeliest readings. A word's confidence is the share of all likelihood that has the
        same word in the same place.
    """
    weights: dict[tuple[str, ...], float] = {}
    best = -math.inf
    for texts, likelihood in hypotheses:
        if not texts or (texts not in weights and len(weights) == WEIGHED):
            continue
        best = max(best, likelihood)
        weights[texts] = weights.get(texts, 0.0) + math.exp(likelihood - best)
    whole = sum(weights.values())
    shares = {texts: weight / whole for texts, weight in weights.items()}
    return tuple(
        tuple(map(Word, texts, _confidences(texts, shares))) for texts in list(shares)[:READINGS]
    )


def _confidences(
    texts: tuple[str, ...], shares: dict[tuple[str, ...], float]
) -> Iterable[float | None]:
    agreed = [0.0] * len(texts)
    matcher = SequenceMatcher(autojunk=False)
    matcher.set_seq2(texts)
    for others, share in shares.items():
        matcher.set_seq1(others)
        for block in matcher.get_matching_blocks():
            for place in range(block.b, block.b + block.size):
                agreed[place] += share
    return [round(min(1.0, value), 4) for value in agreed]
