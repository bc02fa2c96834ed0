"""What is settled between statements: bare answers in bad company, and words left unsaid."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar import store
from grammar.statements import Doubt, Statement, Understanding

_RULES = store.table("rules")
#: Kinds that mean something only as an answer: next to words not understood they are not one.
_BARE = frozenset(_RULES["settle"]["bare"])
#: kind -> the slot that may be left unsaid because a neighbour says it.
_CARRIED: dict[str, list[str]] = _RULES["settle"]["carried"]


def settled(
    heard: str,
    statements: list[Statement],
    left_over: list[tuple[int, int]],
    expect: str | None,
) -> Understanding:
    """The understanding of an utterance from its statements and its uncovered places."""
    if left_over:
        statements, left_over = _without_strays(heard, statements, left_over)
    statements = _carried(_asked_once(statements))
    runs = tuple(heard[start:end] for start, end in left_over)
    return Understanding(heard, tuple(statements), runs)


def _without_strays(
    heard: str, statements: list[Statement], left_over: list[tuple[int, int]]
) -> tuple[list[Statement], list[tuple[int, int]]]:
    """A bare number beside words that were not understood is not understood either."""
    kept: list[Statement] = []
    runs = list(left_over)
    for statement in statements:
        if statement.kind in _BARE and _touches(heard, statement.span, left_over):
            runs.append(statement.span)
        else:
            kept.append(statement)
    return kept, _merged(heard, sorted(runs))


def _touches(heard: str, span: tuple[int, int], runs: Sequence[tuple[int, int]]) -> bool:
    return any(
        _together(heard[end : span[0]]) if end <= span[0] else _together(heard[span[1] : start])
        for start, end in runs
    )


def _together(between: str) -> bool:
    return len(between) < 3 and not between.strip()


def _merged(heard: str, runs: list[tuple[int, int]]) -> list[tuple[int, int]]:
    merged: list[tuple[int, int]] = []
    for start, end in runs:
        if merged and _together(heard[merged[-1][1] : start]):
            merged[-1] = (merged[-1][0], end)
        else:
            merged.append((start, end))
    return merged


def _asked_once(statements: list[Statement]) -> list[Statement]:
    """ "how many more 14-2s can I bring in" asks once, though both of its ends ask."""
    return [
        statement
        for place, statement in enumerate(statements)
        if statement.kind != "room_for"
        or not any(before.kind == "room_for" for before in statements[max(0, place - 3) : place])
    ]


def _carried(statements: list[Statement]) -> list[Statement]:
    """What is left unsaid is carried over from a neighbour, in doubt.

    "a feed and two switch legs of 14-2", "one switch on 14 and two on 12".
    """
    found = list(statements)
    for place, statement in enumerate(found):
        for slot in _CARRIED.get(statement.kind, ()):
            if slot not in statement.slots:
                found[place] = statement = _borrowed(found, place, slot)
    return found


def _borrowed(statements: list[Statement], place: int, slot: str) -> Statement:
    """The statement at `place` with `slot` from the nearest neighbour of its kind."""
    mine = statements[place]
    for step in (1, -1):
        at = place + step
        if not 0 <= at < len(statements):
            continue
        other = statements[at]
        if other.kind == mine.kind and slot in other.slots:
            return replace(
                mine,
                slots={**mine.slots, slot: other.slots[slot]},
                doubts=(*mine.doubts, Doubt(slot, "carried")),
            )
    return mine
