"""Other ways an utterance may have gone, and how sure each word is, from an engine's hypotheses."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

from boxaloud.assistant.asr.asr_types import UNKNOWN, RecognitionResult
from boxaloud.grammar.lexer.heard_words import Word

#: Readings given of an utterance, and how many hypotheses are weighed for them.
NBEST_SIZE = 5
HYPOTHESES_WEIGHED = 15


@dataclass(frozen=True, slots=True)
class WordSegment:
    """A word of the best path: how long it lasts in frames, and its posterior probability."""

    text: str
    frames: int
    probability: float


def sureness(segments: Sequence[WordSegment], known: frozenset[str]) -> float:
    """How much an utterance was about the trade: 1 surely all of it, -1 surely none of it.

    The share of its time surely heard as the trade's words, less that heard as other words.
    """
    whole = sum(part.frames for part in segments)
    sure = sum(part.frames * part.probability for part in segments if part.text in known)
    other = sum(part.frames for part in segments if part.text not in known)
    return (sure - other) / whole if whole else -1.0


def masked(words: Iterable[str], known: frozenset[str]) -> tuple[str, ...]:
    """The words, with one `UNKNOWN` for each run of them that is not of the trade."""
    masked: list[str] = []
    for word in words:
        text = word if word in known else UNKNOWN
        if text != UNKNOWN or masked[-1:] != [UNKNOWN]:
            masked.append(text)
    return tuple(masked)


def readings(
    best: tuple[str, ...], hypotheses: Iterable[tuple[tuple[str, ...], float]]
) -> tuple[tuple[Word, ...], ...]:
    """Weigh hypotheses against each other.

    Args:
        best: the texts of the engine's own choice.
        hypotheses: texts, the likeliest first, each with the logarithm of its likelihood. One
            text may come several times, having been found in several ways.

    Returns:
        `best`, and the likeliest others. A word's confidence is the share of all likelihood that
        has the same word in the same place.
    """
    return weighed(best, hypotheses).readings


def weighed(
    best: tuple[str, ...], hypotheses: Iterable[tuple[tuple[str, ...], float]]
) -> RecognitionResult:
    """The same, with the share of all likelihood that each reading has."""
    weights: dict[tuple[str, ...], float] = {}
    highest = -math.inf
    for texts, likelihood in hypotheses:
        if texts and (texts in weights or len(weights) < HYPOTHESES_WEIGHED):
            highest = max(highest, likelihood)
            weights[texts] = weights.get(texts, 0.0) + math.exp(likelihood - highest)
    if best not in weights:
        weights[best] = 1.0
    whole = sum(weights.values())
    shares = {texts: weight / whole for texts, weight in weights.items()}
    ordered = [best, *(texts for texts in shares if texts != best)][:NBEST_SIZE]
    return RecognitionResult(
        tuple(tuple(map(Word, texts, _word_posteriors(texts, shares))) for texts in ordered),
        shares=tuple(shares[texts] for texts in ordered),
    )


def _word_posteriors(
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
