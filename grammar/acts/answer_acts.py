"""Denials, and answers that need the open question to be understood."""

from __future__ import annotations

from dataclasses import field
from decimal import Decimal

from boxaloud.grammar.acts.act_base import Act, Placing
from boxaloud.grammar.acts.reference import Reference
from boxaloud.grammar.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Deny(Act):
    """There is no such thing in the box. It takes nothing away but what it names."""

    target: Reference = field(default_factory=Reference)


@dataclass(frozen=True, slots=True, kw_only=True)
class NothingElse(Act):
    """There is nothing more in the box. `of` is `else`, `other` or a kind of thing."""

    of: str = "else"


@dataclass(frozen=True, slots=True, kw_only=True)
class Number(Act):
    """A bare number."""

    value: Decimal | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Size(Act):
    """A bare wire size: "fourteen", "on the twelves". Never a volume."""

    awg: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Place(Act):
    """A bare place: inside or outside."""

    where: Placing = "present"


@dataclass(frozen=True, slots=True, kw_only=True)
class NoneOfThem(Act):
    """ "None", "not any"."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Yes(Act):
    """Confirm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class No(Act):
    """Disconfirm, by itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DontKnow(Act):
    """The speaker cannot tell."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Skip(Act):
    """Leave the open question."""
