"""Words that an ear gave and nothing could be made of: no verdict stands over them unsettled.

They are said at once ("I did not use …"). Right beside a statement they may have changed its
meaning ("know clamps" for "no clamps"), so that statement is asked back; standing alone with a
number or a thing of the trade in them, they are asked about before a verdict is given. Saying
on what they were about settles them, and so does "skip". Of typed text they are only said:
the line stands there to be read.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache

from assistant.dialogue.choosing import first_value
from assistant.dialogue.correcting import CONTENT_KINDS
from assistant.dialogue.doubting import BARE, OPERATORS
from assistant.dialogue.turn import Turn
from grammar import numbers
from grammar.statements import Doubt, Statement
from grammar.symbols import Lexicon

BOX_KINDS = frozenset({"box_volume", "box_size", "part", "barrier"})
VALUES = CONTENT_KINDS | BARE | BOX_KINDS | {"clamps", "place", "none", "edition", "lands_on"}
"""Kinds that a word beside them may have changed the meaning of."""

FILLING = BOX_KINDS | {"clamps", "edition"}


def beside(
    heard: str, statements: Sequence[Statement], left_over: Sequence[str]
) -> tuple[tuple[Statement, ...], tuple[str, ...]]:
    """The statements, with a doubt on each that unused words stand right beside; and the words
    left over, with those of bare values among them, which alone say too little to ask about."""
    places = list(_places(heard, left_over))
    kept: list[Statement] = []
    for statement in statements:
        touched = any(_touch(heard, statement.span, place) for place in places)
        if touched and _says_little(statement):
            places.append(statement.span)
        elif touched and statement.kind in VALUES:
            doubt = Doubt(first_value(statement), "beside")
            kept.append(replace(statement, doubts=(*statement.doubts, doubt)))
        else:
            kept.append(statement)
    return tuple(kept), tuple(heard[start:end] for start, end in _joined(heard, places))


def torn(
    heard: str, statements: Sequence[Statement], left_over: Sequence[str]
) -> tuple[tuple[Statement, ...], tuple[str, ...]]:
    """Without operators whose operand was not understood: "take off the widget" must not take
    off the last thing said."""
    places = list(_places(heard, left_over))
    kept: list[Statement] = []
    for statement in statements:
        end = statement.span[1]
        after = any(start >= end and not heard[end:start].strip() for start, _ in places)
        if statement.kind in OPERATORS and after:
            places.append(statement.span)
        else:
            kept.append(statement)
    return tuple(kept), tuple(heard[start:end] for start, end in _joined(heard, places))


def _says_little(statement: Statement) -> bool:
    """True for a bare number, and for a depth without its box."""
    alone = statement.kind == "box_size" and "family" not in statement.slots
    return statement.kind in BARE or (alone and "row" not in statement.slots)


def _joined(heard: str, places: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Runs of unused words, those that stand beside each other as one."""
    runs: list[tuple[int, int]] = []
    for start, end in sorted(places):
        if runs and not heard[runs[-1][1] : start].strip():
            runs[-1] = (runs[-1][0], end)
        else:
            runs.append((start, end))
    return runs


def _places(heard: str, left_over: Sequence[str]) -> Iterator[tuple[int, int]]:
    at = 0
    for words in left_over:
        at = max(heard.find(words, at), 0)
        yield at, at + len(words)
        at += len(words)


def _touch(heard: str, span: tuple[int, int], place: tuple[int, int]) -> bool:
    """True where nothing but a space lies between a statement and unused words."""
    first, second = sorted((span, place))
    return not heard[first[1] : second[0]].strip()


def keep(turn: Turn, heard: str, statements: Sequence[Statement], left_over: Sequence[str]) -> None:
    """Mark what this utterance left unused, or settle what an earlier one did."""
    alone = [
        words
        for words, place in zip(left_over, _places(heard, left_over), strict=True)
        if _weighs(words) and not any(_touch(heard, s.span, place) for s in statements)
    ]
    words = [*alone, *(run for run in turn.unplaced if _weighs(run))]
    if turn.spoken and words and not turn.stepped:
        kept = tuple(dict.fromkeys((*turn.state.unused, *words)))
        kinds = frozenset(turn.kinds) if turn.understood else frozenset()
        turn.state = replace(turn.state, unused=kept, unused_with=kinds)
    elif turn.state.unused and not left_over and _settled(turn):
        turn.state = replace(turn.state, unused=(), unused_with=frozenset())


@cache
def _things() -> frozenset[str]:
    plural = Lexicon().plural
    return frozenset([*plural, *plural.values()])


def _weighs(words: str) -> bool:
    """True where a number or a thing of the trade is among the words."""
    return any(
        word in _things() or numbers.word_classes(word) or any(map(str.isdigit, word))
        for word in words.lower().split()
    )


def _settled(turn: Turn) -> bool:
    """True where what was not understood has been said again, as far as one can know.

    An utterance of which nothing was understood is settled by the next one that enters
    anything; words left over beside others, by contents or by more of what stood with them.
    """
    if not turn.trail:
        return False
    beside_what = turn.state.unused_with
    if not beside_what or turn.kinds & (CONTENT_KINDS | OPERATORS):
        return True
    return bool(turn.kinds & beside_what & FILLING)
