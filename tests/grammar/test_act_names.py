"""What the data files may say of an act is what the act can carry."""

from __future__ import annotations

from typing import get_args

import pytest
from boxaloud.grammar import acts, grammar_data

ENCLOSURES = grammar_data.table("enclosures")
NAMES = {
    "kinds of pull": (ENCLOSURES["pull"]["kind"], acts.PullKind),
    "walls": (ENCLOSURES["pull"]["wall"], acts.WallName),
    "raceways": (ENCLOSURES["body"]["raceway"], acts.RacewayName),
    "insulations": (ENCLOSURES["body"]["insulation"], acts.InsulationName),
}


@pytest.mark.parametrize("what", NAMES)
def test_every_name_in_the_data_is_one_that_the_acts_know(what: str) -> None:
    said, known = NAMES[what]
    assert sorted(said) == sorted(get_args(known))
