"""Cells that say what a box is made of: a marked volume, a standard box, rings and barriers."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal, InvalidOperation
from functools import lru_cache

from boxaloud.assistant.contract.batch_documents import BatchRow
from boxaloud.assistant.reports.batch.batch_row import BadRow, shown
from boxaloud.rules import RulesError, TableRow, find_rows, inches_of, marked_in3, table_boxes
from boxaloud.rules.contents import (
    Barrier,
    ClampAssembly,
    Marked,
    Measured,
    Part,
    TableBox,
    Unmarked,
)

_VOLUME = re.compile(r"(\d{1,6}(?:\.\d{1,6})?) ?(in3|in³|cm3|cm³|ml)?( per gang)?")
_INSIDE = re.compile(r"([\d.]+) ?x ?([\d.]+) ?x ?([\d.]+) ?(mm|cm|in)? inside")
_PART = re.compile(r"(.+?) (\d{1,5}(?:\.\d{1,6})?)")
_ASSEMBLY = re.compile(r"(?:(\d{1,2}) x )?clamp assembly (\d{1,3}(?:\.\d{1,4})?)")
_EXTENSION = re.compile(r"extension(?: ring)? ([a-z].+)|([a-z].+?) extension(?: ring)?")
_UNMARKED = 100
"""Cubic inches up to which a box outside the Table must be marked, 314.16(A)(2)."""
_FAMILIES = ("square", "handy", "masonry", "device")
"""What three sizes without a name may be of."""
_SIZE = re.compile(r"(\d{1,2}(?:\.\d{1,4})?)(?:-(\d{1,2})/([1-9]\d?))?")
_WORD = re.compile(r"[a-z]+")
_FAR = 9
"""A volume has fewer places than this before its point, and behind it before its first figure."""


def parts_of(row: BatchRow) -> tuple[Part, ...]:
    """The parts that a row gives. Raises BadRow or RulesError, in a sentence."""
    parts: list[Part] = []
    if "volume" in row.model_fields_set:
        parts.append(_marked(row.volume, row.gangs))
    if "box" in row.model_fields_set:
        parts.append(_box(row.box, _gangs(row.gangs)))
    for item in row.parts:
        parts.append(_part(item))
    return tuple(parts)


def _gangs(said: str) -> int:
    if not said.isdecimal() or len(said) > 2:
        raise BadRow(f"gangs is a whole number, not {said!r}.")
    return int(said)


@lru_cache(maxsize=1024)
def _box(text: str, gangs: int) -> TableBox | Measured:
    """A box of the Table, else a large one by its sides: 314.16(A)(2) asks a mark of those of 100
    cubic inches or less alone."""
    said = " ".join(text.lower().replace("×", "x").split())
    inside = _INSIDE.fullmatch(said)
    if inside is not None:
        return _measured(inside)
    try:
        return _standard(said, gangs)
    except RulesError:
        sides = [_inches(size) for size in _SIZE.findall(said)]
        large = len(sides) == 3 and not _WORD.sub("", said.replace("x", " ")).strip(
            " 0123456789.-/"
        )
        if not large or sides[0] * sides[1] * sides[2] <= _UNMARKED or gangs != 1:
            raise
        return Measured(sides[0], sides[1], sides[2])


@lru_cache(maxsize=1024)
def _marked(text: str, gangs: str = "1") -> Marked:
    found = _VOLUME.fullmatch(text.lower())
    if found is None:
        raise BadRow(f"volume is a number of cubic inches, like 18 or 295 cm3, not {shown(text)}.")
    volume = Decimal(found[1]) * (_gangs(gangs) if found[3] else 1)
    if found[2] in ("cm3", "cm³", "ml"):
        return Marked(marked_in3(volume), cm3=volume)
    return Marked(volume)


def _measured(found: re.Match[str]) -> Measured:
    """ "12 x 12 x 6 inside", "300 x 200 x 100 mm inside": a metal box over 100 cubic inches."""
    try:
        width, height, depth = (inches_of(Decimal(side), found[4]) for side in found.groups()[:3])
    except InvalidOperation:
        raise BadRow(f"{found[0]!r} has a side that is no number.") from None
    return Measured(width, height, depth)


@lru_cache(maxsize=1024)
def _standard(text: str, gangs: int) -> TableBox:
    """A box of Table 314.16(A) by its identifier, its name, or "square 4 x 1-1/2"."""
    said = " ".join(text.lower().split())
    for row in table_boxes():
        if said in (row.id, row.name.lower()):
            return TableBox(row.id, gangs)
    sizes = [_inches(size) for size in _SIZE.findall(said)]
    family = " ".join(word for word in _WORD.findall(said) if word != "x")
    if len(sizes) in (2, 3):
        height = sizes[1] if len(sizes) == 3 else None
        for named in [family] if family or height is None else _FAMILIES:
            last = named == _FAMILIES[-1] or bool(family)
            rows = _rows(named, sizes[0], height, sizes[-1], last)
            if len(rows) == 1:
                return TableBox(rows[0].id, gangs)
    raise BadRow(f"{shown(text)} is no box of Table 314.16(A): say it like “square 4 x 1-1/2”.")


def _rows(
    family: str, width: Decimal, height: Decimal | None, depth: Decimal, last: bool
) -> tuple[TableRow, ...]:
    """The rows of that size; of the last family that it may be, the refusal is told."""
    try:
        return tuple(find_rows(family, width, height, depth))
    except RulesError:
        if last:
            raise
        return ()


def _inches(size: tuple[str, str, str]) -> Decimal:
    """Whole, numerator and denominator as inches."""
    whole, over, under = size
    fraction = Decimal(over) / Decimal(under) if under else Decimal(0)
    return Decimal(whole) + fraction


@lru_cache(maxsize=1024)
def _part(item: str) -> Part:
    """ "plaster ring 3.5", "domed cover 4", "unmarked ring", "barrier metal"."""
    said = " ".join(item.lower().split())
    if said.startswith("unmarked "):
        return Unmarked(said.removeprefix("unmarked "))
    if said.startswith("barrier"):
        return _barrier(said)
    if assembly := _ASSEMBLY.fullmatch(said):
        return ClampAssembly(Decimal(assembly[2]), int(assembly[1] or 1))
    if extension := _EXTENSION.fullmatch(said):
        return replace(_standard(extension[1] or extension[2], 1), label="extension ring")
    found = _PART.fullmatch(said)
    if found is None:
        raise BadRow(
            f"{shown(item)} is no part: say it like “plaster ring 3.5” or “unmarked ring”."
        )
    return Marked(Decimal(found[2]), found[1])


def volume_of(value: object) -> Decimal:
    """A volume given as text or a number. Raises BadRow for what is no number, or none of this
    world."""
    if isinstance(value, str | int | Decimal) and not isinstance(value, bool):
        try:
            volume = Decimal(str(value))
        except InvalidOperation:
            pass
        else:
            if volume.is_finite() and abs(volume.adjusted()) < _FAR:
                return volume
    raise BadRow(f"{shown(value)} is no volume.")


def _barrier(said: str) -> Barrier:
    _, *rest = said.split()
    material = rest[0] if rest else "metal"
    if material not in ("metal", "nonmetallic") or len(rest) > 2:
        raise BadRow(
            f"{shown(said)} is no barrier: say “barrier metal” or “barrier nonmetallic 1.5”."
        )
    volume = volume_of(rest[1]) if len(rest) == 2 else None
    return Barrier(material, volume)  # type: ignore[arg-type]
