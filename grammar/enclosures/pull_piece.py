"""A piece of what is said of a pull box, as the readers of this package hand it on."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal, TypeAlias, get_args

from boxaloud.grammar.acts.enclosure_acts import (
    End,
    InsulationName,
    PointRaceways,
    PullKind,
    WallName,
)
from boxaloud.grammar.quick_dataclass import dataclass

Sort: TypeAlias = Literal[
    "items", "wall", "wall_to", "end", "kind", "row", "row_of", "rows", "rows_of", "each_row",
    "share", "pointed", "detail", "break", "join", "silent", "unread",
]  # fmt: skip


_WALLS: dict[str, WallName] = {name: name for name in get_args(WallName)}
_ENDS: dict[str, End] = {name: name for name in get_args(End)}
_KINDS: dict[str, PullKind] = {name: name for name in get_args(PullKind)}


@dataclass(frozen=True, slots=True)
class Raceways:
    """Raceways of one trade size as they were said; `size` None where none was."""

    count: int | None
    size: Decimal | None
    several: bool = False
    """True for "2 inch conduits", of which nobody said how many."""
    cable: bool = False
    wires: tuple[str, ...] = ()
    """The conductors in each cable, where they were said."""
    ground: str = ""
    insulation: InsulationName | None = None


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
    pointed: PointRaceways | None = None
    """What is said of raceways that were told already."""

    @property
    def wall(self) -> WallName | None:
        """The wall that its value names."""
        return _WALLS.get(self.value)

    @property
    def entry_end(self) -> End | None:
        """The end of a pull that its value names."""
        return _ENDS.get(self.value)

    @property
    def pull_kind(self) -> PullKind | None:
        """The kind of pull that its value names."""
        return _KINDS.get(self.value)

    @property
    def counts(self) -> bool:
        """ "Both pipes are on the bottom wall": so many raceways, and the wall that they enter."""
        told = self.pointed
        return told is not None and told.count is not None and told.wall is not None

    @property
    def begins(self) -> bool:
        """Raceways, a kind of pull or a conductor of 4 AWG and larger, which tell of a pull box."""
        return self.sort in ("items", "kind") or self.value.startswith("conductor ")
