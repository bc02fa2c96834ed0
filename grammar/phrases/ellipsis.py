"""What is settled between statements: sizes said once for several, and words left unsaid."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import grammar_data
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.rejection import Span, sifted, without_hollow
from boxaloud.grammar.phrases.statements import Doubt, Statement, Understanding

_RULES = grammar_data.table("rules")["settle"]
#: Kinds that a size said after them belongs to.
_SIZED = frozenset(_RULES["sized"])
_VALUES = frozenset(_RULES["values"])
_CORRECTING = frozenset(_RULES["correcting"])
_FOR_ALL = tuple(_RULES["for_all"])
#: After these a plural needs no count.
_UNCOUNTED = frozenset(_RULES["uncounted_after"])
#: kind -> the slots that may be left unsaid because a neighbour says them.
_CARRIED: dict[str, list[str]] = _RULES["carried"]


def settled(heard: str, statements: list[Statement], left_over: list[Span]) -> Understanding:
    """The understanding of an utterance from its statements and its uncovered places."""
    statements = [_in_form(statement) for statement in _without_vague(statements)]
    statements = [one for one in statements if not _in_somewhere(heard, one, statements)]
    lent: tuple[Span, ...] = ()
    if len(statements) > 1:
        before = [statement for statement in statements if _sizes_others(statement)]
        statements = _carried(_sized(_asked_once(statements)))
        if before:
            stand = {one.span for one in statements}
            lent = tuple(s.span for s in before if s.span not in stand)
    statements, left_over = without_hollow(heard, statements, left_over)
    statements, left_over = sifted(heard, statements, left_over)
    runs = tuple([heard[start:end] for start, end in left_over])
    return Understanding(heard, tuple(_not_that(statements)), runs, lent)


def _in_somewhere(heard: str, statement: Statement, all_said: list[Statement]) -> bool:
    """ "the one in the garage": no cable that comes in, unless others without a size go on with
    it: "one in kitchen, one out, all 12-2"."""
    if statement.kind != "cable" or statement.slots.get("role") != "in" or "awg" in statement.slots:
        return False
    rest = heard[statement.span[1] :].lower().lstrip()
    if rest.startswith(("the ", "a ", "my ", "this ", "that ", "here", "there", "it")):
        return True
    named = re.match(r"[a-z]+", rest)
    if named is None or statement.slots.get("count") != 1:
        return False
    if any(one is not statement and (_sizes_others(one) or _elided(one)) for one in all_said):
        return False
    if named[0] in _ROOMS:
        return True
    before = heard[: statement.span[0]].lower() + statement.words.lower()
    return named[0] in _ROOM_WORDS and _THIS_ONE.search(before) is not None


def _elided(statement: Statement) -> bool:
    """Whether a cable is told by its way alone, and lends its size from another."""
    return statement.kind == "cable" and "role" in statement.slots and "awg" not in statement.slots


_ROOMS = frozenset(grammar_data.table("clauses")["rooms"]["names"]) - {"box"}
_ROOM_WORDS = frozenset(grammar_data.table("clauses")["rooms"]["words"])
_THIS_ONE = lazy_pattern(r"\b(?:this|that|the|first|last|next|other)(?: [\w-]+)? one in$")


def _in_form(statement: Statement) -> Statement:
    """Three dimensions name the family: A x A is a square box, else a device box."""
    slots = statement.slots
    if statement.kind != "box_size" or "height" not in slots:
        return statement
    form = dict(slots)
    if form.get("width") == form["height"]:
        form.setdefault("family", "square")
        if form["family"] == "square":
            del form["height"]
    else:
        form.setdefault("family", "device")
    return replace(statement, slots=form)


def _not_that(statements: list[Statement]) -> list[Statement]:
    """ "fourteen, not forty" corrects as "no, fourteen" does: the `no` comes first, once."""
    found = list(statements)
    for place in range(len(found) - 1, 0, -1):
        value, denial = found[place - 1], found[place]
        if denial.kind != "no" or value.kind not in _VALUES or not _denies(denial):
            continue
        del found[place]
        if place < 2 or found[place - 2].kind not in _CORRECTING:
            found.insert(place - 1, denial)
    return found


def _denies(statement: Statement) -> bool:
    return statement.words.lower().startswith("not ")


def _sized(statements: list[Statement]) -> list[Statement]:
    """One size said for several: "two whites and a red, all number twelve", "two in, one out,
    all 12-2", "12 gauge, three wires"."""
    found = list(statements)
    for place in range(len(found) - 1, -1, -1):
        said = found[place]
        if not _sizes_others(said):
            continue
        before = place - 1
        while before >= 0 and _unsized(found[before]) and found[before].kind in _sizes(said):
            found[before] = _with_size(found[before], said, sure=before == place - 1)
            before -= 1
        after = found[place + 1] if place + 1 < len(found) else None
        if before < place - 1:
            del found[place]
        elif said.kind == "size" and after and _unsized(after) and after.kind != "cable":
            found[place : place + 2] = [_with_size(after, said, sure=True)]
    return found


def _sizes_others(statement: Statement) -> bool:
    """A bare size, or a cable that is no further cable: "all 12-2"."""
    return statement.kind == "size" or (
        statement.kind == "cable"
        and "awg" in statement.slots
        and "count" not in statement.slots
        and statement.words.lower().startswith(_FOR_ALL)
    )


def _sizes(statement: Statement) -> frozenset[str]:
    return _SIZED if statement.kind == "size" else frozenset({"cable"})


def _unsized(statement: Statement) -> bool:
    return statement.kind in (*_SIZED, "cable") and "awg" not in statement.slots


def _with_size(statement: Statement, size: Statement, sure: bool) -> Statement:
    """`statement` with the size said beside it; in doubt for all but the nearest to it."""
    sure = sure or size.words.lower().startswith(_FOR_ALL)
    lent = {slot: size.slots[slot] for slot in ("awg", "conductors") if slot in size.slots}
    return replace(
        statement,
        slots={**statement.slots, **lent},
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
        if statement.kind == "cable" and "role" not in statement.slots:
            continue  # "four cables" sums up what was said
        for slot in _CARRIED.get(statement.kind, ()):
            if slot not in statement.slots:
                found[place] = statement = _borrowed(found, place, slot)
        if statement.kind == "conductors" and "awg" not in statement.slots:
            found[place] = statement = _from_grounds(found, place)
        if statement.kind == "cable" and "awg" not in statement.slots and place:
            found[place] = _conductors_too(found[place - 1], statement)
    return found


def _from_grounds(statements: list[Statement], place: int) -> Statement:
    """ "hot, neutral, ground #12": the size said with the ground is that of its circuit."""
    mine = statements[place]
    for other in statements[place + 1 : place + 4]:
        if other.kind == "grounds" and "awg" in other.slots:
            return replace(
                mine,
                slots={**mine.slots, "awg": other.slots["awg"]},
                doubts=tuple(d for d in mine.doubts if d.slot != "awg"),
            )
        if other.kind not in ("conductors", "grounds"):
            break
    return mine


def _conductors_too(before: Statement, elided: Statement) -> Statement:
    """ "six number tens in and six out": wires, where wires stand before."""
    if before.kind != "conductors" or "awg" not in before.slots or "count" not in elided.slots:
        return elided
    slots = {"count": elided.slots["count"], "awg": before.slots["awg"]}
    return replace(elided, kind="conductors", slots=slots, doubts=())


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
