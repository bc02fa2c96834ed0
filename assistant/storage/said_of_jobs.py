"""What is said of a job: the edition that it is begun under, and the words behind a new one."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.assistant.text.problem import Problem
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.lexer.tokens import join
from boxaloud.rules import DEFAULT_EDITION, RulesError, check_edition


def words_after(words: str | Sequence[Word], end: int) -> str | tuple[Word, ...]:
    """What of an utterance stands after a place in it; empty where nothing does."""
    if isinstance(words, str):
        return words[end:].strip(" ,.;:")
    text, starts = join(words)
    rest = tuple(word for word, start in zip(words, starts, strict=True) if start >= end)
    return rest if text[end:].strip(" ,.;:") else ""


def edition_of(text: str) -> str:
    """An edition that can be counted by, the default where none is named. Raises Problem."""
    try:
        return check_edition(text) if text else DEFAULT_EDITION
    except RulesError as refusal:
        raise Problem(str(refusal)) from None
