"""A person's own words, put into the words that they mean."""

from __future__ import annotations

from collections.abc import Mapping

from boxaloud.grammar.lexer.tokens import Tokens, tokenise


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
