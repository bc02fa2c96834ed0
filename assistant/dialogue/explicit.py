"""A bare answer written out as the whole statement it is, given the open question.

A held-back answer must keep its meaning when something else is asked meanwhile.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal

from assistant.dialogue.choosing import WIRE_SIZES
from assistant.dialogue.turn import Turn
from grammar.statements import Statement, Value
from rules.contents import Cable

SIZED = ("device_size", "block_size")


def answer(turn: Turn, statement: Statement) -> Statement:
    """`statement` itself, or the whole statement that a bare value is an answer with."""
    made = _made(turn, statement)
    if made is None:
        return statement
    kind, slots, slot = made
    doubts = tuple(replace(doubt, slot=slot) for doubt in statement.doubts)
    return Statement(kind, slots, statement.words, statement.span, doubts)


def corrected(turn: Turn, statement: Statement) -> Statement:
    """ "make that twelve-two" of a cable: a size and a count of wires, not twelve point two."""
    item = turn.state.item(turn.state.last)
    if statement.kind != "number" or item is None or not isinstance(item.content, Cable):
        return statement
    awg, _, conductors = str(statement.get("value")).partition(".")
    if not (awg.isdigit() and int(awg) in WIRE_SIZES and conductors in ("2", "3", "4")):
        return statement
    slots: dict[str, Value] = {"awg": int(awg), "conductors": int(conductors)}
    return Statement("cable", slots, statement.words, statement.span)


def _made(turn: Turn, statement: Statement) -> tuple[str, Mapping[str, Value], str] | None:
    match statement.kind:
        case "place":
            return "clamps", {"where": statement.get("where")}, "where"
        case "none" if turn.asked == "clamps":
            return "clamps", {"where": "none"}, "where"
        case "none" if turn.asked == "grounds":
            return "grounds", {"count": 0}, "count"
        case "number" | "size":
            return _of_number(turn, statement)
    return None


def _of_number(turn: Turn, statement: Statement) -> tuple[str, Mapping[str, Value], str] | None:
    value = Decimal(str(statement.get("value", statement.get("awg", 0))))
    whole = value == int(value)
    if turn.asked == "box":
        return "box_volume", {"volume": value}, "volume"
    if turn.asked == "box_depth":
        return "box_size", {"depth": value}, "depth"
    if turn.asked == "grounds" and whole:
        return "grounds", {"count": int(value)}, "count"
    item = turn.state.item(turn.subject or "")
    if turn.asked in SIZED and whole and item is not None:
        return "lands_on", {"item": item.key, "awg": int(value)}, "awg"
    return None
