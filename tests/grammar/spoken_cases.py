"""The corpus: what is said and the statements it must give, from `corpus/*.toml`.

A statement is written `kind slot=value … ? slot:reason …`; values are numbers, `yes`, `no` or
'words'. Doubts stand behind the question mark.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from pathlib import Path

from grammar import understand
from grammar.statements import Statement, Value

CORPUS = Path(__file__).parent / "corpus"


@dataclass(frozen=True)
class Case:
    """One utterance of the corpus."""

    file: str
    say: str
    asked: str | None
    gives: tuple[str, ...]
    left: tuple[str, ...]


def cases() -> list[Case]:
    """Every utterance of the corpus."""
    return [
        Case(
            path.stem,
            row["say"],
            row.get("asked"),
            tuple(row["gives"]),
            tuple(row.get("left", ())),
        )
        for path in sorted(CORPUS.glob("*.toml"))
        for row in tomllib.loads(path.read_text(encoding="utf-8"))["case"]
    ]


def written(statement: Statement) -> str:
    """A statement as the corpus writes it."""
    slots = " ".join(f"{slot}={_value(value)}" for slot, value in sorted(statement.slots.items()))
    doubts = " ".join(f"{doubt.slot}:{doubt.reason}" for doubt in statement.doubts)
    return f"{statement.kind} {slots}".strip() + (f" ? {doubts}" if doubts else "")


def _value(value: Value) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"'{value}'" if isinstance(value, str) else str(value)


def given(words: str, asked: str | None = None) -> list[str]:
    """The statements that an utterance gives, as the corpus writes them."""
    return [written(statement) for statement in understand(words, asked).statements]
