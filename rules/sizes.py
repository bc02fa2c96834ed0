"""Conductor sizes: the allowance of each, Table 314.16(B), and the ground sold in a cable."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from boxaloud.rules.data import RuleNote, note, table
from boxaloud.rules.errors import RulesError
from boxaloud.rules.worksheet import Mark


@dataclass(frozen=True, slots=True)
class Allowance:
    """A row of Table 314.16(B): the volume of one conductor of `awg`."""

    awg: int
    in3: Decimal
    cm3: Decimal
    """The printed cubic centimetres, which are rounded."""
    cm3_mark: Mark
    note: RuleNote


@cache
def allowances() -> Mapping[int, Allowance]:
    """Every row of Table 314.16(B) by AWG, 18 to 6."""
    return {
        row["awg"]: Allowance(
            awg=row["awg"],
            in3=Decimal(row["in3"]),
            cm3=Decimal(row["cm3"]),
            cm3_mark=row["cm3_mark"],
            note=note(
                f"allowance-{row['awg']}",
                row,
                f"One {row['awg']} AWG conductor is allowed {row['in3']} cubic inches.",
            ),
        )
        for row in table("allowances")["allowance"]
    }


@cache
def volumes() -> Mapping[int, Decimal]:
    """Cubic inches of one allowance by AWG."""
    return {awg: row.in3 for awg, row in allowances().items()}


@cache
def _cable_grounds() -> Mapping[int, int]:
    return {row["awg"]: row["ground"] for row in table("allowances")["cable_ground"]}


def allowance(awg: int) -> Allowance:
    """The row of Table 314.16(B) for `awg`.

    Raises RulesError for a size that is not in it.
    """
    check_awg(awg)
    return allowances()[awg]


def ground_for(awg: int) -> int:
    """AWG of the equipment grounding conductor sold in a cable of `awg` conductors.

    The same size up to 10 AWG; 8 and 6 AWG cables carry a 10 (from memory, 250.122).
    Raises RulesError for a size that is not in Table 314.16(B).
    """
    check_awg(awg)
    return _cable_grounds()[awg]


def check_awg(awg: int, what: str = "conductor") -> None:
    """Raise RulesError unless `awg` has an allowance in Table 314.16(B)."""
    if type(awg) is int and awg in volumes():
        return
    if awg in (4, 3, 2, 1, 0, -1, -2, -3):
        named = f"{awg} AWG" if awg > 0 else f"{1 - awg}/0 (said as {awg} AWG)"
        raise RulesError(
            f"314.16(B) has no allowance for {_a(what)} of {named}: from 4 AWG up a box is "
            "sized by 314.28, so describe it as a pull box."
        )
    raise RulesError(
        f"{awg} AWG is not a size in Table 314.16(B) for {_a(what)}: "
        "say 18, 16, 14, 12, 10, 8 or 6."
    )


def _a(what: str) -> str:
    return f"an {what}" if what[0] in "aeiou" else f"a {what}"
