"""A pull box from the front, to scale, as shapes for a picture. Lengths are units of the drawing.

A raceway is as thick as its trade size (`rules.pull_front` says where each enters).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from boxaloud.assistant.reports.report_model import PullReport
from boxaloud.rules.pull_front import Entry, Front, front

SCALE = 8
"""Units of the drawing for an inch."""
_STUB = 40
"""How far a raceway is drawn outside of its wall."""
_EDGE = 48
"""From the edge of the drawing to the box."""
_HUNDREDTH = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Shape:
    """A rectangle, or where `round` the circle in it, in shade 0 or 1."""

    left: Decimal
    top: Decimal
    width: Decimal
    height: Decimal
    shade: int = 0
    round: bool = False


@dataclass(frozen=True, slots=True)
class Plan:
    """The whole drawing: how large it is, the box, and its raceways."""

    width: Decimal
    height: Decimal
    box: Shape
    raceways: tuple[Shape, ...]


def plan(pull: PullReport) -> Plan:
    """The drawing of a pull box."""
    seen = front(pull.sheet, pull.raceways)
    across, down = seen.wide * SCALE, seen.high * SCALE
    box = _shape(Fraction(_EDGE), Fraction(_EDGE), across, down)
    stubs = tuple(_stub(entry, seen) for entry in seen.entries)
    return Plan(_units(across + 2 * _EDGE), _units(down + 2 * _EDGE), box, stubs)


def _stub(entry: Entry, seen: Front) -> Shape:
    """A raceway outside of its wall, or its end in the back."""
    thick, shade = entry.size * SCALE, entry.raceway.row % 2
    at = _EDGE + entry.across * SCALE - thick / 2
    beside = _EDGE + entry.down * SCALE - thick / 2
    match entry.raceway.wall:
        case "left":
            return _shape(Fraction(_EDGE - _STUB), beside, Fraction(_STUB), thick, shade)
        case "right":
            return _shape(_EDGE + seen.wide * SCALE, beside, Fraction(_STUB), thick, shade)
        case "top":
            return _shape(at, Fraction(_EDGE - _STUB), thick, Fraction(_STUB), shade)
        case "bottom":
            return _shape(at, _EDGE + seen.high * SCALE, thick, Fraction(_STUB), shade)
        case "back":
            return _shape(at, beside, thick, thick, shade, True)


def _shape(
    left: Fraction, top: Fraction, width: Fraction, height: Fraction, shade: int = 0,
    circle: bool = False,
) -> Shape:  # fmt: skip
    return Shape(_units(left), _units(top), _units(width), _units(height), shade, circle)


def _units(length: Fraction) -> Decimal:
    return (Decimal(length.numerator) / length.denominator).quantize(_HUNDREDTH)
