"""Which words a person may not give another meaning: numbers, units, answers, commands."""

from __future__ import annotations

from typing import Literal, TypeAlias

from boxaloud.grammar import grammar_data
from boxaloud.grammar.clauses.act_fields import BOX, THINGS
from boxaloud.grammar.lexer import numbers
from boxaloud.grammar.lexer.tokens import tokenise
from boxaloud.grammar.phrases.statement_parser import understand

Refusal: TypeAlias = Literal["", "number", "control", "long"]
"""Why an own word cannot be taken; empty where it can."""
MOST_SAID, MOST_MEANT = 6, 40
"""Words of an own word, and of what it means."""


def refusal(say: str, mean: str) -> Refusal:
    """Why `say` cannot stand for `mean`: numbers, units, answers and commands are what everything
    else is counted and mended by, so that none of them is ever another word's."""
    texts, meant = tokenise(say).texts, tokenise(mean).texts
    if not texts or len(texts) > MOST_SAID or len(meant) > MOST_MEANT:
        return "long"
    words = grammar_data.table("lexicon")["words"]
    little = {*words["filler"], *words["hesitation"]}
    weighty = [text for text in texts if text not in little]
    if any(text in _negators() for text in weighty) or not weighty:
        return "control"
    if not any(_names(text) and text not in words["never_own"] for text in weighty):
        return "number"
    return "control" if _is_control(say) else ""


def _names(text: str) -> bool:
    """Whether a token is a word, and no sign or number."""
    number = numbers.word_classes(text) or numbers.value((text,)) is not None
    return text[0].isalpha() and not number


def _negators() -> frozenset[str]:
    return frozenset(grammar_data.table("clauses")["polarity"]["negators"])


def _is_control(say: str) -> bool:
    """Whether the words by themselves are an answer, a command or a question."""
    found = understand(say)
    things = {*THINGS, *BOX, "unclear"}
    kinds = {statement.kind for statement in found.statements}
    return bool(kinds) and not found.left_over and not kinds & things
