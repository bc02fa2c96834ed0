"""The corpus: what is said, and what it must give, from `corpus/*.toml`.

`gives` are the flat statements of the inner stage: `kind slot=value … ? slot:reason …`; values are
numbers, `yes`, `no` or 'words'. Doubts stand behind the question mark; `left` is what no phrase
covers. `acts` are the dialogue acts of the whole, as `written_acts` writes them, with `unread` for
words that weigh and were not read; what hangs on the words of a whole clause is told by them alone.
A case that `fails` says why: the expectation is right, and the program is not yet.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from pathlib import Path

from boxaloud.grammar import understand
from boxaloud.grammar.phrases.statements import Statement, Value

CORPUS = Path(__file__).parent / "corpus"


@dataclass(frozen=True)
class Case:
    """One utterance of the corpus."""

    file: str
    say: str
    asked: str | None
    gives: tuple[str, ...] | None
    left: tuple[str, ...]
    acts: tuple[str, ...] | None
    unread: tuple[str, ...]
    fails: str

    @property
    def name(self) -> str:
        return f"{self.file}: {self.say[:60]}"


def cases() -> list[Case]:
    """Every utterance of the corpus."""
    return [
        Case(
            path.stem,
            row["say"],
            row.get("asked"),
            tuple(row["gives"]) if "gives" in row else None,
            tuple(row.get("left", ())),
            tuple(row["acts"]) if "acts" in row else None,
            tuple(row.get("unread", ())),
            row.get("fails", ""),
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
