"""What is settled between statements: bare answers in bad company, and words left unsaid."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from grammar import store
from grammar.statements import Doubt, Statement, Understanding

_RULES = store.table("rules")
#: Kinds that mean something only as an answer: next to words not understood they are not one.
_BARE = frozenset(_RULES["settle"]["bare"])
#: Kinds that a size said after them belongs to.
_SIZED = frozenset(_RULES["settle"]["sized"])
_FOR_ALL = tuple(_RULES["settle"]["for_all"])
_SPOILS_PLACE = frozenset(_RULES["settle"]["place_spoilt_by"])
_LONE = frozenset(_RULES["settle"]["lone"])
_NOT_BEFORE = frozenset(_RULES["settle"]["not_before"])
#: After these a plural needs no count.
_UNCOUNTED = frozenset(_RULES["settle"]["uncounted_after"])
#: kind -> the slot that may be left unsaid because a neighbour says it.
_CARRIED: dict[str, list[str]] = _RULES["settle"]["carried"]


def settled(
    heard: str,
    statements: list[Statement],
    left_over: list[tuple[int, int]],
    expect: str | None,
) -> Understanding:
    """The understanding of an utterance from its statements and its uncovered places."""
    statements = [_in_form(statement) for statement in _without_vague(statements)]
    if len(statements) > 1:
        statements, left_over = _without_loose_places(heard, statements, left_over)
    if left_over or len(statements) > 1:
        statements, left_over = _without_strays(heard, statements, left_over)
    statements = _carried(_sized(_asked_once(statements)))
    statements, left_over = _without_hollow(heard, statements, left_over)
    runs = tuple(heard[start:end] for start, end in left_over)
    return Understanding(heard, tuple(statements), runs)


def _without_strays(
    heard: str, statements: list[Statement], left_over: list[tuple[int, int]]
) -> tuple[list[Statement], list[tuple[int, int]]]:
    """A bare number beside words that were not understood is not understood either."""
    strays = [
        place
        for place, statement in enumerate(statements)
        if _beside_the_unknown(heard, statement, left_over) or _counting(heard, statements, place)
    ]
    if not strays:
        return statements, left_over
    runs = sorted([*left_over, *(statements[place].span for place in strays)])
    return [item for place, item in enumerate(statements) if place not in strays], _merged(
        heard, runs
    )


def _beside_the_unknown(heard: str, statement: Statement, left_over: list[tuple[int, int]]) -> bool:
    if statement.kind in _BARE:
        before = [run for run in left_over if run[1] <= statement.span[0]]
        return _touches(heard, statement.span, left_over) or _touches(
            heard, statement.span, before, _same_breath
        )
    lone = statement.kind in _LONE and " " not in statement.words
    return lone and _touches(heard, statement.span, left_over, _same_breath)


def _counting(heard: str, statements: list[Statement], place: int) -> bool:
    """ "five five five", "four two-gang boxes": numbers in one breath answer nothing."""
    if statements[place].kind != "number":
        return False
    here = statements[place].span
    before = statements[place - 1] if place else None
    after = statements[place + 1] if place + 1 < len(statements) else None
    if before and before.kind == "number" and _same_breath(heard[before.span[1] : here[0]]):
        return True
    between = heard[here[1] : after.span[0]] if after else ""
    return after is not None and (
        (after.kind == "number" and _same_breath(between))
        or (after.kind in _NOT_BEFORE and _together(between))
    )


def _without_hollow(
    heard: str, statements: list[Statement], left_over: list[tuple[int, int]]
) -> tuple[list[Statement], list[tuple[int, int]]]:
    """ "a feed" with no size to be found says no cable; "in the same box" says no box."""
    hollow = [item for item in statements if item.kind == "cable" and "awg" not in item.slots]
    kept = [item for item in statements if item.slots or item.kind != "box_kind"]
    if hollow:
        kept = [item for item in kept if item not in hollow]
        left_over = _merged(heard, sorted([*left_over, *(item.span for item in hollow)]))
    return kept, left_over


def _without_loose_places(
    heard: str, statements: list[Statement], left_over: list[tuple[int, int]]
) -> tuple[list[Statement], list[tuple[int, int]]]:
    """ "two cables inside" says nothing of clamps: a place is one only by itself."""
    spans = [statement.span for statement in statements if statement.kind in _SPOILS_PLACE]
    loose = [
        statement
        for statement in statements
        if statement.kind == "place" and _touches(heard, statement.span, spans)
    ]
    kept = [statement for statement in statements if statement not in loose]
    return kept, _merged(heard, sorted([*left_over, *(statement.span for statement in loose)]))


def _in_form(statement: Statement) -> Statement:
    """Three dimensions name the family: A x A is a square box, else a device box."""
    slots = statement.slots
    if statement.kind != "box_size" or "height" not in slots:
        return statement
    form = dict(slots)
    if form["width"] == form["height"]:
        form.setdefault("family", "square")
        if form["family"] == "square":
            del form["height"]
    else:
        form.setdefault("family", "device")
    return replace(statement, slots=form)


def _touches(
    heard: str,
    span: tuple[int, int],
    runs: Sequence[tuple[int, int]],
    near: Callable[[str], bool] | None = None,
) -> bool:
    """Whether `span` stands beside one of `runs`: directly, or as `near` judges what is between."""
    near = near or _together
    return any(
        near(heard[end : span[0]]) if end <= span[0] else near(heard[span[1] : start])
        for start, end in runs
    )


def _together(between: str) -> bool:
    return len(between) < 3 and not between.strip()


def _same_breath(between: str) -> bool:
    """No break between, and no more than a few words that mean nothing."""
    return len(between) < 12 and not any(sign in between for sign in ",.;:!?\n")


def _merged(heard: str, runs: list[tuple[int, int]]) -> list[tuple[int, int]]:
    merged: list[tuple[int, int]] = []
    for start, end in runs:
        if merged and _together(heard[merged[-1][1] : start]):
            merged[-1] = (merged[-1][0], end)
        else:
            merged.append((start, end))
    return merged


def _sized(statements: list[Statement]) -> list[Statement]:
    """ "two whites, two blacks and a red, all number twelve": one size for those before it."""
    found = list(statements)
    for place in range(len(found) - 1, 0, -1):
        if found[place].kind != "size" or not _unsized(found[place - 1]):
            continue
        size = found.pop(place)
        before = place - 1
        while before >= 0 and _unsized(found[before]):
            found[before] = _with_size(found[before], size, sure=before == place - 1)
            before -= 1
    return found


def _unsized(statement: Statement) -> bool:
    return statement.kind in _SIZED and "awg" not in statement.slots


def _with_size(statement: Statement, size: Statement, sure: bool) -> Statement:
    """`statement` with the size said after it; in doubt for all but the last before it."""
    sure = sure or size.words.lower().startswith(_FOR_ALL)
    return replace(
        statement,
        slots={**statement.slots, "awg": size.slots["awg"]},
        doubts=statement.doubts if sure else (*statement.doubts, Doubt("awg", "carried")),
    )


def _without_vague(statements: list[Statement]) -> list[Statement]:
    """Nobody need say how many where a question or a removal names a kind of thing."""
    found = list(statements)
    for place, statement in enumerate(found):
        if place and statement.kind == "size" and found[place - 1].kind == "room_for":
            found[place] = replace(statement, kind="conductors")
        if place and statement.doubts and found[place - 1].kind in _UNCOUNTED:
            kept = tuple(doubt for doubt in statement.doubts if doubt.reason != "vague")
            found[place] = replace(statement, doubts=kept)
    return found


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
    """The statement at `place` with `slot` from the nearest neighbour of its kind.

    A role named first ("a feed and …") looks ahead; a count alone ("… and one out") looks back.
    """
    mine = statements[place]
    for step in (-1, 1) if mine.get("role") in ("in", "out") else (1, -1):
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
