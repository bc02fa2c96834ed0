"""Canada, Rule 12-3034: the worked ones that were published, and a second plain count."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from random import Random

import pytest
from boxaloud.rules import CANADIAN, RulesError, cautions, explain, read_edition, work_out
from boxaloud.rules.contents import (
    Barrier,
    BondingJumper,
    Box,
    Cable,
    Conductors,
    Content,
    FixtureWires,
    Grounds,
    Marked,
    Part,
    SupportFitting,
    TableBox,
    Uncounted,
    Yoke,
)
from plain_canada import fill as plain_fill
from plain_canada import is_described, settled, verdict, volume

D = Decimal


def canadian(*contents: Content, marked: str | None = None) -> Box:
    parts = () if marked is None else (Marked(D(18), cm3=D(marked)),)
    return Box(parts, contents, edition=CANADIAN)


def test_mixed_sizes_go_by_table_22() -> None:
    """Dakota Prep, CEC 2024: 2 x #8, 4 x #12, 2 connectors: 3 x 45.1 + 4 x 28.7 = 250.1 mL."""
    box = canadian(Conductors(8, 2), Conductors(12, 4), Uncounted("wire connector", 2))
    assert work_out(box).total == D("250.1")


@pytest.mark.parametrize(("connectors", "pairs"), [(1, 0), (2, 1), (3, 1), (4, 2), (5, 2)])
def test_connectors_count_in_pairs(connectors: int, pairs: int) -> None:
    """Rule 12-3034(2)(b), electriciantalk 189978: one 0, two or three one, four or five two."""
    box = canadian(Conductors(14, 2), Uncounted("wire connector", connectors))
    assert work_out(box).total == D("24.6") * (2 + pairs)


def test_a_pair_counts_at_the_largest_under_it() -> None:
    """Rule 12-3034(2)(b), oncodes.ca: of the largest size under the connectors."""
    box = canadian(Conductors(8, 2), Conductors(14, 4), Uncounted("wire connector", 2, 14))
    assert work_out(box).total == 2 * D("45.1") + 5 * D("24.6")


def test_what_counts_nothing() -> None:
    """Rule 12-3034(1), (5), oncodes.ca, DIY Chatroom 145600: bonding, clamps, fixture wires."""
    things = (Cable(14, 2, 14), Grounds(14, 3), BondingJumper(14), FixtureWires(18, 3, False),
              Uncounted("locknut", 2), FixtureWires(16, 1))  # fmt: skip
    box = Box((), things, clamps="inside", edition=CANADIAN)
    assert work_out(box).total == 2 * D("24.6")


def test_studs_count_each_at_the_largest() -> None:
    """Rule 12-3034(2)(a), oncodes.ca."""
    box = canadian(Conductors(14, 2), Conductors(12, 2), SupportFitting("hickey", 2))
    assert work_out(box).total == 2 * D("24.6") + 4 * D("28.7")


@pytest.mark.parametrize(("depth", "volume"), [("2.54", "49.2"), ("2.55", "81.6"), ("4", "128")])
def test_a_deep_device_takes_its_own_room(depth: str, volume: str) -> None:
    """Rule 12-3034(3), oncodes.ca: deeper than 2.54 cm, 32 cm3 for each centimetre instead."""
    box = canadian(Conductors(14, 2), Yoke("dimmer", 14, depth=D(depth)))
    assert work_out(box).total == 2 * D("24.6") + D(volume)


def test_a_strap_counts_two_however_wide() -> None:
    """Rule 12-3034(2)(c), oncodes.ca: two for the devices of one strap."""
    box = canadian(Conductors(10, 3), Yoke("dryer receptacle", 10, gangs=2))
    assert work_out(box).total == 5 * D("36.9")


def test_a_box_of_the_table_must_be_marked() -> None:
    """Table 23 was not found: it is no capacity, and the box is asked."""
    box = Box((TableBox("square-4-1.5"),), (Cable(14, 2, 14),), edition=CANADIAN)
    sheet = work_out(box)
    assert (sheet.capacity, sheet.verdict) == (None, "incomplete")
    assert "box" in [slot.slot for slot in sheet.open]
    assert "Table 23" in explain("ca-unmarked").says


def test_a_mark_in_cubic_inches_is_turned_and_rounded_down() -> None:
    """2.54 cubed is 16.387064: 18 x 16.387064 = 294.967152 mL."""
    assert work_out(Box((Marked(D(18)),), edition=CANADIAN)).capacity == D("294.96")


