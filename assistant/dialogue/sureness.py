"""How sure the ear was: of an utterance, and of each statement in it.

The grammar doubts numbers that were heard badly; here the words that are no numbers and yet
decide something (inside or outside, deep or shallow, an edition) get their doubt.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from assistant.dialogue.unused import beside, torn
from grammar.statements import Doubt, Statement, Understanding
from grammar.tokens import join
from grammar.words import Word

SURE = 0.6
"""Below this a deciding word is asked back, as the grammar does with numbers."""

DECIDING = {
    "clamps": "where",
    "place": "where",
    "none": "",
    "nothing": "of",
    "box_size": "family",
    "part": "name",
    "barrier": "material",
    "edition": "year",
    "device": "name",
    "fitting": "name",
    "fixture_wires": "canopy",
    "cable": "ground",
    "grounds": "count",
    "lands_on": "name",
}
"""Kinds with a word that decides something, and the slot it fills."""


def confidence_of(words: str | Sequence[Word]) -> float | None:
    """The least confidence of the words, None for typed text: an utterance is as sure as its
    least sure word. A score, never a volume."""
    if isinstance(words, str):
        return None
    scores = [word.confidence for word in words if word.confidence is not None]
    return round(min(scores), 4) if scores else None


def doubted(
    understanding: Understanding, words: str | Sequence[Word]
) -> tuple[tuple[Statement, ...], tuple[str, ...], tuple[float, ...]]:
    """The statements with their doubts, the words left over, and the confidence of each
    statement; none for typed text."""
    heard = understanding.heard
    statements, left_over = torn(heard, understanding.statements, understanding.left_over)
    if isinstance(words, str) or confidence_of(words) is None:
        return statements, left_over, ()
    _, starts = join(words)
    kept, left_over = beside(heard, statements, left_over)
    scores = tuple(_score(statement, words, starts) for statement in kept)
    pairs = zip(kept, scores, strict=True)
    return tuple(_doubted(statement, score) for statement, score in pairs), left_over, scores


def _score(statement: Statement, words: Sequence[Word], starts: Sequence[int]) -> float:
    """The least confidence among the words of a statement."""
    first, end = statement.span
    inside = [
        word.confidence
        for word, start in zip(words, starts, strict=True)
        if start < end and start + len(word.text) > first and word.confidence is not None
    ]
    return round(min(inside), 4) if inside else 1.0


def _doubted(statement: Statement, score: float) -> Statement:
    if score >= SURE or statement.kind not in DECIDING or statement.doubts:
        return statement
    return replace(statement, doubts=(Doubt(DECIDING[statement.kind], "heard"),))
