"""Words in, statements out: the way of one utterance through the grammar."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import TypeAlias

from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.lexer.symbols import BREAKS, FREE
from boxaloud.grammar.lexer.tokens import LONGEST, Tokens
from boxaloud.grammar.phrases import (
    colon_counts,
    counts_behind,
    ellipsis,
    rejection,
    slot_doubts,
    slots,
)
from boxaloud.grammar.phrases.best_cover import Capture, Engine, engine
from boxaloud.grammar.phrases.preparation import Heard, prepared
from boxaloud.grammar.phrases.statements import Doubt, Statement, Understanding, Value


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
    read = [_statement(machine, heard, span) for span in spans]
    found = counts_behind.settled(
        heard.tokens.heard, colon_counts.settled(heard.tokens.heard, read)
    )
    settled = ellipsis.settled(
        heard.tokens.heard,
        [statement for statement in found if statement.kind],
        _left_over(machine, heard, spans),
    )
    if expect and rejection.astray(heard.tokens.texts, read, settled.statements):
        return understand(words, None, aliases)
    passed = tuple(statement.span for statement in found if not statement.kind)
    return replace(settled, passed=(*settled.passed, *passed)) if passed else settled


def _statement(machine: Engine, heard: Heard, span: tuple[int, int, int]) -> Statement:
    """The statement of one chosen span."""
    first, end, index = span
    kind = machine.phrases[index].kind
    texts = heard.tokens.texts
    read = None if heard.words else _typed(index, tuple(texts[first:end]))
    values, doubted = read or _read(machine, heard, span)
    while end > first + 1 and (texts[end - 1] in BREAKS or not texts[end - 1]):
        end -= 1
    while first < end - 1 and texts[first] in BREAKS and texts[first] not in "([":
        first += 1
    start, stop = heard.tokens.starts[first], heard.tokens.ends[end - 1]
    if not kind:
        return Statement("", span=(start, stop))
    return Statement(kind, values, heard.tokens.heard[start:stop], (start, stop), doubted)


_Read: TypeAlias = tuple[dict[str, Value], tuple[Doubt, ...]]


def _read(machine: Engine, heard: Heard, span: tuple[int, int, int]) -> _Read:
    """What a chosen span says, and what is in doubt of it."""
    first, end, index = span
    capture = machine.capture(index, tuple(heard.symbols[first:end]))
    values = slots.values(capture, heard.tokens, first)
    kind = machine.phrases[index].kind
    return values, slot_doubts.of(machine, heard, (first, end), kind, capture, values)


@lru_cache(maxsize=4096)
def _typed(index: int, texts: tuple[str, ...]) -> _Read | None:
    """The same for typed words, wherever they stand; None where a name is taken as written."""
    machine = engine()
    symbols = [machine.symbols.of(text) for text in texts]
    if slots.quotes(machine.capture(index, tuple(symbols))):
        return None
    return _read(machine, Heard(Tokens("", list(texts), [], []), symbols), (0, len(texts), index))


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
