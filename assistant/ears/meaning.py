"""What words mean, for two ways of hearing to be compared: their acts without the words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, replace
from typing import Any

from boxaloud.grammar import recognise
from boxaloud.grammar.acts import Act, Doubt, Reference
from boxaloud.grammar.making import THINGS
from boxaloud.grammar.words import Word

COUNTED = tuple(THINGS.values())
"""Acts that bring in one thing where no count was said: "the dimmer" is "a dimmer"."""


def meaning(words: str | Sequence[Word], expect: str | None = None) -> tuple[Act, ...]:
    """The acts that words make under the open question, without words, places and doubts."""
    return tuple(_bare(act) for act in recognise(words, expect).acts)


def _bare(act: Act) -> Act:
    known = {field.name: getattr(act, field.name) for field in fields(act)}
    told: dict[str, Any] = {slot: _value(value) for slot, value in known.items()}
    if isinstance(act, COUNTED) and known["count"] is None and not _vague(act.doubts):
        told["count"] = 1
    return replace(act, **{**told, "words": "", "span": (0, 0), "doubts": ()})


def _vague(doubts: Sequence[Doubt]) -> bool:
    """True where several were said, and not how many."""
    return any(doubt.reason == "vague" for doubt in doubts)


def _value(value: object) -> object:
    if isinstance(value, Act):
        return _bare(value)
    if isinstance(value, Reference):
        return replace(value, words="")
    if isinstance(value, tuple):
        return tuple(_value(one) for one in value)
    return value
