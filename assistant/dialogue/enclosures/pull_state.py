"""A pull box as it was said, before any dimension is worked out: part of a `State`."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Literal, TypeAlias

from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.rules.pull import Wall

Placing: TypeAlias = Literal["", "opposite", "adjacent", "same"]
"""How the walls of a pull lie to each other."""
PullSaid: TypeAlias = Literal["straight", "angle", "u", "splice"]


@dataclass(frozen=True, slots=True)
class Entering:
    """Raceways of one trade size, inches; None where the size, wall or row was not said.

    Without a wall each comes in by one wall and goes out by another; with one it is an entry of
    that wall, and with `to` of that one as well.
    """

    count: int
    size: Decimal | None
    wall: Wall | None = None
    to: Wall | None = None
    end: Literal["in", "out"] | None = None
    row: int | None = None
    cable: bool = False
    """True for a cable, which counts as the raceway that its conductors would need."""
    wires: tuple[str, ...] = ()
    """The conductors in each cable, where they were said."""
    ground: str = ""
    insulation: str = ""

    @property
    def through(self) -> bool:
        """True where nobody said by which wall it enters."""
        return self.wall is None and self.end is None


@dataclass(frozen=True, slots=True)
class Pulled:
    """One pull: its kind and its raceways."""

    kind: PullSaid | None = None
    entering: tuple[Entering, ...] = ()
    walls: tuple[Wall, ...] = ()
    """The walls it runs between, where they were said apart from the raceways."""
    placing: Placing = ""
    returns: bool | None = None
    """Of a U pull: True where each raceway named comes back out beside itself, False where all
    entries were named."""


@dataclass(frozen=True, slots=True)
class PullBoxSaid:
    """Everything said of a pull box."""

    pulls: tuple[Pulled, ...] = ()
    conductor: str = ""
    cover: bool | None = None
    rows: int | None = None
    listed: bool = False
    blocks: bool = False
    inside: tuple[Decimal | None, Decimal | None, Decimal | None] = (None, None, None)
    """Width, height and depth of the box at hand, inches."""
    sided: bool = False
    """True where the sides of the box were said by name: which is wide, which is high."""
    insulation: str = ""
    """Of the conductors in its cables, where it was said of no single one."""
    apart: Decimal | None = None
    """How far the raceways of one pull are from each other, inches."""

    @property
    def last(self) -> Pulled | None:
        """The pull said last."""
        return self.pulls[-1] if self.pulls else None

    def with_last(self, pulled: Pulled) -> PullBoxSaid:
        """The same with its last pull replaced, or with a first one."""
        return replace(self, pulls=(*self.pulls[:-1], pulled))

    def and_also(self, pulled: Pulled) -> PullBoxSaid:
        """The same with one pull more."""
        return replace(self, pulls=(*self.pulls, pulled))

    @property
    def with_cable(self) -> bool:
        """True where the first entry without a size is a cable."""
        open_ = [one for one in self.entering if one.size is None and not one.wires]
        return bool(open_) and open_[0].cable

    @property
    def entering(self) -> list[Entering]:
        """What enters by every pull."""
        return [one for pulled in self.pulls for one in pulled.entering]

    @property
    def with_back(self) -> bool:
        """True where a raceway enters the back wall."""
        return any(
            "back" in (one.wall, one.to) or "back" in pulled.walls
            for pulled in self.pulls
            for one in pulled.entering
        )
