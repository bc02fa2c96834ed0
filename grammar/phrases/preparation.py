"""An utterance made ready for the engine: tokens and symbols, hesitations stepped over."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from boxaloud.grammar import grammar_data
from boxaloud.grammar.lexer import own_words as own_words
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.lexer.symbols import HESITATION
from boxaloud.grammar.lexer.tokens import LONGEST, Tokens, join, tokenise
from boxaloud.grammar.phrases.best_cover import engine
from boxaloud.grammar.phrases.vocabulary import written_out


@dataclass(slots=True)
class Heard:
    """An utterance on its way: its tokens without hesitations, and the ear's confidence."""

    tokens: Tokens
    symbols: list[int]
    words: Sequence[Word] = ()
    word_starts: Sequence[int] = ()


def prepared(words: str | Sequence[Word], aliases: Mapping[str, str] | None = None) -> Heard:
    """An utterance cut into tokens and symbols, hesitations stepped over."""
    starts: Sequence[int] = ()
    if isinstance(words, str):
        text, words = words, ()
    else:
        text, starts = join(words)
    tokens = (
        tokenise(text[:LONGEST])._replace(heard=text) if len(text) > LONGEST else tokenise(text)
    )
    if aliases:
        tokens = own_words.replaced(tokens, aliases)
    _parted(tokens)
    if "mm" in tokens.texts:
        _measured(tokens.texts)
    if not words:
        _in_full(tokens)
    machine = engine()
    known, of, cost = machine.symbols.known, machine.symbols.of, machine.symbols.cost
    symbols = [known[text] if text in known else of(text) for text in tokens.texts]
    if any(cost[symbol] == HESITATION for symbol in symbols):
        tokens, symbols = _without_hesitation(tokens, symbols, cost)
    tokens.texts.append("")
    tokens.starts.append(len(text))
    tokens.ends.append(len(text))
    symbols.append(of(""))
    return Heard(tokens, symbols, words, starts)


_VERBS = frozenset(grammar_data.table("clauses")["mood"]["parting_verbs"])


def _parted(tokens: Tokens) -> None:
    """ "go back to box 1 and add a dimmer": "and" before an order is a break."""
    texts = tokens.texts
    for place in range(1, len(texts) - 1):
        if texts[place] == "n":
            texts[place] = "and"
        elif (
            texts[place] == "/"
            and tokens.heard[tokens.ends[place] : tokens.ends[place] + 1].isspace()
        ):
            texts[place] = ","  # "12-2 x 3 / duplex x 1": an item each
        if texts[place] in ("and", "then", "but") and texts[place + 1] in _VERBS:
            texts[place] = ","


def _in_full(tokens: Tokens) -> None:
    """What was typed short is the word that it is short for; the point behind it ends nothing."""
    texts = tokens.texts
    for place, text in enumerate(texts):
        if len(text) > 2 and (full := written_out(text)) != text:
            texts[place] = full
    for place in range(len(texts) - 2, 0, -1):
        if texts[place] == "." and _points_nowhere(tokens, place):
            for of_each in tokens[1:]:
                del of_each[place]


def _points_nowhere(tokens: Tokens, place: int) -> bool:
    """ "Clmps. o/s": a point behind what was written short, in the midst of a sentence."""
    begin, end = tokens.starts[place - 1], tokens.ends[place - 1]
    written = tokens.heard[begin:end].lower()
    behind = tokens.heard[tokens.starts[place + 1]]
    return (
        tokens.starts[place] == end
        and written != tokens.texts[place - 1]
        and (behind.islower() or behind.isdecimal())
    )


def _measured(texts: list[str]) -> None:
    """ "18 mm": behind a figure it is a unit, and no sound made in thought."""
    for place in range(1, len(texts)):
        if texts[place] == "mm" and texts[place - 1][-1:].isdecimal():
            texts[place] = "millimeter"


def _without_hesitation(
    tokens: Tokens, symbols: list[int], cost: list[int]
) -> tuple[Tokens, list[int]]:
    kept = [place for place, symbol in enumerate(symbols) if cost[symbol] != HESITATION]
    return (
        Tokens(
            tokens.heard,
            [tokens.texts[place] for place in kept],
            [tokens.starts[place] for place in kept],
            [tokens.ends[place] for place in kept],
        ),
        [symbols[place] for place in kept],
    )
