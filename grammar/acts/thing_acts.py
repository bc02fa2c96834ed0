"""Acts that tell of things in a box, as they were said."""

from __future__ import annotations

from decimal import Decimal
from typing import TypeAlias

from boxaloud.grammar.acts.act_base import Act, Unit, WirePath
from boxaloud.grammar.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class AddCable(Act):
    """Cables of one kind. `count` None: one. `role` is only echoed ("feed", "switch leg")."""

    count: int | None = None
    awg: int | None = None
    conductors: int | None = None
    ground: bool | None = None
    ground_awg: int | None = None
    path: WirePath | None = None
    role: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddConductors(Act):
    """Insulated conductors named one by one."""

    count: int | None = None
    awg: int | None = None
    path: WirePath | None = None
    role: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddGrounds(Act):
    """Equipment grounding conductors; `count` None: some, nobody said how many."""

    count: int | None = None
    awg: int | None = None
    isolated: bool | None = None
    canopy: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddJumper(Act):
    """An equipment bonding jumper."""

    count: int | None = None
    awg: int | None = None
    enters: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddFixtureWires(Act):
    """The tails of a luminaire, with how many grounds."""

    count: int | None = None
    awg: int | None = None
    canopy: bool | None = None
    grounds: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddDevice(Act):
    """Yokes, each with one or more devices on it."""

    count: int | None = None
    name: str | None = None
    awg: int | None = None
    gangs: int | None = None
    depth: Decimal | None = None
    """How far it reaches behind its strap, in inches, or in `unit` cm or mm."""
    unit: Unit | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddFitting(Act):
    """A luminaire stud, a hickey or another support fitting."""

    count: int | None = None
    name: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddTerminalBlock(Act):
    """Terminal block assemblies."""

    count: int | None = None
    awg: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddUncounted(Act):
    """Something that takes no allowance. `awg`: the largest wire under a wire connector."""

    count: int | None = None
    name: str | None = None
    awg: int | None = None


Thing: TypeAlias = (
    AddCable
    | AddConductors
    | AddGrounds
    | AddJumper
    | AddFixtureWires
    | AddDevice
    | AddFitting
    | AddTerminalBlock
    | AddUncounted
)
