"""Acts that tell of a pull box, 314.28(A), or of a conduit body, 314.16(C)."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from boxaloud.grammar.acts.act_base import Act


@dataclass(frozen=True, slots=True, kw_only=True)
class DescribePull(Act):
    """A pull of large conductors begins: straight, angle, u or splice. The trade sizes stand in
    `AddRaceways` behind it; journals of before hold them here."""

    kind: str | None = None
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
    wall: str | None = None
    """`left`, `right`, `top`, `bottom` or `back`, where it was said."""
    to: str | None = None
    """The wall that the same raceway size leaves by, where it was said."""
    end: str | None = None
    """`in` or `out` where it is only one end of a pull."""
    row: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeOutRaceways(Act):
    """ "Take out the 2 inch": raceways of a pull box that are not there after all."""

    count: int | None = None
    """None: all of that size."""
    size: Decimal | None = None
    wall: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetPull(Act):
    """What is said of a pull box besides its raceways."""

    conductor: str | None = None
    """The largest conductor: `4`, `2/0`, `500`."""
    cover: bool | None = None
    """Whether the cover opposite the back wall is removable."""
    walls: str | None = None
    """`opposite`, `adjacent` or `same`, or names of walls with spaces between."""
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


@dataclass(frozen=True, slots=True, kw_only=True)
class SetBody(Act):
    """What is said of a conduit body besides what is in it, 314.16(C)."""

    shape: str | None = None
    """`LB`, `LL`, `LR`, `C`, `T` …"""
    raceway: str | None = None
    """`emt`, `imc`, `rmc`, `pvc40`: the largest raceway on it."""
    size: Decimal | None = None
    """Trade size of that raceway, inches."""
    insulation: str | None = None
    """`thhn`, `xhhw` or `tw`."""
    spliced: bool | None = None
    short_radius: bool | None = None
    marked: bool | None = None
    """False where the maker marked no volume on it."""
    both_sides: bool | None = None
    """True where each spliced conductor comes in from both sides."""
