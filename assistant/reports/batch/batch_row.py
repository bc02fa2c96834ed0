"""A row of a batch as it was read, whichever kind of file it came from."""

from __future__ import annotations

import reprlib
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

MOST_ITEMS = 1000
"""Things listed in one cell. More are no box."""
_REPR = reprlib.Repr()
_REPR.maxlevel, _REPR.maxstring, _REPR.maxother, _REPR.maxlong = 2, 60, 60, 60


def encodable(text: str) -> str:
    """The text with a question mark for what no encoding has, such as half a character."""
    return text.encode("utf-8", "replace").decode("utf-8")


def shown(value: Any) -> str:
    """A value as it stands in a sentence: quoted, and at no great length or depth."""
    return encodable(_REPR.repr(value))


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
        name = self.fields.get("name")
        if not isinstance(name, str | int | Decimal) or name == "":
            return f"line {self.line}"
        return encodable(str(name))
