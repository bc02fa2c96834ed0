"""Cubic inches and cubic centimetres. One inch is 2.54 cm by definition, so both ways are exact."""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal
from fractions import Fraction
from typing import Literal, TypeAlias

VolumeUnit: TypeAlias = Literal["in3", "cm3"]
"""What volumes are shown in: cubic inches, or cubic centimetres beside them."""

CM3_IN_IN3 = Decimal("16.387064")
"""Cubic centimetres in a cubic inch: 2.54 cubed, exactly."""


def to_cm3(in3: Decimal) -> Decimal:
    """Cubic centimetres of `in3` cubic inches, exact and unrounded."""
    return in3 * CM3_IN_IN3


def to_in3(cm3: Decimal) -> Fraction:
    """Cubic inches of `cm3` cubic centimetres, exact; the quotient seldom ends as a decimal."""
    return Fraction(cm3) / Fraction(CM3_IN_IN3)


def shown_cm3(in3: Decimal, places: int = 1) -> Decimal:
    """Cubic centimetres to show beside cubic inches, rounded half to even to `places`."""
    return to_cm3(in3).quantize(Decimal(1).scaleb(-places), ROUND_HALF_EVEN)


def marked_in3(cm3: Decimal, places: int = 2) -> Decimal:
    """Cubic inches of a volume marked in cubic centimetres, rounded *down* to `places`.

    Down, so that a capacity is never made larger than the mark says.
    """
    exact = to_in3(cm3) * 10**places
    return Decimal(exact.numerator // exact.denominator).scaleb(-places)


def marked_ml(in3: Decimal, places: int = 2, up: bool = False) -> Decimal:
    """Millilitres of a volume marked in cubic inches, rounded *down* to `places`.

    Down, so that a capacity is never made larger than the mark says; `up` for what is taken away.
    """
    rounding = ROUND_CEILING if up else ROUND_FLOOR
    return to_cm3(in3).quantize(Decimal(1).scaleb(-places), rounding)


def inches_of(value: Decimal, unit: str | None) -> Decimal:
    """A length in inches; one in `mm` or `cm` is rounded down to 0.0001 inch."""
    if unit not in ("mm", "cm"):
        return value
    millimetres = Fraction(value) * (10 if unit == "cm" else 1)
    exact = millimetres / Fraction("25.4") * 10000
    return Decimal(exact.numerator // exact.denominator).scaleb(-4)
