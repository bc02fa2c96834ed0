"""A person's own words, put into the words that they mean."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, TypeAlias

from boxaloud.grammar import grammar_data
from boxaloud.grammar.lexer import numbers
from boxaloud.grammar.lexer.tokens import Tokens, tokenise

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
    from boxaloud.grammar.clauses.act_fields import (  # the acts, for a word that is rarely said
        BOX,
        THINGS,
    )
    from boxaloud.grammar.phrases.statement_parser import understand

    found = understand(say)
    things = {*THINGS, *BOX, "unclear"}
    kinds = {statement.kind for statement in found.statements}
    return bool(kinds) and not found.left_over and not kinds & things


def replaced(tokens: Tokens, aliases: Mapping[str, str]) -> Tokens:
    """`tokens` with every alias replaced. What replaces it keeps the place of what was said."""
    table: dict[str, list[tuple[list[str], list[str]]]] = {}
    for say, mean in aliases.items():
        said = tokenise(say).texts
        if said:
            table.setdefault(said[0], []).append((said, tokenise(mean).texts))
    for ways in table.values():
        ways.sort(key=lambda way: -len(way[0]))
    made = Tokens(tokens.heard, [], [], [])
    place = 0
    while place < len(tokens.texts):
        text = tokens.texts[place]
        for said, meant in table.get(text, ()):
            end = place + len(said)
            if tokens.texts[place:end] == said:
                _extend(made, meant, tokens.starts[place], tokens.ends[end - 1])
                place = end
                break
        else:
            _extend(made, [text], tokens.starts[place], tokens.ends[place])
            place += 1
    return made


def _extend(made: Tokens, texts: list[str], start: int, end: int) -> None:
    made.texts.extend(texts)
    made.starts.extend([start] * len(texts))
    made.ends.extend([end] * len(texts))
