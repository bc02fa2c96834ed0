"""Cubic inches and centimetres, against the pint library's own definitions."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from boxaloud.rules import marked_in3, shown_cm3, table_boxes, to_cm3, to_in3
from hypothesis import given
from hypothesis import strategies as st

VOLUMES = st.decimals("0.1", "2000", places=2)


def test_a_cubic_inch_is_as_pint_defines_it() -> None:
    pint = pytest.importorskip("pint", reason="pint checks the units and is not installed")
    units = pint.UnitRegistry(non_int_type=Decimal)
    for row in table_boxes():
        exact = (row.volume * units.inch**3).to(units.cm**3).magnitude
        assert to_cm3(row.volume) == exact.quantize(Decimal("1e-9"))
        back = (Decimal(row.cm3) * units.cm**3).to(units.inch**3).magnitude
        assert abs(Fraction(back) - to_in3(row.cm3)) < Fraction(1, 10**20)


@given(VOLUMES)
def test_there_and_back_is_exact(volume: Decimal) -> None:
    assert to_in3(to_cm3(volume)) == Fraction(volume)


@given(VOLUMES)
def test_a_mark_in_centimetres_is_never_made_larger(cm3: Decimal) -> None:
    in3 = marked_in3(cm3)
    assert Fraction(in3) <= to_in3(cm3) < Fraction(in3) + Fraction(1, 100)


def test_rounding_as_stated() -> None:
    """One inch is 2.54 cm by definition: 18 cubic inches are 294.967152."""
    assert to_cm3(Decimal(18)) == Decimal("294.967152")
    assert shown_cm3(Decimal(18)) == Decimal("295.0")
    assert marked_in3(Decimal(295)) == Decimal("18.00")
    assert marked_in3(Decimal(294)) == Decimal("17.94")
