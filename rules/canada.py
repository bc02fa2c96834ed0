"""Canada, Rule 12-3034 of the Canadian Electrical Code, in millilitres.

It is no edition of 314.16 and never mixes with it. Each conductor takes its volume of Table 22,
so that sizes may be mixed, subrule (4). Table 23 was not found: a box counts by its mark only.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from functools import cache
from typing import Any

from boxaloud.rules.bounds import Choice, open_slots
from boxaloud.rules.canadian_tally import CanadianTally, count_canadian
from boxaloud.rules.capacity import is_box
from boxaloud.rules.checks import validate_part
from boxaloud.rules.contents import Barrier, Box, ClampAssembly, Marked, Part
from boxaloud.rules.data import RuleNote, note, table
from boxaloud.rules.errors import RulesError
from boxaloud.rules.lines import ZERO, tidy
from boxaloud.rules.units import marked_ml
from boxaloud.rules.words import counted
from boxaloud.rules.worksheet import Line, VolumeLine, Worksheet, verdict_of

_ONE, _NONE = Decimal(1), Decimal(0)


@cache
def allowances() -> Mapping[int, Decimal]:
    """Millilitres of one conductor by AWG, Table 22."""
    return {row["awg"]: Decimal(row["ml"]) for row in table("canada")["allowance"]}


def canada_notes() -> tuple[RuleNote, ...]:
    """The notes of every rule held for Canada, and of the rows of Table 22."""
    data = table("canada")
    rows = [note(key, row) for key, row in data["rule"].items()]
    rows += [note(f"ca-{key}", data[key]) for key in ("code", "unmarked", "marked", "barrier")]
    rows.append(note("ca-deep-open", data["deep"]))
    for row in data["allowance"]:
        says = f"One {row['awg']} AWG conductor takes {row['ml']} millilitres."
        rows.append(note(f"ca-allowance-{row['awg']}", row, says))
    return tuple(rows)


def must_be_marked() -> str:
    """Why a box of a Table counts nothing in Canada, in a sentence."""
    return str(table("canada")["unmarked"]["says"])


def canadian_worksheet(box: Box) -> Worksheet:
    """Rule 12-3034 for a described box, in millilitres, exact.

    The capacity is None for a box that is not marked. Raises RulesError for a conductor that
    Table 22 has no row for, and for anything that cannot be.
    """
    tally = count_canadian(box.contents)
    for awg in (*tally.wires, *tally.through, *tally.isolated):
        _each(awg)
    made = tuple(_lines(box, tally))
    total = tidy(sum((line.subtotal for line in made), ZERO))
    volumes = tuple(line for part in box.parts if (line := _volume(part)) is not None)
    marked = any(isinstance(part, Marked) and is_box(part) for part in box.parts)
    room = tidy(sum((line.volume for line in volumes), ZERO)) if marked else None
    found = list(_choices(box, tally))
    low = total + sum((choice.volumes[0] for choice in found), ZERO)
    high = total + sum((choice.volumes[-1] for choice in found), ZERO)
    open_ = open_slots(found, total, room) if found or room is None else ()
    told = not any(slot.slot == "contents" for slot in open_)
    return Worksheet(
        edition=box.edition,
        lines=made,
        volumes=volumes,
        total=total,
        capacity=room,
        margin=None if room is None else room - total,
        verdict=verdict_of(low, high, room, told),
        low=low,
        high=high,
        open=open_,
        unit="mL",
    )


def _each(awg: int) -> Decimal:
    try:
        return allowances()[awg]
    except KeyError:
        raise RulesError(
            f"Table 22 of the Canadian code has no row for {awg} AWG: say 14, 12, 10, 8 or 6."
        ) from None


# -- what is counted ---------------------------------------------------------------------------


def _line(
    key: str, awg: int | None, count: int, times: int | Decimal, what: str, each: Decimal
) -> Line:
    row: Mapping[str, Any] = table("canada")["rule"][key]
    allowances_ = Decimal(times)
    subtotal = tidy(allowances_ * each)
    return Line(row["item"], awg, count, allowances_, each, subtotal, row["section"], what, key)


def _nothing(key: str, count: int, what: str) -> Line:
    return _line(key, None, count, 0, what, ZERO)


def _lines(box: Box, tally: CanadianTally) -> Iterator[Line]:
    for awg in sorted(tally.wires, reverse=True):
        count = tally.wires[awg]
        what = counted(count, f"{awg} AWG conductor")
        yield _line("ca-conductors", awg, count, count, what, _each(awg))
    for awg in sorted(tally.through, reverse=True):
        count = tally.through[awg]
        what = counted(count, f"{awg} AWG conductor") + " running through"
        yield _line("ca-through", awg, count, count, what, _each(awg))
    for awg in sorted(tally.isolated, reverse=True):
        count = tally.isolated[awg]
        what = counted(count, "isolated ground")
        yield _line("ca-isolated", awg, count, count, what, _each(awg))
    yield from _deductions(tally)
    yield from _left_out(box, tally)


def _deductions(tally: CanadianTally) -> Iterator[Line]:
    largest = tally.largest
    if largest is not None:
        for kind in sorted(tally.fittings):
            count = tally.fittings[kind]
            yield _line("ca-fittings", largest, count, count, counted(count, kind), _each(largest))
        for awg, pairs in sorted(tally.pairs().items(), reverse=True):
            what = f"{counted(pairs, 'pair')} of wire connectors"
            yield _line("ca-connectors", awg, 2 * pairs, pairs, what, _each(awg))
    for (name, awg), count in sorted(tally.straps.items(), key=lambda pair: (-pair[0][1], pair)):
        yield _line("ca-straps", awg, count, 2 * count, counted(count, name), _each(awg))
    for (name, depth), count in sorted(tally.deep.items()):
        each = Decimal(table("canada")["deep"]["ml_per_cm"]) * depth
        what = f"{counted(count, name)}, {depth} cm deep"
        yield _line("ca-deep", None, count, count, what, each)


def _left_out(box: Box, tally: CanadianTally) -> Iterator[Line]:
    counts = (
        ("ca-inside", tally.inside, "conductor staying inside"),
        ("ca-fixture", tally.fixture_wires, "fixture wire of the luminaire"),
        ("ca-bonding", tally.bonding, "bonding conductor"),
    )
    for key, count, name in counts:
        if count:
            yield _nothing(key, count, counted(count, name))
    if box.clamps in ("inside", "outside"):
        yield _nothing("ca-none", 1, f"clamps {box.clamps} the box")
    odd = tally.connectors_alone
    if odd:
        yield _nothing("ca-connectors", odd, f"{counted(odd, 'wire connector')} without a pair")
    for kind, count in sorted(tally.others.items()):
        yield _nothing("ca-none", count, counted(count, kind))


# -- what the box holds ------------------------------------------------------------------------


def _volume(part: Part) -> VolumeLine | None:
    """The line of a part that is marked; None for one that adds and takes nothing."""
    validate_part(part)
    data = table("canada")
    if isinstance(part, Marked):
        volume = part.cm3 if part.cm3 is not None else marked_ml(part.volume)
        section = data["marked"]["section"]
        return VolumeLine(f"marked {part.label}", tidy(volume), section, "ca-marked")
    if isinstance(part, Barrier | ClampAssembly) and part.volume is not None:
        taken = tidy(marked_ml(part.volume, up=True) * getattr(part, "count", 1))
        name = "barrier" if isinstance(part, Barrier) else "clamp assembly"
        return VolumeLine(name, -taken, data["barrier"]["section"], "ca-barrier")
    return None


# -- what is open ------------------------------------------------------------------------------


def _choices(box: Box, tally: CanadianTally) -> Iterator[Choice]:
    if not tally.described:
        yield Choice("contents", (ZERO,))
    largest = tally.largest
    if not box.connectors_known and not tally.connectors and largest is not None:
        most = tidy(tally.most_connectors // 2 * _each(largest))
        yield Choice("connectors", (ZERO, most), "ca-connectors")
    deep = table("canada")["deep"]
    sizes = sorted(_each(awg) for awg in tally.sizes) or sorted(allowances().values())
    for index, name, awg, count, asks_depth in tally.open_straps:
        least = tidy(2 * count * (sizes[0] if awg is None else _each(awg)))
        greatest = tidy(2 * count * (sizes[-1] if awg is None else _each(awg)))
        if asks_depth:
            deepest = Decimal(deep["ml_per_cm"]) * Decimal(deep["centimetres"]) * count
            yield Choice(
                "device_depth", (least, tidy(max(deepest, greatest))), "ca-deep-open", name, index
            )
        else:
            each = tuple(tidy(2 * count * volume) for volume in sizes)
            yield Choice("device_size", each, "ca-straps", name, index)
