"""A piece of what is said of a pull box, as the readers of this package hand it on."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, TypeAlias

Sort: TypeAlias = Literal[
    "items", "wall", "wall_to", "end", "kind", "row", "row_of", "rows", "rows_of", "detail",
    "break", "join", "silent", "unread",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Raceways:
    """Raceways of one trade size as they were said; `size` None where none was."""

    count: int | None
    size: Decimal | None
    several: bool = False
    """True for "2 inch conduits", of which nobody said how many."""


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece, and its places in the text. `value` is a name, `number` a count."""

    sort: Sort
    start: int
    end: int
    value: str = ""
    number: int = 0
    items: tuple[Raceways, ...] = ()
    dimensions: tuple[Decimal | None, ...] = ()