@pytest.mark.parametrize("awg", [10, 6])
def test_a_size_from_memory_says_so(awg: int) -> None:
    """36.9 and 73.7 mL were found in nothing published."""
    box = canadian(Conductors(awg, 2), marked="300")
    assert explain(f"ca-allowance-{awg}").mark == "from memory"
    assert any(caution.id == "canada-from-memory" for caution in cautions(box))


def test_a_size_that_table_22_lacks_is_refused() -> None:
    with pytest.raises(RulesError, match="18 AWG"):
        work_out(canadian(Conductors(18, 2)))


def test_what_is_open_is_asked() -> None:
    """Connectors that nobody spoke of, and a dimmer of unknown depth."""
    box = Box((Marked(D(18), cm3=D(300)),), (Cable(14, 2, 14, 3), Yoke("dimmer", None)),
              edition=CANADIAN, connectors_known=False)  # fmt: skip
    sheet = work_out(box)
    assert {slot.slot for slot in sheet.open} == {"connectors", "device_depth"}
    assert (sheet.low, sheet.verdict) == (D("196.8"), "incomplete")


def test_the_name_leads_there() -> None:
    for said in ("Canadian code", "CE code", "Canada", "2021 CEC", "CEC 2024"):
        assert read_edition(said).edition == CANADIAN
    with pytest.raises(RulesError, match="California"):
        read_edition("CEC")
    with pytest.raises(RulesError, match="2018"):
        read_edition("2018 Canadian code")


SIZES = (14, 12, 10, 8, 6)
PATHS = ("ends", "ends", "through", "loop", "short_loop", "inside")


def content(rng: Random) -> Content:
    """One thing at random."""
    awg, count = rng.choice(SIZES), rng.choice((1, 1, 2, 3, 5))
    depth = rng.choice((None, None, D("2.54"), D("3.1"), D("5")))
    made: tuple[Content, ...] = (
        Cable(awg, rng.randint(2, 4), rng.choice((awg, None)), count, rng.choice(PATHS)),  # type: ignore[arg-type]
        Cable(awg, 2, awg, count),
        Conductors(awg, count, rng.choice(PATHS)),  # type: ignore[arg-type]
        FixtureWires(rng.choice((18, 16, 14)), count, rng.random() < 0.5),
        Grounds(awg, count, rng.random() < 0.3),
        BondingJumper(awg, count, rng.random() < 0.5),
        Uncounted("wire connector", count, rng.choice((None, awg))),
        Uncounted("locknut", count),
        SupportFitting(rng.choice(("hickey", "luminaire stud")), count),
        Yoke(rng.choice(("switch", "dimmer", "GFCI receptacle")), rng.choice((awg, None)),
             rng.choice((1, 2)), count, depth),
    )  # fmt: skip
    return rng.choice(made)


def part(rng: Random) -> Part:
    """A part at random; most often a marked box."""
    volume = D(rng.randint(60, 900)) / 10
    cm3 = D(rng.randint(100, 1500))
    made: tuple[Part, ...] = (
        Marked(volume),
        Marked(volume, cm3=cm3),
        Marked(D(3), "plaster ring"),
        TableBox("square-4-1.5"),
        Barrier("metal", rng.choice((None, D("0.8")))),
    )
    return rng.choice(made)


def test_no_disagreement_in_5000_boxes() -> None:
    """Totals, capacities, bounds and verdicts against the plain count."""
    rng = Random(123034)
    verdicts = dict.fromkeys(("fits", "over", "incomplete"), 0)
    for _ in range(5000):
        box = Box(
            tuple(part(rng) for _ in range(rng.choice((0, 1, 1, 2, 3)))),
            tuple(content(rng) for _ in range(rng.randint(0, 6))),
            clamps=rng.choice(("unknown", "none", "inside")),
            edition=CANADIAN,
            connectors_known=rng.random() < 0.5,
        )
        sheet, ways = work_out(box), settled(box)
        room = None if sheet.capacity is None else Fraction(sheet.capacity)
        ours = (Fraction(sheet.total), room, Fraction(sheet.low), Fraction(sheet.high))
        assert ours == (plain_fill(box), volume(box), min(ways), max(ways)), box
        if is_described(box):
            assert sheet.verdict == verdict(box), box
        named = [*(line.rule for line in sheet.lines), *(part.rule for part in sheet.volumes)]
        assert all(map(explain, named))
        verdicts[sheet.verdict] += 1
    assert all(count > 100 for count in verdicts.values()), verdicts
