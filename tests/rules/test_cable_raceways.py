"""A cable as the raceway that its conductors would need, and conduit bodies of 4 AWG and larger.

314.28(A): a cable counts as the least trade size of raceway for the number and size of its
conductors (from memory). Chapter 9 Table 1: 53, 31 and 40 percent (sfasoft, "All tubing and
conduits"); Table 4 EMT as there, RMC and PVC from memory; Table 5 from 4 AWG on from memory: here
by its diameters, from memory too, so that a figure mistyped in one of them shows.
314.28(A)(1), (2) and Exception: 8 times, 6 times, Table 312.6(A) (EC&M, March 2022; studylib).
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from random import Random

import pytest
from boxaloud.rules import RulesError, most_conductors, work_out_pull_box
from boxaloud.rules.cable_raceways import Cable314, cable_raceway, worst_insulation
from boxaloud.rules.conduit import area_from_memory, raceway_area, raceway_sizes, wire_area
from boxaloud.rules.large_bodies import large_body, marking_holds, shapes
from plain_enclosures import bend

SIZES = [
    "4",
    "3",
    "2",
    "1",
    "1/0",
    "2/0",
    "3/0",
    "4/0",
    "250",
    "300",
    "350",
    "400",
    "500",
    "600",
    "700",
    "750",
    "800",
    "900",
    "1000",
]
DIAMETERS = {
    "thhn": ".324 .352 .384 .446 .486 .532 .584 .642 .711 .766 .817 .864 .949 1.051 1.122 1.156"
    " 1.188 1.252 1.310",
    "xhhw": ".322 .350 .382 .442 .482 .528 .58 .638 .705 .76 .811 .858 .943 1.053 1.124 1.158"
    " 1.190 1.254 1.312",
    "tw": ".352 .380 .412 .492 .532 .578 .630 .688 .765 .82 .871 .918 1.003 1.113 1.184 1.218"
    " 1.250 1.314 1.372",
}
PI = Decimal("3.14159265358979")
KINDS = ("emt", "imc", "rmc", "pvc40")


def area(insulation: str, size: str) -> Fraction:
    across = Decimal(DIAMETERS[insulation].split()[SIZES.index(size)])
    return Fraction((PI * across * across / 4).quantize(Decimal("0.0001")))


@pytest.mark.parametrize("insulation", sorted(DIAMETERS))
def test_each_area_is_that_of_its_diameter(insulation: str) -> None:
    for size in SIZES:
        assert abs(wire_area(insulation, size) - area(insulation, size)) <= Fraction(1, 10000)
        assert area_from_memory("insulation", insulation, size)
    assert not area_from_memory("insulation", insulation, "12")
    assert not area_from_memory("raceway", "emt", "2")


def needed(kind: str, wires: list[str], insulation: str) -> Fraction | None:
    """The least trade size, one after another, by area; like conductors round up from 0.8."""
    share = Fraction({1: 53, 2: 31}.get(len(wires), 40), 100)
    each = [wire_area(insulation, size) for size in wires]
    for size in raceway_sizes(kind):
        room = raceway_area(kind, size) * share
        if len(set(wires)) == 1 and room / each[0] >= len(wires) - Fraction(1, 5):
            return size
        if sum(each) <= room:
            return size
    return None


def test_random_cables_come_to_the_same_raceway() -> None:
    """The largest over the kinds, and over the insulations where none was said: else open."""
    rng = Random(31428)
    seen = {"open": 0, "one": 0, "none": 0}
    for _ in range(3000):
        wires = [rng.choice(SIZES)] * rng.randint(1, 4)
        wires += [rng.choice(SIZES[:8])] * rng.randint(0, 2)
        insulation = rng.choice(["", "thhn", "xhhw", "tw"])
        cable = Cable314(tuple(wires), insulation=insulation)
        names = [insulation] if insulation else sorted(DIAMETERS)
        by_name = []
        for name in names:
            held = [size for kind in KINDS if (size := needed(kind, wires, name)) is not None]
            by_name.append(max(held) if len(held) > 1 else None)
        if None in by_name:
            seen["none"] += 1
            with pytest.raises(RulesError):
                cable_raceway(cable)
            continue
        found = cable_raceway(cable)
        if len(set(by_name)) > 1:
            seen["open"] += 1
            assert found is None
            worst = worst_insulation(cable)
            settled = cable_raceway(Cable314(cable.wires, insulation=worst))
            assert settled is not None
            assert settled.size == max(size for size in by_name if size is not None)
        else:
            seen["one"] += 1
            assert found is not None
            assert found.size == by_name[0]
    assert seen["open"], seen
    assert seen["one"], seen


def test_a_cable_that_no_raceway_takes_is_refused() -> None:
    """Eleven 1000 kcmil THHN, 14.8258, are more than 0.4 x 29.158, 11.6632."""
    with pytest.raises(RulesError):
        cable_raceway(Cable314(("1000",) * 11, insulation="thhn"))


def test_a_ground_is_one_conductor_more() -> None:
    """Four 4/0 THHN take 1.2948 of 0.4 x 3.291 = 1.3164; a fifth is too many."""
    sized = cable_raceway(Cable314(("4/0",) * 3, "4/0", "thhn"))
    unsized = cable_raceway(Cable314(("4/0",) * 3, "?", "thhn"))
    assert sized is not None
    assert unsized is not None
    assert sized.size == unsized.size == 2
    more = cable_raceway(Cable314(("4/0",) * 4, "?", "thhn"))
    assert more is not None
    assert more.size == Fraction(5, 2)


def test_of_two_kinds_the_larger_counts() -> None:
    """Three 500 kcmil THHN, 2.1219: 0.4 x 5.858 = 2.3432 of EMT, 0.4 x 4.866 = 1.9464 of rigid."""
    found = cable_raceway(Cable314(("500",) * 3, insulation="thhn"))
    assert found is not None
    assert dict(found.by_kind)["emt"] == Fraction(5, 2)
    assert dict(found.by_kind)["rmc"] == found.size == 3
    assert ("Table 5", "500") in found.from_memory


def test_large_conductors_in_a_raceway() -> None:
    """0.4 x 3.356 / 0.3237 is 4.15; 0.4 x 0.864 / 0.0824 is 4.19; 0.4 x 7.499 / 0.7073 is 4.24."""
    assert most_conductors("emt", Fraction(2), "4/0") == 4
    assert most_conductors("emt", Fraction(1), "4") == 4
    assert most_conductors("rmc", Fraction(3), "500") == 4


def test_the_dimensions_of_random_bodies() -> None:
    """8 times end to end where it goes straight, 6 round a corner; opposite the cover the table."""
    rng = Random(314281)
    for _ in range(2000):
        shape, size = rng.choice(shapes()), Fraction(rng.choice([1, 2, 3, 4]))
        conductor = rng.choice(SIZES)
        sheet = work_out_pull_box(large_body(shape, size, conductor))
        straight, back = shape in ("C", "T", "TB", "X"), shape in ("LB", "LBD", "TB")
        side = shape in ("LL", "LR", "T")
        assert sheet.width == size * (8 if straight else 6)
        assert sheet.height == (size * 8 if shape == "X" else size * 6 if side else None)
        assert sheet.depth == (bend(conductor) if back else None)


@pytest.mark.parametrize(
    ("permits", "wires", "holds"),
    [
        ("3 4/0", "3 4/0", True), ("3 4/0", "3 2/0", True), ("3 4/0", "2 4/0", True),
        ("3 4/0", "4 2/0", False), ("3 4/0", "3 250", False), ("3 500", "3 4", True),
    ],
)  # fmt: skip
def test_a_marking_is_of_number_and_size(permits: str, wires: str, holds: bool) -> None:
    """314.28(A)(3), Mike Holt forum 127045: the greatest number and size of conductors."""
    (many, most), (count, size) = permits.split(), wires.split()
    assert marking_holds((most,) * int(many), (size,) * int(count)) is holds


def test_a_body_of_unknown_kind_is_refused() -> None:
    with pytest.raises(RulesError):
        large_body("LU", Fraction(1), "4")
