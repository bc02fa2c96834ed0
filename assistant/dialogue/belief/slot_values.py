"""Which slot of an act a bare value is meant for, and the act with that value in it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, replace
from decimal import Decimal

from boxaloud.assistant.dialogue.state_parts import Pending
from boxaloud.grammar.acts import Act, Doubt, Value

WIRE_SIZES = frozenset({18, 16, 14, 12, 10, 8, 6})
VALUES = ("count", "awg", "volume", "value", "conductors", "gangs", "where", "depth", "year")
"""Slots that carry a value, in the order they are taken to be meant."""


def has_slot(act: Act, slot: str) -> bool:
    """Whether an act, or the thing it is about, has a slot: a denial counts nothing."""
    return hasattr(act, slot) or hasattr(getattr(act, "thing", None), slot)


def with_value(act: Act, slot: str, value: Value, words: str) -> Act:
    """The act with another value in a slot, or in that of the thing it is about, and no doubt."""
    number = as_slot(slot, value)
    thing = getattr(act, "thing", None)
    if thing is not None and slot not in {field.name for field in fields(act)}:
        inner = replace(thing, **{slot: number}, doubts=())
        return replace(act, thing=inner, words=words, doubts=())  # type: ignore[call-arg]
    return replace(act, **{slot: number}, words=words, doubts=())  # type: ignore[arg-type]


def slots_of(act: Act) -> dict[str, Value]:
    """The values that an act carries, those of the thing it is about among them."""
    thing = getattr(act, "thing", None)
    found: dict[str, Value] = {}
    for source in (act, thing) if thing is not None else (act,):
        for slot in VALUES:
            value = getattr(source, slot, None)
            if value is not None:
                found.setdefault(slot, value)
    return found


def first_value(act: Act) -> str:
    """The slot of an act that is its quantity, else its size; empty where it has neither."""
    found = slots_of(act)
    return next((slot for slot in VALUES if slot in found), "")


def slot_for(pending: Pending, value: Value) -> str | None:
    """The slot that `value` stands in for: one in doubt that it can be, else any; None for none.

    A value that the ear gave as the other reading of a slot is meant for that slot.
    """
    doubts: Sequence[Doubt] = pending.act.doubts
    doubted = [doubt.slot for doubt in doubts] or [pending.slot]
    for doubt in doubts:
        if doubt.instead is not None and _number(doubt.instead) == _number(value):
            return doubt.slot
    if pending.reason == "unsized":
        return "awg" if _can_be("awg", value) else None
    numeric = [slot for slot in doubted if slot in VALUES]
    for slot in (*numeric, *slots_of(pending.act)):
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
    """The value as its slot holds it: a volume is a Decimal, a count a whole number, and a box
    that is called by its number has a name all the same."""
    number = _number(value)
    if slot == "name" and number is not None:
        return str(int(number))
    if slot in ("volume", "value", "depth") or number is None:
        return value if number is None else number
    return int(number)


def _number(value: Value) -> Decimal | None:
    if isinstance(value, bool) or not isinstance(value, int | Decimal):
        return None
    return Decimal(value)
