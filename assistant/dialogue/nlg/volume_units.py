"""Volumes of a worksheet in cubic inches, whatever unit it was worked out in."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal

from boxaloud.rules import to_in3
from boxaloud.rules.worksheet import Unit

_PLACES = Decimal("0.0001")


def in3(value: Decimal, unit: Unit) -> Decimal:
    """A volume in cubic inches: as it is, or turned from millilitres to four places."""
    if unit == "in3":
        return value
    exact = to_in3(value)
    return (Decimal(exact.numerator) / Decimal(exact.denominator)).quantize(
        _PLACES, ROUND_HALF_EVEN
    )
