"""A row of a batch: what its fields are called, whichever kind of file it came from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

FIELDS = (
    "name", "edition", "says", "volume", "box", "gangs", "parts", "cables", "conductors",
    "fixture_wires", "grounds", "jumpers", "devices", "fittings", "terminal_blocks",
    "not_counted", "clamps", "material", "described",
)  # fmt: skip
"""`says` is plain talk; `described` is a whole box as `boxaloud schema box` has it;
all others are the box by its parts, in the trade's words."""

BY_PARTS = frozenset(FIELDS) - {"name", "edition", "says", "described"}


class BadRow(ValueError):
    """A row that cannot be used. The message says why, in a sentence."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row: the line it begins on, and its fields that are not empty."""

    line: int
    fields: Mapping[str, Any]
    problem: str = ""
    """Why it could not even be read; empty for a row that was."""

    @property
    def name(self) -> str:
        """The box's name, or the line it stands on."""
        return str(self.fields.get("name") or f"line {self.line}")


def checked(fields: Mapping[str, Any]) -> Mapping[str, Any]:
    """The fields that hold something. Raises BadRow for one of no known name."""
    found = {}
    for key, value in fields.items():
        if value is None or value == "" or value == []:
            continue
        if key not in FIELDS:
            raise BadRow(f"There is no column {key!r}: the columns are {', '.join(FIELDS)}.")
        found[key] = value
    return found


def items(value: Any, field: str) -> list[str]:
    """What a field lists: text with semicolons between, or a list of texts."""
    if isinstance(value, str):
        return [item.strip() for item in value.split(";") if item.strip()]
    if isinstance(value, list) and all(isinstance(item, str) for item in value):
        return [item.strip() for item in value if item.strip()]
    return items(one_text(value, field), field)


def one_text(value: Any, field: str) -> str:
    """A field that holds one thing, as text. Raises BadRow for anything but text or a number."""
    if isinstance(value, str):
        return value.strip()
    if isinstance(value, bool) or not hasattr(value, "__trunc__"):
        raise BadRow(f"{field} must be text or a number, not {type(value).__name__}.")
    return str(value)
