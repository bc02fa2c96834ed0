"""Conduit bodies, 314.16(C): by raceway area without splices, by marked volume with them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import Any, Literal

from boxaloud.rules.contents import DEFAULT_EDITION, Box, Content, Marked
from boxaloud.rules.data import RuleNote, note, table
from boxaloud.rules.editions import rule_set
from boxaloud.rules.errors import RulesError
from boxaloud.rules.sizes import check_awg
from boxaloud.rules.work import work_out

BodyVerdict = Literal["fits", "over", "not permitted"]
BodyUnit = Literal["in2", "in3", "conductors"]


@dataclass(frozen=True, slots=True)
class RacewayWires:
    """`count` conductors of one size and insulation (`thhn`, `xhhw` or `tw`)."""

    awg: int | str
    """Its size; from 4 AWG on as the tables write it, `4`, `2/0`, `500`."""
    count: int
    insulation: str = "thhn"


@dataclass(frozen=True, slots=True)
class ConduitBody:
    """A conduit body: the largest raceway on it, and what it holds."""

    raceway: str
    """`emt`, `imc`, `rmc` or `pvc40`."""
    size: Fraction
    """Trade size of the largest raceway, inches."""
    wires: tuple[RacewayWires, ...] = ()
    """What passes through, where there is no splice."""
    splices: tuple[Content, ...] = ()
    """What is spliced or mounted in it, counted by 314.16(B); empty without splices."""
    marked: Decimal | None = None
    """Cubic inches marked by the maker."""
    short_radius: bool = False
    area: Decimal | None = None
    """Cross-section of the body, square inches; None where it is not known."""


@dataclass(frozen=True, slots=True)
class BodyLine:
    """One requirement: what there is, and the limit it meets or breaks."""

    what: str
    have: Fraction
    limit: Fraction
    unit: BodyUnit
    holds: bool
    section: str
    rule: str
    working: str = ""
    """How the limit comes about, with the figures of the tables, `0.4 x 0.533 / 0.0133`."""


@dataclass(frozen=True, slots=True)
class BodySheet:
    """A conduit body worked out. `not permitted` where no volume would make it right."""

    edition: str
    lines: tuple[BodyLine, ...]
    verdict: BodyVerdict


@cache
def _rows(kind: str) -> Mapping[str, Mapping[str, Fraction]]:
    found: dict[str, dict[str, Fraction]] = {}
    for row in table("conduit")[kind]:
        areas = {str(size): Fraction(area) for size, area in row["areas"].items()}
        found.setdefault(row["id"], {}).update(areas)
    return found


def area_from_memory(kind: Literal["raceway", "insulation"], name: str, size: str) -> bool:
    """Whether an area is of a row that no source which was read states."""
    rows = [row for row in table("conduit")[kind] if row["id"] == name]
    return any(size in map(str, row["areas"]) and row["mark"] == "from memory" for row in rows)


def raceway_sizes(raceway: str) -> tuple[Fraction, ...]:
    """The trade sizes of a raceway that are held, least first, inches."""
    return tuple(sorted(map(Fraction, _rows("raceway")[raceway])))


def names_held(kind: Literal["raceway", "insulation"]) -> tuple[str, ...]:
    """The raceways, or the insulations, of which areas are held."""
    return tuple(_rows(kind))


def body_notes() -> tuple[RuleNote, ...]:
    """The notes of every rule for conduit bodies."""
    return tuple(note(f"body-{key}", row) for key, row in table("conduit")["body"].items())


def raceway_area(raceway: str, size: Fraction) -> Fraction:
    """Total area of a raceway, square inches, Chapter 9 Table 4 (`area_from_memory` tells which).

    Raises RulesError for a raceway or a trade size that is not held.
    """
    return _area("raceway", raceway, str(size))


def wire_area(insulation: str, awg: int | str) -> Fraction:
    """Area of an insulated conductor, square inches, Chapter 9 Table 5 (`area_from_memory` tells
    which)."""
    return _area("insulation", insulation, str(awg))


def _area(kind: str, name: str, size: str) -> Fraction:
    rows = _rows(kind)
    if name not in rows:
        raise RulesError(f"No areas are held for {name}: say one of {', '.join(rows)}.")
    if size not in rows[name]:
        sizes = ", ".join(rows[name])
        raise RulesError(f"No area is held for {name} of size {size}: say one of {sizes}.")
    return rows[name][size]


def fill_share(count: int) -> Fraction:
    """The share of a raceway that `count` conductors may take, Chapter 9 Table 1."""
    rows = [row for row in table("conduit")["fill"] if row["conductors"] <= max(1, count)]
    return Fraction(rows[-1]["percent"], 100)


def most_conductors(raceway: str, size: Fraction, awg: int | str, insulation: str = "thhn") -> int:
    """Most like conductors in a raceway, Chapter 9 Table 1 and Note 7 (0.8 rounds up)."""
    space, one = raceway_area(raceway, size), wire_area(insulation, awg)
    up = 1 - Fraction(table("conduit")["rounding"]["from"])
    many = int(space * fill_share(3) / one + up)
    if many >= 3:
        return many
    return next((n for n in (2, 1) if int(space * fill_share(n) / one + up) >= n), 0)


def work_out_conduit_body(body: ConduitBody, edition: str = DEFAULT_EDITION) -> BodySheet:
    """Whether a conduit body holds what is in it, 314.16(C).

    Of 4 AWG and larger this is the fill alone: the dimensions are those of `large_bodies`.
    Raises RulesError for sizes that are not held.
    """
    rule_set(edition)
    lines = _spliced(body, edition) if body.splices else _pulled(body)
    rules = {line.rule for line in lines if not line.holds}
    verdict: BodyVerdict = "over" if rules else "fits"
    if "body-short-radius" in rules or (body.splices and body.marked is None):
        verdict = "not permitted"
    return BodySheet(edition, tuple(lines), verdict)


def _rule(key: str) -> Mapping[str, Any]:
    row: Mapping[str, Any] = table("conduit")["body"][key]
    return row


def _line(
    key: str,
    what: str,
    have: Fraction,
    limit: Fraction,
    unit: BodyUnit,
    holds: bool,
    working: str = "",
) -> BodyLine:
    section = _rule(key)["section"]
    return BodyLine(what, have, limit, unit, holds, section, f"body-{key}", working)


def figure(value: Fraction) -> str:
    """A figure of a table as it is printed there, or near it: `0.533`, `0.4`."""
    return str(Decimal(value.numerator) / Decimal(value.denominator))


def _spliced(body: ConduitBody, edition: str) -> list[BodyLine]:
    lines = []
    fill = work_out(Box(contents=body.splices, clamps="none", edition=edition))
    if any(slot.slot not in ("box", "contents") for slot in fill.open):
        raise RulesError("Say what size lands on each device in the conduit body.")
    if body.short_radius:
        zero = Fraction(0)
        lines.append(_line("short-radius", "splices", zero, zero, "in3", False))
    limit = Fraction(body.marked or 0)
    have = Fraction(fill.total)
    if body.marked is not None:
        work_out(Box(parts=(Marked(body.marked, "conduit body"),)))
    holds = body.marked is not None and have <= limit
    lines.append(_line("splices-marked", "fill of the splices", have, limit, "in3", holds))
    return lines


def fill_taken(raceway: str, size: Fraction, wires: Iterable[tuple[str, int | str]]) -> bool:
    """Whether conductors, each by its insulation and size, are within Chapter 9 Table 1."""
    every = list(wires)
    if len(set(every)) == 1:
        ((insulation, awg),) = set(every)
        return len(every) <= most_conductors(raceway, size, awg, insulation)
    taken = sum((wire_area(insulation, awg) for insulation, awg in every), Fraction(0))
    return taken <= raceway_area(raceway, size) * fill_share(len(every))


def _pulled(body: ConduitBody) -> list[BodyLine]:
    for wires in body.wires:
        if isinstance(wires.awg, int):
            check_awg(wires.awg)
    space = raceway_area(body.raceway, body.size)
    lines = []
    if body.area is not None:
        least, have = space * int(_rule("no-splices")["times"]), Fraction(body.area)
        working = f"{_rule('no-splices')['times']} x {figure(space)}"
        lines.append(
            _line("no-splices", "cross-section", have, least, "in2", have >= least, working)
        )
    large = any(isinstance(wires.awg, str) for wires in body.wires)
    rule = "fill-large" if large else "fill"
    count = sum(wires.count for wires in body.wires)
    alike = {(wires.awg, wires.insulation) for wires in body.wires}
    if len(alike) == 1:
        ((awg, insulation),) = alike
        most = Fraction(most_conductors(body.raceway, body.size, awg, insulation))
        share = figure(fill_share(int(most)))
        working = f"{share} x {figure(space)} / {figure(wire_area(insulation, awg))}"
        lines.append(
            _line(rule, "conductors", Fraction(count), most, "conductors", count <= most, working)
        )
    elif alike:
        taken = sum((wire_area(w.insulation, w.awg) * w.count for w in body.wires), Fraction(0))
        limit = space * fill_share(count)
        working = f"{figure(fill_share(count))} x {figure(space)}"
        lines.append(
            _line(rule, "area of conductors", taken, limit, "in2", taken <= limit, working)
        )
    return lines
