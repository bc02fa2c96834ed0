"""The published worked examples of published.toml, made into described boxes."""

from __future__ import annotations

import tomllib
from decimal import Decimal
from pathlib import Path
from typing import Any

from boxaloud.rules.contents import (
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

Case = dict[str, Any]

CASES: list[Case] = tomllib.loads((Path(__file__).parent / "published.toml").read_text())["case"]


def of_kind(*kinds: str) -> list[Any]:
    """The cases of these kinds, ready to parametrise with."""
    import pytest

    return [pytest.param(case, id=case["id"]) for case in CASES if case["kind"] in kinds]


def contents(case: Case) -> tuple[Content, ...]:
    """What the case says is in the box."""
    made: list[Content] = []
    for count, awg, conductors, ground in case.get("cables", ()):
        made.append(Cable(awg, conductors, ground, count))
    for count, awg, *path in case.get("conductors", ()):
        made.append(Conductors(awg, count, *path))
    made += [Grounds(awg, count) for count, awg in case.get("grounds", ())]
    for name, count, awg, gangs in case.get("devices", ()):
        made.append(Yoke(name, awg, gangs, count))
    made += [SupportFitting(kind) for kind in case.get("fittings", ())]
    for count, awg, canopy in case.get("fixture_wires", ()):
        made.append(FixtureWires(awg, count, canopy))
    made += [Uncounted(kind) for kind in case.get("uncounted", ())]
    return tuple(made)


def box(case: Case, edition: str = "2023") -> Box:
    """The box of the case; clamps are `none` where the source says nothing of them."""
    parts: tuple[Part, ...] = ()
    if "row" in case:
        parts = (TableBox(case["row"], case.get("gangs", 1)),)
    elif "box" in case:
        parts = (Marked(Decimal(case["box"])),)
    return Box(
        parts=parts, contents=contents(case), clamps=case.get("clamps", "none"), edition=edition
    )
