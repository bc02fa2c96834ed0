"""The answers that can be chosen for the open question: labels, and the statements they make."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from assistant.conversation.boxing import rows_of
from assistant.conversation.saying import marked
from assistant.conversation.state import State, sizes_present
from assistant.screen.wording import table
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
    asked = data.get(slot, data["other"])
    fixed = (_fixed(row) for row in asked["choices"])
    return (*_found(asked.get("from", ""), state), *fixed)


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
