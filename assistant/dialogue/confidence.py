"""How sure the ear was: of an utterance, and of each act in it. A score, never a volume."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.belief import belief_table
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.lexer.tokens import join


def confidence_of(words: str | Sequence[Word]) -> float | None:
    """The least confidence of the words, None for typed text: an utterance is as sure as its
    least sure word."""
    if isinstance(words, str):
        return None
    scores = [word.confidence for word in words if word.confidence is not None]
    return round(min(scores), 4) if scores else None


def heard_with(read: Utterance, words: Sequence[Word]) -> Utterance:
    """The utterance with a doubt on each act whose deciding word the ear was unsure of."""
    _, starts = join(words)
    return replace(read, acts=tuple(_act(act, words, starts) for act in read.acts))


def _act(act: Act, words: Sequence[Word], starts: Sequence[int]) -> Act:
    return belief_table.unsure(act, _score(act.span, words, starts))


def _score(span: tuple[int, int], words: Sequence[Word], starts: Sequence[int]) -> float:
    """The least confidence among the words of a span."""
    first, end = span
    inside = [
        word.confidence
        for word, start in zip(words, starts, strict=True)
        if start < end and start + len(word.text) > first and word.confidence is not None
    ]
    return round(min(inside), 4) if inside else 1.0
