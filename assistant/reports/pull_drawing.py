"""A pull box from the front, to scale, as shapes for a picture. Lengths are units of the drawing.

A raceway is as thick as its trade size, and those of a wall are spread along it: where on the
wall they enter was not said. A side that no pull sets is drawn as long as the other one.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from boxaloud.assistant.reports.report_model import PullReport
from boxaloud.rules import Raceway
from boxaloud.rules.pull import Wall

SCALE = 8
"""Units of the drawing for an inch."""
_STUB = 40
"""How far a raceway is drawn outside of its wall."""
_EDGE = 48
"""From the edge of the drawing to the box."""
_UNSET = Fraction(12)
"""Inches of a front of which no side is set."""
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
    wide, high = pull.sheet.width, pull.sheet.height
    other = wide or high or _UNSET
    across, down = (wide or other) * SCALE, (high or other) * SCALE
    front = _shape(Fraction(_EDGE), Fraction(_EDGE), across, down)
    walls: dict[Wall, list[Raceway]] = defaultdict(list)
    for raceway in pull.raceways:
        walls[raceway.wall].append(raceway)
    stubs = (s for wall, found in walls.items() for s in _stubs(wall, found, across, down))
    edges = 2 * _EDGE
    return Plan(_units(across + edges), _units(down + edges), front, tuple(stubs))


def _stubs(
    wall: Wall, raceways: list[Raceway], across: Fraction, down: Fraction
) -> Iterator[Shape]:
    """The raceways of a wall, spread along it."""
    length = down if wall in ("left", "right") else across
    for place, raceway in enumerate(raceways, 1):
        thick = raceway.size * SCALE
        at = _EDGE + length * place / (len(raceways) + 1) - thick / 2
        shade = raceway.row % 2
        match wall:
            case "left":
                yield _shape(Fraction(_EDGE - _STUB), at, Fraction(_STUB), thick, shade)
            case "right":
                yield _shape(_EDGE + across, at, Fraction(_STUB), thick, shade)
            case "top":
                yield _shape(at, Fraction(_EDGE - _STUB), thick, Fraction(_STUB), shade)
            case "bottom":
                yield _shape(at, _EDGE + down, thick, Fraction(_STUB), shade)
            case "back":
                low = _EDGE + down * 3 / 4 - thick / 2
                yield _shape(at, low, thick, thick, shade, True)


def _shape(
    left: Fraction, top: Fraction, width: Fraction, height: Fraction, shade: int = 0,
    circle: bool = False,
) -> Shape:  # fmt: skip
    return Shape(_units(left), _units(top), _units(width), _units(height), shade, circle)


def _units(length: Fraction) -> Decimal:
    return (Decimal(length.numerator) / length.denominator).quantize(_HUNDREDTH)
