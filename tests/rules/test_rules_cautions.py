"""Cautions come with what was described, name a section, and are never a verdict."""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud.rules import CANADIAN, STANDING, cautions
from boxaloud.rules.contents import (
    Barrier,
    Box,
    Cable,
    Conductors,
    FixtureWires,
    Grounds,
    Marked,
    Measured,
    TableBox,
    Unmarked,
    Yoke,
)
from boxaloud.rules.data import table

CABLE = (Cable(14, 2, 14),)
NONMETALLIC = (Marked(Decimal(18)),)
SHALLOW = (TableBox("device-3x2x2"),)
BIG = (TableBox("square-4-2.125"),)
ONE_INCH = (Measured(Decimal(12), Decimal(12), Decimal(1)),)
METRIC = (Marked(Decimal(18), cm3=Decimal(295)),)
FAN, LUMINAIRE = frozenset({"fan"}), frozenset({"luminaire"})

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
    "measured-inside": Box(ONE_INCH, CABLE, "none"),
    "low-voltage": Box(BIG, CABLE, "none", tags=frozenset({"low voltage"})),
    "fan-marked": Box(BIG, CABLE, "none", hangs=Decimal(60), tags=FAN),
    "fan-heavy": Box(BIG, CABLE, "none", hangs=Decimal(71), tags=FAN),
    "luminaire-heavy": Box(BIG, CABLE, "none", hangs=Decimal(51), tags=LUMINAIRE),
    "habitable-room": Box(BIG, CABLE, "none", tags=LUMINAIRE),
    "depth-wire": Box(ONE_INCH, (*CABLE, Yoke("receptacle", 12)), "none"),
    "depth-measured": Box(BIG, (*CABLE, Yoke("timer", 14, depth=Decimal("5.08"))), "none"),
    "canada-from-memory": Box(METRIC, (Conductors(10, 2),), edition=CANADIAN),
    "canada-rounding": Box(METRIC, (Conductors(14, 12),), edition=CANADIAN),
    "canada-depth": Box(METRIC, (*CABLE, Yoke("switch", 14)), edition=CANADIAN),
    "canada-bonding": Box(METRIC, (*CABLE, Grounds(14, 1)), edition=CANADIAN),
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
    "measured-inside": Box(BIG, CABLE, "none"),
    "low-voltage": Box(BIG, CABLE, "none"),
    "fan-marked": Box(BIG, CABLE, "none", hangs=Decimal(35), tags=FAN),
    "fan-heavy": Box(BIG, CABLE, "none", hangs=Decimal(70), tags=FAN),
    "luminaire-heavy": Box(BIG, CABLE, "none", hangs=Decimal(50), tags=LUMINAIRE),
    "habitable-room": Box(BIG, CABLE, "none", edition="2017", tags=LUMINAIRE),
    "depth-wire": Box(ONE_INCH, (*CABLE, Yoke("receptacle", 14)), "none"),
    "depth-measured": Box(BIG, (*CABLE, Yoke("timer", 14, depth=Decimal("4.7"))), "none"),
    "canada-from-memory": Box(METRIC, (Conductors(8, 2),), edition=CANADIAN),
    "canada-rounding": Box(METRIC, (Conductors(14, 13),), edition=CANADIAN),
    "canada-depth": Box(METRIC, CABLE, edition=CANADIAN),
    "canada-bonding": Box(METRIC, CABLE, edition=CANADIAN),
}
"""The weights are those of 314.27(A) and (C): EC&M fans 2017, renewal 66. The depths are those
of 314.24(B): Mike Holt forum 2591155; 5.08 cm is 2 inches, with 2-1/8 of box behind the strap."""


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


@pytest.mark.parametrize("depth", ["device-3x2x2", "device-3x2x2.5"])
def test_a_smart_dimmer_may_be_too_deep_up_to_two_and_a_half(depth: str) -> None:
    """314.24(B)(1), Mike Holt forum 2591155; how deep such devices are is from memory."""
    box = Box((TableBox(depth),), (*CABLE, Yoke("smart dimmer", 14)), "none")
    assert "depth-device" in {caution.id for caution in cautions(box)}


def test_a_provisional_edition_is_said_first() -> None:
    """No change of 314.16 in 2026 was found, which is not proof."""
    box = Box(NONMETALLIC, CABLE, "none", edition="2026")
    first = cautions(box)[0]
    assert first.id == "provisional-2026"
    assert "provisional" in first.says


def test_no_caution_of_one_code_is_said_under_the_other() -> None:
    box = Box(BIG, (*CABLE, FixtureWires(18, 2)), "none", edition=CANADIAN, tags=LUMINAIRE)
    assert all(caution.section.startswith("Rule 12-3034") for caution in cautions(box))
