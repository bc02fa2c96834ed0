"""Canada, Rule 12-3034 of the Canadian Electrical Code: a seam, with what is confirmed.

It is no edition of 314.16 and never mixes with it. Only one size of conductor in a box marked
in millilitres is counted: the rows of Table 23 and the way of mixed sizes were not found.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from boxaloud.rules.data import RuleNote, note, table
from boxaloud.rules.errors import RulesError


@dataclass(frozen=True, slots=True)
class CanadianBox:
    """What is in a box, all on conductors of one AWG. Bare grounds and clamps never count."""

    awg: int
    conductors: int
    """Insulated conductors that enter and are connected, or pass through."""
    wire_connectors: int = 0
    fittings: int = 0
    """Luminaire studs and hickeys."""
    straps: int = 0
    """Flush devices not deeper than 2.54 cm behind the strap."""
    marked: Decimal | None = None
    """Millilitres marked on the box."""


@dataclass(frozen=True, slots=True)
class CanadianLine:
    """One line: `allowances` of `each` millilitres."""

    what: str
    count: int
    allowances: int
    each: Decimal
    subtotal: Decimal
    section: str
    rule: str


@dataclass(frozen=True, slots=True)
class CanadianSheet:
    """Millilitres; `margin` is None while nothing is marked."""

    lines: tuple[CanadianLine, ...]
    total: Decimal
    margin: Decimal | None


def canada_notes() -> tuple[RuleNote, ...]:
    """The notes of every rule held for Canada."""
    return tuple(note(key, row) for key, row in table("canada")["rule"].items())


def work_out_canada(box: CanadianBox) -> CanadianSheet:
    """Rule 12-3034 for one size of conductor, in millilitres.

    Raises RulesError for a size that Table 22 is not held for, or a count below zero.
    """
    each = _allowance(box.awg)
    rules: Mapping[str, Mapping[str, Any]] = table("canada")["rule"]
    counted = (
        ("conductors", box.conductors, box.conductors, "ca-conductors"),
        ("wire connectors", box.wire_connectors, box.wire_connectors // 2, "ca-connectors"),
        ("support fittings", box.fittings, box.fittings, "ca-fittings"),
        ("flush devices", box.straps, box.straps, "ca-straps"),
    )
    lines = []
    for what, count, times, rule in counted:
        if count < 0:
            raise RulesError(f"A count of {count} {what} cannot be right: say none or more.")
        allowances = times * rules[rule]["each"]
        if count:
            line = CanadianLine(
                what, count, allowances, each, allowances * each, rules[rule]["section"], rule
            )
            lines.append(line)
    total = sum((line.subtotal for line in lines), Decimal("0.0"))
    return CanadianSheet(tuple(lines), total, None if box.marked is None else box.marked - total)


def _allowance(awg: int) -> Decimal:
    for row in table("canada")["allowance"]:
        if row["awg"] == awg:
            return Decimal(row["ml"])
    raise RulesError(f"Table 22 is not held for {awg} AWG: say 14, 12, 10, 8 or 6.")
