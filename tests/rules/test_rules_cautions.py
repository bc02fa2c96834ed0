"""Cautions come with what was described, name a section, and are never a verdict."""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud.rules import STANDING, cautions
from boxaloud.rules.contents import (
    Barrier,
    Box,
    Cable,
    Conductors,
    FixtureWires,
    Marked,
    TableBox,
    Unmarked,
    Yoke,
)
from boxaloud.rules.data import table

CABLE = (Cable(14, 2, 14),)
NONMETALLIC = (Marked(Decimal(18)),)
SHALLOW = (TableBox("device-3x2x2"),)
BIG = (TableBox("square-4-2.125"),)

CALLED: dict[str, Box] = {
    "moulded-disputed": Box(NONMETALLIC, CABLE, "moulded"),
    "rests-on-memory": Box((TableBox("handy-4x2.125x1.5"),), CABLE, "none"),
    "full-box": Box((Marked(Decimal(7)),), CABLE, "none"),
    "barrier-spaces": Box((*BIG, Barrier()), CABLE, "none"),
    "canopy-splices": Box(BIG, CABLE, "none", tags=frozenset({"canopy splice"})),
    "fan-support": Box(BIG, CABLE, "none", tags=frozenset({"fan"})),
    "luminaire-weight": Box(BIG, (*CABLE, FixtureWires(18, 2)), "none"),
    "depth-device": Box(SHALLOW, (*CABLE, Yoke("dimmer", 14)), "none"),
    "depth-large": Box(SHALLOW, (Yoke("range receptacle", 6),), "none"),
    "depth-none": Box((Marked(Decimal(4)),), CABLE, "outside"),
    "free-length": Box((*BIG, Unmarked("plaster ring")), CABLE, "none"),
    "loop-length": Box(BIG, (Conductors(12, 1, "loop"),), "none"),
    "cable-securing": Box(NONMETALLIC, CABLE, "none", nonmetallic=True),
    "grounds-bonded": Box(BIG, CABLE, "none"),
}
QUIET: dict[str, Box] = {
    "moulded-disputed": Box(NONMETALLIC, CABLE, "inside"),
    "rests-on-memory": Box(BIG, CABLE, "none"),
    "full-box": Box((Marked(Decimal(8)),), CABLE, "none"),
    "barrier-spaces": Box(BIG, CABLE, "none"),
    "canopy-splices": Box(BIG, CABLE, "none"),
    "fan-support": Box(BIG, CABLE, "none"),
    "luminaire-weight": Box(BIG, CABLE, "none"),
    "depth-device": Box(SHALLOW, (*CABLE, Yoke("switch", 14)), "none"),
    "depth-large": Box(BIG, (Yoke("range receptacle", 6),), "none"),
    "depth-none": Box((Marked(Decimal(18)),), CABLE, "outside"),
    "free-length": Box(BIG, CABLE, "none"),
    "loop-length": Box(BIG, (Conductors(12, 1, "short_loop"),), "none"),
    "cable-securing": Box(NONMETALLIC, CABLE, "none", nonmetallic=False),
    "grounds-bonded": Box(BIG, (Cable(14, 2, None),), "none"),
}


@pytest.mark.parametrize("name", CALLED)
def test_a_caution_comes_with_what_calls_for_it(name: str) -> None:
    assert name in {caution.id for caution in cautions(CALLED[name])}


@pytest.mark.parametrize("name", QUIET)
def test_and_does_not_come_without(name: str) -> None:
    assert name not in {caution.id for caution in cautions(QUIET[name])}


def test_every_caution_in_the_data_is_called_by_some_box() -> None:
    standing = {caution.id for caution in STANDING}
    assert set(table("cautions")) == standing | set(CALLED)


def test_the_standing_cautions_are_power_off_edition_and_who_decides() -> None:
    said = " ".join(caution.says for caution in STANDING)
    for word in ("power off", "test", "edition", "local amendments", "authority", "electrician"):
        assert word in said


@pytest.mark.parametrize("row", table("cautions").values(), ids=list(table("cautions")))
def test_a_caution_gives_no_verdict_and_can_be_said_in_a_breath(row: dict[str, str]) -> None:
    says = row["says"].lower()
    assert "safe" not in says
    assert "legal" not in says
    assert len(says.split()) <= 34
