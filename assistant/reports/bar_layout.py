"""The fill of a box as a drawn bar: one segment a line, and an upright line at the capacity.

Segments carry the number of their worksheet line and alternate in shade; what lies past the
capacity is hatched. Nothing is told by colour alone, and the same is said in text.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from boxaloud.assistant.reports.report_model import BoxReport

WIDTH = Decimal(640)
_HUNDREDTH = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Segment:
    """A line of the worksheet in the bar: its number, from where, how wide, in units of WIDTH."""

    number: int
    left: Decimal
    width: Decimal
    middle: Decimal
    """Where its number stands: clear of the capacity line, which may cross it."""


@dataclass(frozen=True, slots=True)
class Gauge:
    """A bar of WIDTH. `capacity` is where the capacity line stands, None while unknown."""

    segments: tuple[Segment, ...]
    filled: Decimal
    capacity: Decimal | None
    span: Decimal = WIDTH
    """How long the whole bar is."""


def gauge(box: BoxReport) -> Gauge:
    """The bar of a box. It is as long as the larger of total and capacity, and a little more."""
    sheet = box.sheet
    longest = max(sheet.total, sheet.capacity or Decimal(0), Decimal(1))
    scale = WIDTH / (longest * Decimal("1.06"))
    at = None if sheet.capacity is None else _round(sheet.capacity * scale)
    left, segments = Decimal(0), []
    for number, line in enumerate(sheet.lines, 1):
        if line.subtotal:
            width = line.subtotal * scale
            middle = _clear(left, left + width, at)
            segments.append(Segment(number, _round(left), _round(width), _round(middle)))
            left += width
    return Gauge(tuple(segments), _round(left), at)


def _clear(left: Decimal, right: Decimal, line: Decimal | None) -> Decimal:
    """The middle of a segment, or of its longer part where the line parts it."""
    if line is None or not left < line < right:
        return (left + right) / 2
    return (left + line) / 2 if line - left > right - line else (line + right) / 2


def _round(value: Decimal) -> Decimal:
    return value.quantize(_HUNDREDTH)
