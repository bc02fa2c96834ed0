"""What the rules give back: a worksheet, one line an item, and what is still open."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, TypeAlias

Verdict: TypeAlias = Literal["fits", "over", "incomplete"]
Mark: TypeAlias = Literal["confirmed", "part confirmed", "from memory"]
Slot: TypeAlias = Literal[
    "box", "contents", "clamps", "grounds", "device_size", "block_size", "connectors",
    "device_depth", "jumper",
]  # fmt: skip
Unit: TypeAlias = Literal["in3", "mL"]
WorksheetItem: TypeAlias = Literal[
    "conductors", "pass_through", "loops", "fixture_wires", "clamps", "support_fittings", "yokes",
    "grounds", "isolated_grounds", "terminal_blocks", "wire_connectors", "not_counted",
]  # fmt: skip
"""What a line of a worksheet counts."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a worksheet. Volumes are in the unit of the sheet, cubic inches unless it says
    otherwise; `allowances` may be quarters."""

    item: WorksheetItem
    awg: int | None
    count: int
    allowances: Decimal
    each: Decimal
    subtotal: Decimal
    section: str
    what: str
    """What was counted, in words ("one receptacle", "two grounds")."""
    rule: str
    """Identifier of the rule row in the data, from which `rules.explain` gives the
    reasoning, the published source and how far it is confirmed."""


@dataclass(frozen=True, slots=True)
class VolumeLine:
    """One line of the capacity, 314.16(A)."""

    what: str
    volume: Decimal
    section: str
    rule: str


@dataclass(frozen=True, slots=True)
class Worksheet:
    """A box worked out from what is known. Unknown things are not in `lines`.

    `capacity` and `margin` are None while the volume is unknown. `verdict` takes account of
    everything that could still change: `incomplete` means that an open answer decides it.
    `low` and `high` are the least and the greatest total that the open answers allow.
    """

    edition: str
    lines: tuple[Line, ...]
    volumes: tuple[VolumeLine, ...]
    total: Decimal
    capacity: Decimal | None
    margin: Decimal | None
    verdict: Verdict
    low: Decimal
    high: Decimal
    open: tuple[OpenSlot, ...]
    """What is not known, the one that can change the verdict first."""
    unit: Unit = "in3"
    """What every volume of this sheet is in: cubic inches, or millilitres in Canada."""


@dataclass(frozen=True, slots=True)
class OpenSlot:
    """A question still open: what it could add to the total and whether it can decide."""

    slot: Slot
    least: Decimal
    most: Decimal
    decides: bool
    subject: str = ""
    """For `device_size` and `device_depth`: the name of the yoke asked about."""
    index: int = -1
    """For a slot of a single content: its place in `Box.contents`."""
    rule: str = ""
    """The rule the answer falls under, for `rules.explain`; empty for `box` and `contents`."""


def verdict_of(low: Decimal, high: Decimal, room: Decimal | None, told: bool) -> Verdict:
    """The verdict of a least and a greatest total against the capacity `room`, all in one unit.

    A margin of exactly zero fits. Nothing fits before it was `told` what is in the box.
    """
    if room is None:
        return "incomplete"
    if low > room:
        return "over"
    return "fits" if high <= room and told else "incomplete"
