"""A described box as plain data, all of it, and back. Its schema is `boxaloud schema box`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from decimal import Decimal, InvalidOperation
from typing import Any

from boxaloud.assistant.batch.batch_row import BadRow
from boxaloud.rules import DEFAULT_EDITION, check_edition
from boxaloud.rules import contents as kinds
from boxaloud.rules.contents import Box

_CONTENTS = {
    "cable": kinds.Cable,
    "conductors": kinds.Conductors,
    "fixture_wires": kinds.FixtureWires,
    "grounds": kinds.Grounds,
    "bonding_jumper": kinds.BondingJumper,
    "yoke": kinds.Yoke,
    "support_fitting": kinds.SupportFitting,
    "terminal_block": kinds.TerminalBlock,
    "uncounted": kinds.Uncounted,
}
_PARTS = {
    "marked": kinds.Marked,
    "table_box": kinds.TableBox,
    "unmarked": kinds.Unmarked,
    "barrier": kinds.Barrier,
}
_KIND = {made: kind for kind, made in (_CONTENTS | _PARTS).items()}
_VOLUMES = frozenset({"volume"})


def box_json(box: Box) -> dict[str, Any]:
    """The box as plain data; volumes are decimal strings of cubic inches."""
    return {
        "edition": box.edition,
        "parts": [_out(part) for part in box.parts],
        "contents": [_out(content) for content in box.contents],
        "clamps": box.clamps,
        "grounds_known": box.grounds_known,
        "nonmetallic": box.nonmetallic,
        "tags": sorted(box.tags),
    }


def box_of_json(data: Any) -> Box:
    """The box that plain data describes. Raises BadRow, in a sentence, for anything else."""
    if not isinstance(data, Mapping):
        raise BadRow("A described box is an object with parts and contents.")
    if unknown := set(data) - {field.name for field in fields(Box)}:
        raise BadRow(f"A described box has no {', '.join(sorted(map(str, unknown)))}.")
    clamps = data.get("clamps", "unknown")
    if clamps not in ("unknown", "none", "outside", "inside", "moulded"):
        raise BadRow(f"clamps cannot be {clamps!r}.")
    nonmetallic, known = data.get("nonmetallic"), data.get("grounds_known", True)
    if nonmetallic not in (None, True, False) or known not in (True, False):
        raise BadRow("nonmetallic and grounds_known are true or false.")
    return Box(
        parts=tuple(_in(item, _PARTS) for item in _listed(data, "parts")),
        contents=tuple(_in(item, _CONTENTS) for item in _listed(data, "contents")),
        clamps=clamps,
        grounds_known=known,
        nonmetallic=nonmetallic,
        edition=check_edition(str(data.get("edition", DEFAULT_EDITION))),
        tags=frozenset(str(tag) for tag in _listed(data, "tags")),
    )


def _out(thing: Any) -> dict[str, Any]:
    data: dict[str, Any] = {"is": _KIND[type(thing)]}
    for field in fields(thing):
        value = getattr(thing, field.name)
        data[field.name] = str(value) if isinstance(value, Decimal) else value
    return data


def _listed(data: Mapping[str, Any], key: str) -> list[Any]:
    value = data.get(key, [])
    if not isinstance(value, list):
        raise BadRow(f"{key} is a list.")
    return value


def _in(item: Any, known: Mapping[str, type[Any]]) -> Any:
    if not isinstance(item, Mapping) or item.get("is") not in known:
        raise BadRow(f"Each of these says what it is, one of {', '.join(known)}.")
    made = known[item["is"]]
    given = {str(key): _value(str(key), value) for key, value in item.items() if key != "is"}
    try:
        return made(**given)
    except TypeError:
        names = ", ".join(field.name for field in fields(made))
        raise BadRow(f"A {item['is']} is described by {names}.") from None


def _value(key: str, value: Any) -> Any:
    if key in _VOLUMES and value is not None:
        try:
            return Decimal(str(value))
        except InvalidOperation:
            raise BadRow(f"{value!r} is no volume.") from None
    if value is None or isinstance(value, str | int):
        return value
    raise BadRow(f"{key} cannot be {value!r}.")
