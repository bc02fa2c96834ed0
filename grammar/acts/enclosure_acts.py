"""Acts that tell of a pull box, 314.28(A), or of a conduit body, 314.16(C)."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal, TypeAlias

from boxaloud.grammar.acts.act_base import Act
from boxaloud.grammar.quick_dataclass import dataclass

PullKind: TypeAlias = Literal["straight", "angle", "u", "splice"]
WallName: TypeAlias = Literal["left", "right", "top", "bottom", "back"]
End: TypeAlias = Literal["in", "out"]
"""Which end of a pull raceways are, where it is only one."""
RacewayName: TypeAlias = Literal["emt", "imc", "rmc", "pvc40", "pvc80", "fmc", "lfmc", "ent"]
InsulationName: TypeAlias = Literal["thhn", "xhhw", "tw"]
WhichRaceways: TypeAlias = Literal["all", "rest", "first", "second", "last", "largest", "smallest"]
"""Which raceways that were told already are meant: by their place in what was said, or size."""
Placed: TypeAlias = Literal["opposite", "adjacent", "same"]


@dataclass(frozen=True, slots=True, kw_only=True)
class DescribePull(Act):
    """A pull of large conductors begins: straight, angle, u or splice. The trade sizes stand in
    `AddRaceways` behind it; journals of before hold them here."""

    kind: PullKind | None = None
    size: Decimal | None = None
    count: int | None = None
    others: Decimal | None = None
    sizes: tuple[Decimal, ...] = ()
    """Further trade sizes said after it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AddRaceways(Act):
    """Raceways (or cables, by the raceway they would need) that enter a pull box, 314.28(A)."""

    count: int | None = None
    size: Decimal | None = None
    """Trade size, inches; None where none was said."""
    wall: WallName | None = None
    to: WallName | None = None
    """The wall that the same raceway size leaves by, where it was said."""
    end: End | None = None
    row: int | None = None
    cable: bool | None = None
    """True for a cable, which counts as the raceway that its conductors would need."""
    wires: tuple[str, ...] = ()
    """The size of each conductor in a cable, `4/0`, where they were said."""
    ground: str = ""
    """The ground in a cable by its size, `?` where none was said."""
    insulation: InsulationName | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeOutRaceways(Act):
    """ "Take out the 2 inch": raceways of a pull box that are not there after all."""

    count: int | None = None
    """None: all of that size."""
    size: Decimal | None = None
    wall: WallName | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PointRaceways(Act):
    """ "The 3 goes out the top", "make the big ones 3 inch": raceways that were told already."""

    which: WhichRaceways = "all"
    count: int | None = None
    of_size: Decimal | None = None
    """The trade size that they are told by, inches."""
    at: WallName | None = None
    """The wall that they are told by."""
    single: bool | None = None
    """True for "the big one": one, where several would be another thing."""
    size: Decimal | None = None
    """The trade size that they become, inches."""
    wall: WallName | None = None
    """The wall that they enter."""
    to: WallName | None = None
    placing: Placed | None = None
    """How the wall that they leave by lies to the one that they enter."""
    leaves_as: Decimal | None = None
    """The trade size of the raceway that they leave by, inches, where it was said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetPull(Act):
    """What is said of a pull box besides its raceways."""

    conductor: str | None = None
    """The largest conductor: `4`, `2/0`, `500`."""
    cover: bool | None = None
    """Whether the cover opposite the back wall is removable."""
    walls: str | None = None
    """`opposite`, `adjacent` or `same`; `alike` for as those told before; or names of walls with
    spaces between."""
    rows: int | None = None
    """How many rows there are, where nobody said what is in which."""
    returns: bool | None = None
    """True where each raceway named comes in and goes out beside itself, False where every entry
    was named."""
    listed: bool | None = None
    """True where the box is listed and marked for fewer or smaller conductors, 314.28(A)(3)."""
    blocks: bool | None = None
    """True where a power distribution block is in it, 314.28(E)."""
    width: Decimal | None = None
    height: Decimal | None = None
    depth: Decimal | None = None
    """Inside dimensions of the box at hand, inches."""
    length: Decimal | None = None
    """How long it is, inches: the side that its pull goes along."""
    sided: bool | None = None
    """True where which side is wide and which is high was said by name."""
    apart: Decimal | None = None
    """How far the raceways of one pull are from each other, inches."""
    insulation: InsulationName | None = None
    """Of the conductors in its cables."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetBody(Act):
    """What is said of a conduit body besides what is in it, 314.16(C)."""

    shape: str | None = None
    """`LB`, `LL`, `LR`, `C`, `T` …"""
    raceway: RacewayName | None = None
    """The largest raceway on it."""
    size: Decimal | None = None
    """Trade size of that raceway, inches."""
    insulation: InsulationName | None = None
    spliced: bool | None = None
    short_radius: bool | None = None
    marked: bool | None = None
    """False where the maker marked no volume on it."""
    large: tuple[str, ...] = ()
    """Conductors of 4 AWG and larger in it, each by its size: `4`, `2/0`, `500`."""
    permits: tuple[str, ...] = ()
    """What its maker marked it for, 314.28(A)(3): each conductor by its size."""
    listed: bool | None = None
    """True where it is marked for what is in it."""
    length: Decimal | None = None
    width: Decimal | None = None
    depth: Decimal | None = None
    """Inside dimensions, inches."""
    both_sides: bool | None = None
    """True where each spliced conductor comes in from both sides."""
