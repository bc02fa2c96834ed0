"""Table 314.16(A): the standard metal boxes, and how people name them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Any

from boxaloud.rules.data import RuleNote, note, table
from boxaloud.rules.errors import NoSuchBox, RulesError

_ROUNDING = Decimal("0.01")
"""A depth may be said to two places (2.12 or 2.13 for 2-1/8); rows differ by far more."""


@dataclass(frozen=True, slots=True)
class TableRow:
    """A row of Table 314.16(A). Dimensions in inches, None where the Table gives none."""

    id: str
    name: str
    family: str
    width: Decimal | None
    height: Decimal | None
    depth: Decimal
    """The minimum depth, inches."""
    volume: Decimal
    """Cubic inches, of each gang where `gangs` is true."""
    cm3: Decimal
    """The printed cubic centimetres."""
    maximums: Mapping[int, int]
    """Most conductors of one AWG, as printed, with nothing else in the box."""
    gangs: bool
    """Whether sections of it can be ganged."""
    cover: str
    """`single` or `multiple` for FS and FD boxes, otherwise empty."""
    note: RuleNote


_SIZES = (18, 16, 14, 12, 10, 8, 6)


def _row(data: Mapping[str, Any]) -> TableRow:
    each = " for each gang" if data["family"] in ("masonry", "fs", "fd") else ""
    return TableRow(
        id=data["id"],
        name=data["name"],
        family=data["family"],
        width=Decimal(data["width"]) if "width" in data else None,
        height=Decimal(data["height"]) if "height" in data else None,
        depth=Decimal(data["depth"]),
        volume=Decimal(data["in3"]),
        cm3=Decimal(data["cm3"]),
        maximums=dict(zip(_SIZES, data["maximums"], strict=True)),
        gangs=data["gangs"],
        cover=data.get("cover", ""),
        note=note(
            data["id"], data, f"The Table gives {data['in3']} cubic inches{each} to this box."
        ),
    )


@cache
def _rows() -> Mapping[str, TableRow]:
    return {data["id"]: _row(data) for data in table("boxes")["box"]}


def table_boxes() -> tuple[TableRow, ...]:
    """Every row of Table 314.16(A), in its order."""
    return tuple(_rows().values())


def table_row(row: str) -> TableRow:
    """The row of that identifier. Raises NoSuchBox where there is none."""
    try:
        return _rows()[row]
    except KeyError:
        raise NoSuchBox(
            f"Table 314.16(A) has no box named {row}: say its size or its marked volume."
        ) from None


def family_named(name: str) -> Mapping[str, Any]:
    """The data of a family by any of its names. Raises NoSuchBox where it is none."""
    said = name.strip().lower()
    for family in table("boxes")["family"]:
        if said == family["id"] or said in family["also"]:
            found: Mapping[str, Any] = family
            return found
    raise NoSuchBox(
        f"Table 314.16(A) lists no {said or 'such'} box, so its volume must be marked on it: "
        "say the marked cubic inches, for a measured outside size is not a volume."
    )


def find_rows(
    family: str,
    width: Decimal | int | None = None,
    height: Decimal | int | None = None,
    depth: Decimal | int | str | None = None,
    gangs: int | None = None,
) -> tuple[TableRow, ...]:
    """The rows that what was said may mean; more than one where the depth is still to be asked.

    `width` and `height` are inches in either order; `depth` is inches, or `deep` or `shallow`,
    which mean the depths listed for the family (common practice). `gangs` only chooses between
    single and multiple covers of FS and FD boxes. Raises NoSuchBox where no row is left.
    """
    for nickname in table("boxes")["nickname"]:
        if family.strip().lower() in nickname["said"]:
            family, width = nickname["family"], nickname["width"] if width is None else width
    kin = family_named(family)
    found: Iterable[TableRow] = (row for row in _rows().values() if row.family == kin["id"])
    for size in (width, height):
        if size is not None:
            found = _of_size(found, kin["id"], Decimal(size))
    if depth is not None:
        depths = [Decimal(text) for text in _depths(kin, depth)]
        found = [row for row in found if any(_same(row.depth, wanted) for wanted in depths)]
    rows = tuple(found)
    if gangs is not None and kin["id"] in ("fs", "fd"):
        cover = "multiple" if gangs > 1 else "single"
        rows = tuple(row for row in rows if row.cover == cover)
    if not rows:
        raise NoSuchBox(
            f"Table 314.16(A) has no {kin['id']} box of that size, so unless it is of metal and "
            "larger than 100 cubic inches its volume must be marked on it: say the marked cubic "
            "inches, for a measured outside size is not a volume."
        )
    return rows


def _of_size(rows: Iterable[TableRow], family: str, said: Decimal) -> list[TableRow]:
    for spoken in table("boxes")["spoken_size"]:
        if spoken["family"] == family and Decimal(spoken["said"]) == said:
            said = Decimal(spoken["means"])
    return [
        row
        for row in rows
        if (row.width is not None and _same(row.width, said))
        or (row.height is not None and _same(row.height, said))
    ]


def _depths(family: Mapping[str, Any], depth: Decimal | int | str) -> list[str]:
    if not isinstance(depth, str):
        return [str(depth)]
    if depth not in ("deep", "shallow"):
        raise RulesError(f"A depth is a number of inches, or deep, or shallow, not {depth!r}.")
    depths: list[str] = family[depth]
    return depths


def _same(one: Decimal, other: Decimal) -> bool:
    return abs(one - other) <= _ROUNDING
