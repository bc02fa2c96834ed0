"""A row of columns as a described box. Cells are short, in the trade's words."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from functools import lru_cache

from boxaloud.assistant.contract.batch_documents import BatchRow
from boxaloud.assistant.reports.batch.batch_row import MOST_ITEMS, BadRow
from boxaloud.assistant.reports.batch.content_cells import READERS
from boxaloud.assistant.reports.batch.part_cells import parts_of, volume_of
from boxaloud.rules import DEFAULT_EDITION, check_edition
from boxaloud.rules.contents import Box, Cable, Conductors, Content, TerminalBlock, Yoke

_HANGS = re.compile(r"(fan|luminaire)(?: (\d{1,4}(?:\.\d)?))?")
_MATERIALS = {"metal": False, "nonmetallic": True, "plastic": True}


_SIDE = re.compile(r"(.+?) side ([1-4])", re.IGNORECASE)


def names_sides(row: BatchRow) -> bool:
    """Whether a row speaks of the sides of a barrier."""
    given = (column for column in READERS if column in row.model_fields_set)
    return bool(row.sides) or any(
        _SIDE.fullmatch(item) for column in given for item in getattr(row, column)
    )


def placed_in(row: BatchRow) -> tuple[tuple[Content, int], ...]:
    """What is in a box that barriers part, with the side it is on, 0 where that is not said."""
    placed: list[tuple[Content, int]] = []
    for column in READERS:
        for item in getattr(row, column) if column in row.model_fields_set else ():
            found = _SIDE.fullmatch(item)
            side = int(found[2]) if found else 0
            placed += [(content, side) for content in READERS[column](found[1] if found else item)]
    sized = _sized(tuple(content for content, _ in placed))
    return tuple(zip(sized, (side for _, side in placed), strict=True))


def shares_of_row(row: BatchRow) -> tuple[tuple[int, Decimal], ...] | None:
    """The cubic inches said of each side of the barriers; None where they are equal."""
    if [said.lower() for said in row.sides] == ["equal"]:
        return None
    return tuple((number, volume_of(said)) for number, said in enumerate(row.sides, start=1))


def box_of_row(row: BatchRow) -> Box:
    """The box that a row's columns describe. Raises BadRow or RulesError, in a sentence."""
    contents: list[Content] = []
    given = row.model_fields_set
    for column in READERS:
        if column in given:
            if len(listed := getattr(row, column)) > MOST_ITEMS:
                raise BadRow(f"{column} lists {len(listed)} things; {MOST_ITEMS} are the most.")
            contents += _cell(column, listed)
    tags, weight = _hanging(row.hangs)
    return Box(
        parts=parts_of(row),
        contents=_sized(tuple(contents)),
        clamps=row.clamps,
        grounds_known="grounds" in given or _grounds_known(contents),
        nonmetallic=_MATERIALS[row.material] if row.material else None,
        edition=edition_of(row),
        connectors_known="not_counted" in given,
        hangs=weight,
        tags=tags,
    )


def _hanging(said: str) -> tuple[frozenset[str], Decimal | None]:
    """What the box carries: "fan", "luminaire 60"."""
    if not said:
        return frozenset(), None
    found = _HANGS.fullmatch(said.lower())
    if found is None:
        raise BadRow(f"hangs is a fan or a luminaire and its pounds, like “fan 60”, not {said!r}.")
    return frozenset({found[1]}), Decimal(found[2]) if found[2] else None


@lru_cache(maxsize=4096)
def _cell(column: str, items: tuple[str, ...]) -> tuple[Content, ...]:
    """What a cell lists. Cells of a batch are much alike, whatever else the rows hold."""
    bare = (found[1] if (found := _SIDE.fullmatch(item)) else item for item in items)
    return tuple(content for item in bare for content in READERS[column](item))


def _grounds_known(contents: list[Content]) -> bool:
    """False where wires were named one by one, and no cable's ground is as large as they are."""
    loose = [c.awg for c in contents if isinstance(c, Conductors) and c.path != "inside"]
    cabled = [c.ground for c in contents if isinstance(c, Cable) and c.ground is not None]
    return not loose or (bool(cabled) and min(cabled) <= min(loose))


def edition_of(row: BatchRow) -> str:
    """The edition of a row, the default where none is given."""
    return _edition(row.edition) if "edition" in row.model_fields_set else DEFAULT_EDITION


@lru_cache(maxsize=256)
def _edition(text: str) -> str:
    return check_edition(text)


def _sized(contents: tuple[Content, ...]) -> tuple[Content, ...]:
    """A device or terminal block without a size is on the only size there is."""
    sizes = {
        content.awg
        for content in contents
        if isinstance(content, Cable | Conductors) and content.path != "inside"
    }
    if len(sizes) != 1:
        return contents
    (awg,) = sizes
    return tuple(_on(content, awg) for content in contents)


def _on(content: Content, awg: int) -> Content:
    if isinstance(content, Yoke) and content.awg is None:
        return replace(content, awg=awg)
    if isinstance(content, TerminalBlock) and content.awg is None:
        return TerminalBlock(awg, content.count)
    return content
