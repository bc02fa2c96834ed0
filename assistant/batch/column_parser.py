"""A row of columns as a described box. Cells are short, in the trade's words."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from boxaloud.assistant.batch.batch_row import BadRow, items, one_text
from boxaloud.assistant.batch.content_cells import READERS
from boxaloud.assistant.batch.part_cells import parts_of
from boxaloud.rules import DEFAULT_EDITION, check_edition
from boxaloud.rules.contents import Box, Cable, Conductors, Content, TerminalBlock, Yoke

_CLAMPS = {"unknown", "none", "outside", "inside", "moulded"}
_MATERIALS = {"metal": False, "nonmetallic": True, "plastic": True}


def box_of_row(fields: Mapping[str, Any]) -> Box:
    """The box that a row's columns describe. Raises BadRow or RulesError, in a sentence."""
    contents: list[Content] = []
    for field, read in READERS.items():
        if field in fields:
            for item in items(fields[field], field):
                contents += read(item)
    return Box(
        parts=parts_of(fields),
        contents=_sized(tuple(contents)),
        clamps=_choice(fields, "clamps", _CLAMPS, "unknown"),  # type: ignore[arg-type]
        grounds_known="grounds" in fields or _grounds_known(contents),
        nonmetallic=_nonmetallic(fields),
        edition=edition_of(fields),
    )


def _grounds_known(contents: list[Content]) -> bool:
    """False where wires were named one by one, and no cable's ground is as large as they are."""
    loose = [c.awg for c in contents if isinstance(c, Conductors) and c.path != "inside"]
    cabled = [c.ground for c in contents if isinstance(c, Cable) and c.ground is not None]
    return not loose or (bool(cabled) and min(cabled) <= min(loose))


def edition_of(fields: Mapping[str, Any]) -> str:
    """The edition of a row, the default where none is given."""
    said = fields.get("edition")
    return _edition(one_text(said, "edition")) if said else DEFAULT_EDITION


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
        return Yoke(content.name, awg, content.gangs, content.count)
    if isinstance(content, TerminalBlock) and content.awg is None:
        return TerminalBlock(awg, content.count)
    return content


def _choice(fields: Mapping[str, Any], field: str, known: set[str], default: str) -> str:
    if field not in fields:
        return default
    said = one_text(fields[field], field).lower()
    if said not in known:
        raise BadRow(f"{field} is one of {', '.join(sorted(known))}, not {said!r}.")
    return said


def _nonmetallic(fields: Mapping[str, Any]) -> bool | None:
    said = _choice(fields, "material", set(_MATERIALS), "")
    return _MATERIALS[said] if said else None
