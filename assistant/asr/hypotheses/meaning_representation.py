"""What words mean, for two ways of hearing to be compared: their acts without the words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, replace
from typing import Any

from boxaloud.grammar import recognise
from boxaloud.grammar.acts import Act, Doubt, Reference
from boxaloud.grammar.clauses.act_fields import THINGS
from boxaloud.grammar.lexer.heard_words import Word

COUNTABLE_ACTS = tuple(THINGS.values())
"""Acts that bring in one thing where no count was said: "the dimmer" is "a dimmer"."""


def meaning(words: str | Sequence[Word], expect: str | None = None) -> tuple[Act, ...]:
    """The acts that words make under the open question, without words, places and doubts."""
    return tuple(_canonical(act) for act in recognise(words, expect).acts)


def _canonical(act: Act) -> Act:
    known = {field.name: getattr(act, field.name) for field in fields(act)}
    told: dict[str, Any] = {slot: _canonical_value(value) for slot, value in known.items()}
    if isinstance(act, COUNTABLE_ACTS) and known["count"] is None and not _vague(act.doubts):
        told["count"] = 1
    return replace(act, **{**told, "words": "", "span": (0, 0), "doubts": ()})


def _vague(doubts: Sequence[Doubt]) -> bool:
    """True where several were said, and not how many."""
    return any(doubt.reason == "vague" for doubt in doubts)


def _canonical_value(value: object) -> object:
    if isinstance(value, Act):
        return _canonical(value)
    if isinstance(value, Reference):
        return replace(value, words="")
    if isinstance(value, tuple):
        return tuple(_canonical_value(one) for one in value)
    return value
