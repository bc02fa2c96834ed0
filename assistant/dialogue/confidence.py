"""How sure the ear was: of an utterance, and of each act in it. A score, never a volume."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.belief import belief_table, sound_effects
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.grammar.acts import Utterance
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.lexer.tokens import join


def confidence_of(words: str | Sequence[Word]) -> float | None:
    """The least confidence of the words, None for typed text: an utterance is as sure as its
    least sure word."""
    if isinstance(words, str):
        return None
    scores = [word.confidence for word in words if word.confidence is not None]
    return round(min(scores), 4) if scores else None


def heard_with(
    read: Utterance,
    words: Sequence[Word],
    asked: str | None = None,
    before: Entry | None = None,
) -> Utterance:
    """The utterance with a doubt on each act whose deciding word the ear was unsure of, and
    without bare answers to the question `asked` that it hardly heard. `before` is what was said
    last of the same box."""
    _, starts = join(words)
    scored = [
        (
            act,
            sound_effects.with_earlier(act, _score(act.span, words, starts), asked, before),
        )
        for act in read.acts
    ]
    return replace(
        read,
        acts=tuple(
            sound_effects.asked_first(belief_table.unsure(act, score), score)
            for act, score in scored
            if not sound_effects.answers_nothing(act, score, asked)
        ),
    )


def _score(span: tuple[int, int], words: Sequence[Word], starts: Sequence[int]) -> float:
    """The least confidence among the words of a span."""
    first, end = span
    inside = [
        word.confidence
        for word, start in zip(words, starts, strict=True)
        if start < end and start + len(word.text) > first and word.confidence is not None
    ]
    return round(min(inside), 4) if inside else 1.0
