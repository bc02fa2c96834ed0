"""Described boxes made at random: for hypothesis, and by the thousand from a seed."""

from __future__ import annotations

from decimal import Decimal
from random import Random
from typing import Any

from boxaloud.rules import editions, table_boxes
from boxaloud.rules.contents import (
    Barrier,
    BondingJumper,
    Box,
    Cable,
    ClampAssembly,
    Conductors,
    Content,
    FixtureWires,
    Grounds,
    Marked,
    Measured,
    Part,
    SupportFitting,
    TableBox,
    TerminalBlock,
    Uncounted,
    Unmarked,
    Yoke,
)
from hypothesis import strategies as st

SIZES = (18, 16, 14, 12, 10, 8, 6)
PATHS: tuple[Any, ...] = ("ends", "ends", "ends", "through", "loop", "short_loop", "inside")
KNOWN_CLAMPS: tuple[Any, ...] = ("none", "outside", "inside")
ALL_CLAMPS: tuple[Any, ...] = (*KNOWN_CLAMPS, "unknown", "moulded")
DEVICES = ("switch", "receptacle", "dimmer")
FITTINGS = ("luminaire stud", "hickey")


def content(rng: Random, known: bool) -> Content:
    """One thing, with a size unless `known` is False and chance has it so."""
    awg, count = rng.choice(SIZES), rng.choice((1, 1, 2, 3, 6))
    landed = awg if known or rng.random() < 0.5 else None
    kind = rng.randrange(12)
    if kind < 4:
        ground = rng.choice((awg, awg, 10, None))
        return Cable(awg, rng.randint(1, 4), ground, count, rng.choice(PATHS))
    if kind < 6:
        return Conductors(awg, count, rng.choice(PATHS))
    if kind == 6:
        return FixtureWires(rng.choice((18, 18, 16, 14)), count, rng.random() < 0.7)
    if kind == 7:
        return Grounds(awg, count, rng.random() < 0.4, rng.random() < 0.2)
    if kind == 8:
        enters = rng.choice((True, False) if known else (True, False, None))
        return rng.choice((BondingJumper(awg, count, enters), Uncounted("wire connector", count)))
    if kind == 9:
        return SupportFitting(rng.choice(FITTINGS), count)
    if kind == 10:
        return TerminalBlock(landed, count)
    return Yoke(rng.choice(DEVICES), landed, rng.choice((1, 1, 2)), count)


def part(rng: Random) -> Part:
    """A box, or what stands on it or in it."""
    rows = table_boxes()
    row = rng.choice(rows)
    return rng.choice(
        (
            Marked(Decimal(rng.randint(40, 800)) / 10),
            TableBox(row.id, rng.randint(1, 3) if row.gangs else 1),
            Marked(Decimal(rng.randint(5, 80)) / 10, "plaster ring"),
            TableBox("square-4-1.5", label="extension ring"),
            Unmarked("domed cover"),
            Barrier(rng.choice(("metal", "nonmetallic")), rng.choice((None, Decimal("0.8")))),
            Measured(Decimal(rng.randint(6, 12)), Decimal(rng.randint(6, 12)), Decimal("3.5")),
            ClampAssembly(Decimal(rng.randint(5, 20)) / 10, rng.randint(1, 2)),
        )
    )


def random_box(rng: Random, known: bool = True) -> Box:
    """A box at random; with open answers where `known` is False."""
    size = rng.randint(0, 7)
    return Box(
        parts=tuple(part(rng) for _ in range(rng.choice((0, 1, 1, 2)))),
        contents=tuple(content(rng, known) for _ in range(size)),
        clamps=rng.choice(KNOWN_CLAMPS if known else ALL_CLAMPS),
        grounds_known=known or rng.random() < 0.7,
        edition=rng.choice(editions()),
    )


def boxes(known: bool = True) -> st.SearchStrategy[Box]:
    """Described boxes for hypothesis; fully described where `known`."""
    return st.randoms(use_true_random=False).map(lambda rng: random_box(rng, known))


def contents() -> st.SearchStrategy[Content]:
    """One content of known size."""
    return st.randoms(use_true_random=False).map(lambda rng: content(rng, True))
