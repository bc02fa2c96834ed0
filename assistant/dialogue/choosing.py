"""Which slot of a doubtful statement a bare value is meant for."""

from __future__ import annotations

from decimal import Decimal

from assistant.dialogue.state import Pending
from grammar.statements import Statement, Value

WIRE_SIZES = frozenset({18, 16, 14, 12, 10, 8, 6})
VALUES = ("count", "awg", "volume", "value", "conductors", "gangs", "where", "depth", "year")
"""Slots that carry a value, in the order they are taken to be meant."""


def first_value(statement: Statement) -> str:
    """The slot of a statement that is its quantity, else its size; empty where it has neither."""
    return next((slot for slot in VALUES if slot in statement.slots), "")


def slot_for(pending: Pending, value: Value) -> str | None:
    """The slot that `value` stands in for: one in doubt that it can be, else any; None for none.

    A value that the ear gave as the other reading of a slot is meant for that slot.
    """
    statement = pending.statement
    doubted = [doubt.slot for doubt in statement.doubts] or [pending.slot]
    for doubt in statement.doubts:
        if doubt.instead is not None and _number(doubt.instead) == _number(value):
            return doubt.slot
    numeric = [slot for slot in doubted if slot in VALUES]
    for slot in (*numeric, *(slot for slot in VALUES if slot in statement.slots)):
        if _can_be(slot, value):
            return slot
    return "count" if pending.reason == "vague" and _can_be("count", value) else None


def _can_be(slot: str, value: Value) -> bool:
    number = _number(value)
    if number is None:
        return False
    match slot:
        case "awg":
            return number in WIRE_SIZES
        case "conductors":
            return number in (2, 3, 4)
        case "count" | "gangs":
            return number == int(number) and 0 <= number <= 60
        case "volume" | "value" | "depth":
            return True
    return False


def as_slot(slot: str, value: Value) -> Value:
    """The value as its slot holds it: a volume is a Decimal, a count a whole number."""
    number = _number(value)
    if slot in ("volume", "value", "depth") or number is None:
        return value if number is None else number
    return int(number)


def reworded(statement: Statement, operand: Statement) -> str:
    """The words to quote for a statement whose value was put right."""
    return f"{statement.words}, {operand.words}" if operand.words else statement.words


def _number(value: Value) -> Decimal | None:
    if isinstance(value, bool) or not isinstance(value, int | Decimal):
        return None
    return Decimal(value)
