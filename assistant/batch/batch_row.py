"""A row of a batch as it was read, whichever kind of file it came from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


class BadRow(ValueError):
    """A row that cannot be used. The message says why, in a sentence."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row: the line it begins on, and its columns, not yet held against `BatchRow`."""

    line: int
    fields: Mapping[str, Any]
    problem: str = ""
    """Why it could not even be read; empty for a row that was."""

    @property
    def name(self) -> str:
        """The box's name, or the line it stands on."""
        name = str(self.fields.get("name") or f"line {self.line}")
        # half a character, which JSON can write and no file can hold
        return name.encode("utf-8", "replace").decode("utf-8")
