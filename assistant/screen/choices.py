"""The answers that can be chosen for the open question: labels, and the statements they make."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from assistant.dialogue.boxing import rows_of
from assistant.dialogue.saying import marked
from assistant.dialogue.state import State, sizes_present
from assistant.screen.wording import table, text
from grammar.statements import Statement, Value


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer. It either makes statements or `opens` another part of the screen."""

    label: str
    statements: tuple[Statement, ...] = ()
    opens: str = ""


def choices_for(slot: str | None, state: State) -> tuple[Choice, ...]:
    """The answers for a slot, none where nothing is open."""
    if slot is None:
        return ()
    data = table("choices")
    vague = slot == "confirm" and state.pending and state.pending[0].reason == "vague"
    asked = data["confirm_vague"] if vague else data.get(slot, data["other"])
    fixed = [_fixed(row) for row in asked["choices"]]
    at = int(asked.get("after", 0))
    return (*fixed[:at], *_found(asked.get("from", ""), state), *fixed[at:])


def _fixed(row: dict[str, Any]) -> Choice:
    if "opens" in row:
        return Choice(row["label"], opens=row["opens"])
    slots = {
        slot: Decimal(value) if slot == "value" else value
        for slot, value in row.get("slots", {}).items()
    }
    return Choice(row["label"], (Statement(row["kind"], slots, row["label"]),))


def _found(source: str, state: State) -> Iterator[Choice]:
    """Answers that depend on the box: the sizes in it, the depths it may have."""
    if source == "sizes":
        for awg in sizes_present(state):
            yield Choice(f"{awg} AWG", (Statement("size", {"awg": awg}, f"{awg} AWG"),))
    elif source == "depths" and state.partial is not None:
        for row in rows_of(state.partial):
            label = f"{row.name}, {marked(row.volume)}"
            slots: dict[str, Value] = {"row": row.id, "gangs": state.partial.gangs}
            yield Choice(label, (Statement("box_size", slots, row.name),))
    elif source == "readings" and state.pending:
        yield from _readings(state.pending[0].statement)


def _readings(doubtful: Statement) -> Iterator[Choice]:
    """What a doubtful number may have been instead."""
    for doubt in doubtful.doubts:
        if isinstance(doubt.instead, int | Decimal) and not isinstance(doubt.instead, bool):
            words = text("question.instead", value=doubt.instead)
            value = Decimal(doubt.instead)
            yield Choice(words, (Statement("number", {"value": value}, words),))
