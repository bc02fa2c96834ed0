"""The measure of calibration itself, worked out by hand."""

from __future__ import annotations

import pytest
from calibration import calibration_error, diagram


def test_what_comes_true_as_often_as_foretold_has_no_error() -> None:
    rows = [(0.75, True)] * 3 + [(0.75, False)]
    assert calibration_error(rows) == pytest.approx(0.0)


def test_each_bin_counts_by_how_many_are_in_it() -> None:
    """Ten at 0.95, half of them right: 0.45 off; thirty at 0.25, none right: 0.25 off."""
    rows = [(0.95, at < 5) for at in range(10)] + [(0.25, False)] * 30
    assert calibration_error(rows) == pytest.approx((10 * 0.45 + 30 * 0.25) / 40)


def test_the_diagram_has_a_line_for_every_bin_that_is_not_empty() -> None:
    lines = diagram([(1.0, True), (0.05, False), (0.07, True)]).splitlines()
    assert len(lines) == 4
    assert lines[2].startswith("| 0.06 | 0.50 | 2 |")
    assert lines[3].startswith("| 1.00 | 1.00 | 1 |")
