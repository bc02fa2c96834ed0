"""Acts that tell of the box itself: its volume or size, clamps, parts, edition."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.grammar.acts.act_base import Act, Placing, Unit
from boxaloud.grammar.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class SetClamps(Act):
    """Where the cable clamps are."""

    where: Placing = "present"
    count: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetVolume(Act):
    """A volume marked on the box, in cubic inches, or in `unit` cm3."""

    volume: Decimal | None = None
    unit: Unit | None = None
    gangs: int | None = None
    each: bool = False
    """True where the volume is that of each gang."""
    family: str | None = None
    material: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetSize(Act):
    """A standard metal box by its size in inches, in the order of Table 314.16(A)."""

    family: str | None = None
    width: Decimal | None = None
    height: Decimal | None = None
    depth: Decimal | str | None = None
    gangs: int | None = None
    material: str | None = None
    row: str | None = None
    """A row of the table picked from a list; never said."""
    unit: Unit | None = None
    """`mm` or `cm` where the dimensions are metric, None for inches."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NameBoxKind(Act):
    """A box named without volume or size."""

    gangs: int | None = None
    family: str | None = None
    material: str | None = None
    name: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddPart(Act):
    """A plaster ring, extension ring, domed or raised cover."""

    name: str | None = None
    volume: Decimal | None = None
    unit: Unit | None = None
    gangs: int | None = None
    family: str | None = None
    width: Decimal | None = None
    depth: Decimal | str | None = None
    marked: bool | None = None
    material: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class InSpace(Act):
    """ "On the first side of the barrier": where in a divided box things stand, from 1."""

    which: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class ShareSpaces(Act):
    """ "14 cubic inches on the left and 27 on the right": how barriers share the volume out."""

    equal: bool = False
    """True where every side has as much."""
    which: int = 1
    volume: Decimal | None = None
    """The volume of space `which`, cubic inches, or in `unit` cm3."""
    rest: Decimal | None = None
    """That of the other one of two, where it was said."""
    unit: Unit | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddClampAssembly(Act):
    """A listed clamp assembly with a cable termination, and its volume inside the box."""

    count: int | None = None
    volume: Decimal | None = None
    unit: Unit | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Hang(Act):
    """What the box carries: `name` is `fan`, `luminaire` or unsaid, `weight` in pounds or in
    `unit` kg."""

    name: str | None = None
    weight: Decimal | None = None
    unit: Unit | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddBarrier(Act):
    """A barrier that divides the box."""

    material: str | None = None
    volume: Decimal | None = None
    unit: Unit | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AllowByTable(Act):
    """ "The table lets me have ten wires in this box": so many conductors with nothing else in it,
    314.16(A). None of them is in it by that."""

    count: int = 0
    awg: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetEdition(Act):
    """The edition of the code to count by: a year, a `code` or a place by name, or both."""

    year: str = ""
    code: str | None = None
    """`residential`, `Canadian code`, `CEC`, or the name of a place."""
