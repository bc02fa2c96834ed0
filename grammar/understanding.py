"""Words in, statements out: the way of one utterance through the grammar."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from grammar import aliases as own_words
from grammar import doubts, settle, slots, store
from grammar.engine import Capture, Engine, engine
from grammar.statements import Statement, Understanding, Value
from grammar.symbols import BREAKS, FREE, HESITATION
from grammar.tokens import LONGEST, Tokens, join, tokenise
from grammar.words import Word


@dataclass(slots=True)
class Heard:
    """An utterance on its way: its tokens without hesitations, and the ear's confidence."""

    tokens: Tokens
    symbols: list[int]
    words: Sequence[Word] = ()
    word_starts: Sequence[int] = ()


def understand(
    words: str | Sequence[Word],
    expect: str | None = None,
    aliases: Mapping[str, str] | None = None,
) -> Understanding:
    """The statements in an utterance, in the order said, and what was not understood.

    `expect` names the open question (`box`, `clamps`, `device_size` …) and only breaks ties
    between readings of a bare answer. `aliases` are a person's own words and what they mean.
    A statement's `span` are the places of its words in `Understanding.heard`.
    """
    heard = prepared(words, aliases)
    machine = engine()
    spans = machine.cover(heard.symbols, expect)
    found = [_statement(machine, heard, span) for span in spans]
    settled = settle.settled(
        heard.tokens.heard,
        [statement for statement in found if statement.kind],
        _left_over(machine, heard, spans),
    )
    passed = tuple(statement.span for statement in found if not statement.kind)
    return replace(settled, passed=(*settled.passed, *passed)) if passed else settled


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


_VERBS = frozenset(store.table("clauses")["mood"]["parting_verbs"])


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


def _statement(machine: Engine, heard: Heard, span: tuple[int, int, int]) -> Statement:
    """The statement of one chosen span."""
    first, end, index = span
    began = first
    phrase = machine.phrases[index]
    capture = machine.capture(index, tuple(heard.symbols[first:end]))
    texts = heard.tokens.texts
    while end > first + 1 and (texts[end - 1] in BREAKS or not texts[end - 1]):
        end -= 1
    while first < end - 1 and texts[first] in BREAKS and texts[first] not in "([":
        first += 1
    if not phrase.kind:
        return Statement("", span=(heard.tokens.starts[first], heard.tokens.ends[end - 1]))
    start, stop = heard.tokens.starts[first], heard.tokens.ends[end - 1]
    values = slots.values(capture, heard.tokens, began)
    return Statement(
        phrase.kind,
        values,
        heard.tokens.heard[start:stop],
        (start, stop),
        doubts.of(machine, heard, (began, end), phrase.kind, capture, values),
    )


def _left_over(
    machine: Engine, heard: Heard, spans: list[tuple[int, int, int]]
) -> list[tuple[int, int]]:
    """The places of every run of words that no phrase covers and that are no filler."""
    cost, symbols, tokens = machine.symbols.cost, heard.symbols, heard.tokens
    runs: list[tuple[int, int]] = []
    place = 0
    for first, end, _ in [*spans, (len(symbols), 0, 0)]:
        run: list[int] = []
        for token in range(place, first):
            if cost[symbols[token]] > FREE:
                run.append(token)
            elif run and (tokens.texts[token] in BREAKS):
                runs.append((tokens.starts[run[0]], tokens.ends[run[-1]]))
                run = []
        if run:
            runs.append((tokens.starts[run[0]], tokens.ends[run[-1]]))
        place = end
    if len(heard.tokens.heard) > LONGEST:
        runs.append((LONGEST, len(heard.tokens.heard)))
    return runs


__all__ = ["Capture", "Heard", "Value", "understand"]
