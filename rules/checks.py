"""Nothing wrong is counted: each described thing checked by itself, before it is entered.

`validate` and `validate_part` raise RulesError with one plain sentence. They are cheap, and
`rules.work_out` calls them on everything it is given.
"""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from functools import lru_cache
from typing import Any

from boxaloud.rules.contents import (
    Barrier,
    BondingJumper,
    Cable,
    ClampAssembly,
    Conductors,
    Content,
    FixtureWires,
    Grounds,
    Marked,
    Measured,
    Part,
    SupportFitting,
    TableBox,
    TerminalBlock,
    Uncounted,
    Unmarked,
    Yoke,
)
from boxaloud.rules.data import table
from boxaloud.rules.errors import NotMarked, RulesError
from boxaloud.rules.sizes import check_awg, volumes
from boxaloud.rules.table import table_row

_LIMITS = table("limits")
_MOST: int = _LIMITS["most_of_anything"]
_MOST_IN_A_CABLE: int = _LIMITS["most_conductors_in_a_cable"]
_MOST_GANGS: int = _LIMITS["most_gangs"]
_ADDED = frozenset(_LIMITS["added_parts"])
_SIZES = frozenset(volumes())
_DEEPEST = Decimal(_LIMITS["deepest_device_cm"])
_LEAST_MEASURED = Decimal(_LIMITS["must_be_marked_up_to"])
_LONGEST = Decimal(_LIMITS["longest_side"])
#: The least and the greatest volume that a maker may mark, cubic inches.
_VOLUMES = {
    kind: (Decimal(_LIMITS[f"{kind}_least"]), Decimal(_LIMITS[f"{kind}_most"]))
    for kind in ("box", "part")
}
_IN_A_BOX = frozenset(("barrier", "clamp assembly"))
_PATHS = frozenset(("ends", "through", "loop", "short_loop", "inside"))


def _count(count: int, what: str, most: int = _MOST) -> None:
    if type(count) is not int or not 1 <= count <= most:
        raise RulesError(f"A count of {count} {what} cannot be right: say 1 to {most}.")


def _path(path: str) -> None:
    if path not in _PATHS:
        raise RulesError(
            f"A conductor cannot go {path!r}: say ends, through, loop, short loop or inside."
        )


def _cable(cable: Cable) -> None:
    _count(cable.count, "cables")
    _count(cable.conductors, "conductors in a cable", _MOST_IN_A_CABLE)
    if cable.awg not in _SIZES:
        check_awg(cable.awg, "cable")
    if cable.ground is not None and cable.ground not in _SIZES:
        check_awg(cable.ground, "ground")
    _path(cable.path)


def _conductors(wires: Conductors) -> None:
    _count(wires.count, "conductors")
    check_awg(wires.awg)
    _path(wires.path)


def _fixture_wires(wires: FixtureWires) -> None:
    _count(wires.count, "fixture wires")
    check_awg(wires.awg, "fixture wire")


def _grounds(grounds: Grounds | BondingJumper) -> None:
    _count(grounds.count, "grounds")
    check_awg(grounds.awg, "ground")


def _yoke(yoke: Yoke) -> None:
    _count(yoke.count, "devices")
    _count(yoke.gangs, "gangs", _MOST_GANGS)
    if yoke.depth is not None and not 0 < yoke.depth <= _DEEPEST:
        raise RulesError(
            f"A device {yoke.depth} cm deep behind its strap cannot be right: say up to {_DEEPEST}."
        )
    if yoke.awg is not None and yoke.awg not in _SIZES:
        check_awg(yoke.awg, "conductor on a device")


def _block(block: TerminalBlock) -> None:
    _count(block.count, "terminal blocks")
    if block.awg is not None:
        check_awg(block.awg, "conductor on a terminal block")


def _fitting(fitting: SupportFitting | Uncounted) -> None:
    _count(fitting.count, "of a fitting")


CHECKS: dict[type, Callable[[Any], None]] = {
    Cable: _cable,
    Conductors: _conductors,
    FixtureWires: _fixture_wires,
    Grounds: _grounds,
    BondingJumper: _grounds,
    Yoke: _yoke,
    TerminalBlock: _block,
    SupportFitting: _fitting,
    Uncounted: _fitting,
}


def validate(content: Content) -> None:
    """Raise RulesError if `content` cannot be: its size, its count, its path.

    A conductor of 4 AWG or larger is refused with a pointer to 314.28.
    """
    check = CHECKS.get(type(content))
    if check is None:
        raise RulesError(f"{type(content).__name__} is nothing that 314.16 counts.")
    check(content)


@lru_cache(maxsize=256)
def stands_on_a_box(label: str) -> bool:
    """Whether a part of this label (a ring, a cover, a canopy) is no box by itself."""
    return not _ADDED.isdisjoint(label.lower().split())


def _volume(volume: Decimal, label: str) -> None:
    kind = "part" if stands_on_a_box(label) or label in _IN_A_BOX else "box"
    least, most = _VOLUMES[kind]
    if not isinstance(volume, Decimal) or not volume.is_finite() or not least <= volume <= most:
        raise RulesError(
            f"A {label} of {volume} cubic inches cannot be right: the volume marked on it is "
            f"from {least} to {most}, unless it is cubic centimetres."
        )


def validate_part(part: Part) -> None:
    """Raise RulesError if a part of the box cannot be: its volume, its row, its gangs."""
    if isinstance(part, Marked):
        _volume(part.volume, part.label)
    elif isinstance(part, TableBox):
        _table_box(part)
    elif isinstance(part, Measured):
        _measured(part)
    elif isinstance(part, ClampAssembly):
        _count(part.count, "clamp assemblies")
        _volume(part.volume, "clamp assembly")
    elif isinstance(part, Barrier):
        if part.material not in ("metal", "nonmetallic"):
            raise RulesError(f"A barrier is metal or nonmetallic, not {part.material!r}.")
        if part.volume is not None:
            _volume(part.volume, "barrier")
    elif not isinstance(part, Unmarked):
        raise RulesError(f"{type(part).__name__} is no part of a box.")


def _table_box(part: TableBox) -> None:
    row = table_row(part.row)
    _count(part.gangs, "gangs", _MOST_GANGS)
    if part.gangs > 1 and not row.gangs:
        raise RulesError(
            f"A {row.name} is one box and does not gang: a ring on it adds only what it is "
            "marked with."
        )


def _measured(part: Measured) -> None:
    """Only a box of more than 100 cubic inches need not be marked, 314.16(A)(2)."""
    for side in (part.width, part.height, part.depth):
        if not isinstance(side, Decimal) or not side.is_finite() or not 0 < side <= _LONGEST:
            raise RulesError(f"A side of {side} inches cannot be right: say up to {_LONGEST}.")
    if part.volume <= _LEAST_MEASURED:
        raise NotMarked(
            f"{_short(part.volume)} cubic inches is {_LEAST_MEASURED} or less, so the volume of "
            "a box that Table 314.16(A) does not list must be marked on it, 314.16(A)(2): say the "
            "marked cubic inches, for a measured size is not a volume."
        )


def _short(volume: Decimal) -> str:
    text = format(volume, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text
