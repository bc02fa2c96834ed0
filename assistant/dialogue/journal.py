"""The journal: what was said, in order. It is the only state that is ever kept.

Each entry holds the statements that the words made at that time, so that an old journal
gives the same box again under a newer grammar.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from grammar.statements import Doubt, Statement, Value


@dataclass(frozen=True, slots=True)
class Entry:
    """One utterance: its words, its statements, what was left over, how sure the ear was."""

    heard: str
    statements: tuple[Statement, ...]
    left_over: tuple[str, ...] = ()
    confidence: float | None = None
    refusal: str = ""
    """Why the whole utterance was not taken, where it was not."""
    sure: tuple[float, ...] = ()
    """How sure the ear was of each statement, 0 to 1; empty for typed text."""

    def to_json(self) -> dict[str, Any]:
        """A plain object for a JSON line; `from_json` gives the entry back, exactly."""
        return {
            "heard": self.heard,
            "left_over": list(self.left_over),
            "confidence": self.confidence,
            "sure": list(self.sure),
            "refusal": self.refusal,
            "statements": [_statement_out(statement) for statement in self.statements],
        }

    @staticmethod
    def from_json(data: Mapping[str, Any]) -> Entry:
        """The entry of an object made by `to_json`. Raises KeyError for anything else."""
        return Entry(
            heard=data["heard"],
            statements=tuple(_statement_in(item) for item in data["statements"]),
            left_over=tuple(data["left_over"]),
            confidence=data["confidence"],
            sure=tuple(data.get("sure", ())),
            refusal=data.get("refusal", ""),
        )


def _value_out(value: Value) -> Any:
    return {"decimal": str(value)} if isinstance(value, Decimal) else value


def _value_in(value: Any) -> Value:
    if isinstance(value, dict):
        return Decimal(value["decimal"])
    assert value is None or isinstance(value, int | str | bool)
    return value


def _statement_out(statement: Statement) -> dict[str, Any]:
    return {
        "kind": statement.kind,
        "slots": {slot: _value_out(value) for slot, value in statement.slots.items()},
        "words": statement.words,
        "span": list(statement.span),
        "doubts": [
            {"slot": d.slot, "reason": d.reason, "instead": _value_out(d.instead)}
            for d in statement.doubts
        ],
    }


def _statement_in(data: Mapping[str, Any]) -> Statement:
    return Statement(
        kind=data["kind"],
        slots={slot: _value_in(value) for slot, value in data["slots"].items()},
        words=data["words"],
        span=(data["span"][0], data["span"][1]),
        doubts=tuple(
            Doubt(d["slot"], d["reason"], _value_in(d["instead"])) for d in data["doubts"]
        ),
    )
