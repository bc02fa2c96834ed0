"""Pull boxes and conduit bodies against a second, plain implementation, over many at random."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from fractions import Fraction
from random import Random

import plain_enclosures as plainly
from boxaloud.rules import (
    ConduitBody,
    Pull,
    PullBox,
    Raceway,
    RacewayWires,
    work_out_conduit_body,
    work_out_pull_box,
)
from boxaloud.rules.contents import Conductors, Content, Grounds

COUNT = 10_000
SEED = 31428
SIZES = [Fraction(n, 4) for n in (2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 20, 24)]
FACING = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
WALLS = ("left", "right", "top", "bottom", "back")
CONDUCTORS = [size for sizes, _ in plainly.BEND for size in sizes]


def random_pull_box(rng: Random) -> PullBox:
    """Up to six pulls of any kind between raceways of any wall and row."""
    raceways: list[Raceway] = []
    pulls: list[Pull] = []

    def raceway(wall: str) -> str:
        name = f"raceway {len(raceways)}"
        raceways.append(Raceway(name, rng.choice(SIZES), wall, rng.randint(1, 2)))  # type: ignore[arg-type]
        return name

    for _ in range(rng.randint(1, 6)):
        kind = rng.choice(("straight", "angle", "u", "splice"))
        start = rng.choice(WALLS[:4] if kind == "straight" else WALLS)
        if kind == "straight":
            end = FACING[start]
        elif kind == "u":
            end = start
        elif kind == "angle":
            end = rng.choice([w for w in WALLS if w not in (start, FACING.get(start))])
        else:
            end = rng.choice(WALLS)
        conductor = rng.choice(CONDUCTORS)
        pulls.append(Pull(kind, raceway(start), raceway(end), conductor))  # type: ignore[arg-type]
    for _ in range(rng.randint(0, 2)):
        raceway(rng.choice(WALLS))
    return PullBox(tuple(raceways), tuple(pulls), rng.random() < 0.7)


def test_pull_boxes() -> None:
    rng = Random(SEED)
    seen: Counter[str] = Counter()
    for _ in range(COUNT):
        box = random_pull_box(rng)
        sheet = work_out_pull_box(box)
        least, apart = plainly.pull_box(box)
        ours = {"width": sheet.width, "height": sheet.height, "depth": sheet.depth}
        assert {axis: inches for axis, inches in ours.items() if inches is not None} == least, box
        assert sorted(r.inches for r in sheet.requirements if r.axis is None) == apart, box
        assert all(r.section.startswith("314.28(A)") for r in sheet.requirements)
        seen.update(r.rule for r in sheet.requirements)
    assert set(seen) == {
        "pull-straight", "pull-angle", "pull-cover", "pull-apart", "pull-apart-spliced",
    }  # fmt: skip


def random_body(rng: Random) -> ConduitBody:
    """A conduit body with wires that pass through, or with splices."""
    raceway, size = rng.choice(sorted(plainly.AREA)), rng.choice(plainly.TRADE[:6])
    if rng.random() < 0.4:
        splices: list[Content] = [
            Conductors(rng.choice((18, 16, 14, 12, 10, 8, 6)), rng.randint(1, 5))
            for _ in range(rng.randint(1, 3))
        ]
        if rng.random() < 0.5:
            splices.append(Grounds(rng.choice((14, 12, 10)), rng.randint(1, 6)))
        marked = None if rng.random() < 0.2 else Decimal(rng.randint(12, 120)) / 4
        return ConduitBody(raceway, size, (), tuple(splices), marked, rng.random() < 0.1)
    wires = tuple(
        RacewayWires(
            rng.choice((14, 12, 10, 8, 6)), rng.randint(1, 9), rng.choice(("thhn", "xhhw", "tw"))
        )
        for _ in range(rng.choice((1, 1, 2, 3)))
    )
    twice = 2 * plainly.area(raceway, size)
    twice += rng.choice((Fraction(-1, 1000), Fraction(0), Fraction(1, 10)))
    exact = Decimal(twice.numerator) / Decimal(twice.denominator)
    share = exact if rng.random() < 0.3 else None
    return ConduitBody(raceway, size, wires, area=share)


def test_conduit_bodies() -> None:
    rng = Random(SEED)
    verdicts: Counter[str] = Counter()
    for _ in range(COUNT):
        body = random_body(rng)
        sheet = work_out_conduit_body(body)
        assert sheet.verdict == plainly.conduit_body(body), body
        verdicts[sheet.verdict] += 1
    assert min(verdicts[verdict] for verdict in ("fits", "over", "not permitted")) > 300
