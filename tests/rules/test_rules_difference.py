"""The rules against a second, independent, plain implementation, over many random boxes."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from boxaloud.rules import work_out
from described import random_box
from plain import is_described, work_out_plainly

KNOWN = 8_000
OPEN = 4_000
SEED = 31416


@pytest.mark.parametrize(("known", "count"), [(True, KNOWN), (False, OPEN)])
def test_no_disagreement(known: bool, count: int) -> None:
    """Totals and capacities of every box. Bounds and verdicts where any conductor was named:
    before that there is nothing for clamps and fittings to be counted at, and the rules say
    `incomplete` where trying every device size might already say `over`."""
    rng = Random(SEED)
    verdicts = dict.fromkeys(("fits", "over", "incomplete"), 0)
    for _ in range(count):
        box = random_box(rng, known)
        ours, plainly = work_out(box), work_out_plainly(box)
        capacity = None if ours.capacity is None else Fraction(ours.capacity)
        assert (Fraction(ours.total), capacity) == (plainly.total, plainly.capacity), box
        if known or is_described(box):
            bounds = (Fraction(ours.low), Fraction(ours.high), ours.verdict)
            assert bounds == (plainly.low, plainly.high, plainly.verdict), box
        else:
            assert ours.verdict in ("incomplete", plainly.verdict), box
        verdicts[ours.verdict] += 1
    assert all(verdicts.values()), f"a verdict that never comes up is not tested: {verdicts}"
