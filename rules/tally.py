"""Everything in a box counted up by kind and size, before any allowance is given to it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from boxaloud.rules.checks import CHECKS, validate
from boxaloud.rules.contents import (
    BondingJumper,
    Cable,
    Conductors,
    Content,
    FixtureWires,
    Grounds,
    SupportFitting,
    TerminalBlock,
    Uncounted,
    Yoke,
)

_SMALLEST = 99
"""Larger than any AWG number: no conductor yet."""


class Tally:
    """Counts by kind. A smaller AWG number is a larger conductor."""

    __slots__ = (
        "blocks",
        "canopy_grounds",
        "canopy_wires",
        "fittings",
        "fixture_wires",
        "grounds",
        "isolated",
        "jumpers_inside",
        "largest",
        "open_blocks",
        "open_yokes",
        "sizes",
        "uncounted",
        "wires",
        "yokes",
    )

    def __init__(self) -> None:
        self.wires: dict[tuple[str, int], int] = {}
        """Insulated conductors by path and AWG."""
        self.fixture_wires: dict[int, int] = {}
        self.canopy_wires: dict[int, int] = {}
        self.canopy_grounds = 0
        self.grounds: dict[int, int] = {}
        self.isolated: dict[int, int] = {}
        self.jumpers_inside = 0
        self.fittings: dict[str, int] = {}
        self.yokes: dict[tuple[str, int, int], int] = {}
        """Yokes by name, AWG and gangs."""
        self.open_yokes: list[tuple[int, Yoke]] = []
        self.blocks: dict[int, int] = {}
        self.open_blocks: list[tuple[int, TerminalBlock]] = []
        self.uncounted: dict[str, int] = {}
        self.sizes: set[int] = set()
        """Sizes of insulated conductors, on which a device may land."""
        self.largest = _SMALLEST
        """AWG of the largest conductor present: one that stays inside is present too, one left
        out by the Exception and a jumper that stays inside are not looked at."""


def _cable(tally: Tally, cable: Cable, _: int) -> None:
    awg, path, count = cable.awg, cable.path, cable.count
    key = (path, awg)
    tally.wires[key] = tally.wires.get(key, 0) + count * cable.conductors
    tally.sizes.add(awg)
    tally.largest = min(tally.largest, awg)
    ground = cable.ground
    if ground is not None and path != "inside":
        tally.grounds[ground] = tally.grounds.get(ground, 0) + count
        tally.largest = min(tally.largest, ground)


def _conductors(tally: Tally, wires: Conductors, _: int) -> None:
    key = (wires.path, wires.awg)
    tally.wires[key] = tally.wires.get(key, 0) + wires.count
    tally.sizes.add(wires.awg)
    tally.largest = min(tally.largest, wires.awg)


def _fixture_wires(tally: Tally, wires: FixtureWires, _: int) -> None:
    if wires.canopy:
        _add(tally.canopy_wires, wires.awg, wires.count)
    else:
        _add(tally.fixture_wires, wires.awg, wires.count)
        tally.largest = min(tally.largest, wires.awg)


def _grounds(tally: Tally, grounds: Grounds, _: int) -> None:
    if grounds.canopy:
        tally.canopy_grounds += grounds.count
        return
    _add(tally.isolated if grounds.isolated else tally.grounds, grounds.awg, grounds.count)
    tally.largest = min(tally.largest, grounds.awg)


def _jumper(tally: Tally, jumper: BondingJumper, _: int) -> None:
    if not jumper.enters:
        tally.jumpers_inside += jumper.count
        return
    _add(tally.grounds, jumper.awg, jumper.count)
    tally.largest = min(tally.largest, jumper.awg)


def _yoke(tally: Tally, yoke: Yoke, index: int) -> None:
    if yoke.awg is None:
        tally.open_yokes.append((index, yoke))
    else:
        _add(tally.yokes, (yoke.name, yoke.awg, yoke.gangs), yoke.count)


def _block(tally: Tally, block: TerminalBlock, index: int) -> None:
    if block.awg is None:
        tally.open_blocks.append((index, block))
    else:
        _add(tally.blocks, block.awg, block.count)


def _fitting(tally: Tally, fitting: SupportFitting, _: int) -> None:
    _add(tally.fittings, fitting.kind, fitting.count)


def _uncounted(tally: Tally, thing: Uncounted, _: int) -> None:
    _add(tally.uncounted, thing.kind, thing.count)


def _add(counts: dict[Any, int], key: object, count: int) -> None:
    counts[key] = counts.get(key, 0) + count


_COUNTS: dict[type, Callable[[Tally, Any, int], None]] = {
    Cable: _cable,
    Conductors: _conductors,
    FixtureWires: _fixture_wires,
    Grounds: _grounds,
    BondingJumper: _jumper,
    Yoke: _yoke,
    TerminalBlock: _block,
    SupportFitting: _fitting,
    Uncounted: _uncounted,
}


def count_up(contents: Iterable[Content], most_omitted: int, smaller_than: int) -> Tally:
    """Count `contents`, each checked first; the canopy exception settled at the end.

    `most_omitted` fixture wires smaller than `smaller_than` AWG may be left out, 314.16(B)(1)
    Exception; the largest are left out, which is the least total the Exception permits.
    Raises RulesError for anything that cannot be.
    """
    tally = Tally()
    for index, content in enumerate(contents):
        kind = type(content)
        if kind not in CHECKS:
            validate(content)
        CHECKS[kind](content)
        _COUNTS[kind](tally, content, index)
    if tally.canopy_wires:
        _settle_canopy(tally, most_omitted, smaller_than)
    _settle_sizes(tally)
    return tally


def _settle_canopy(tally: Tally, most: int, smaller_than: int) -> None:
    named, tally.canopy_wires = tally.canopy_wires, {}
    for awg in sorted(named):
        left_out = min(most, named[awg]) if awg > smaller_than else 0
        most -= left_out
        if left_out:
            tally.canopy_wires[awg] = left_out
        if named[awg] > left_out:
            _add(tally.fixture_wires, awg, named[awg] - left_out)
            tally.largest = min(tally.largest, awg)


def _settle_sizes(tally: Tally) -> None:
    """With one size in the box, what lands on a device or a terminal block is that size."""
    if not (tally.open_yokes or tally.open_blocks):
        return
    if not tally.sizes:
        tally.sizes = set(tally.grounds) | set(tally.isolated)
    if len(tally.sizes) != 1:
        return
    (only,) = tally.sizes
    for _, yoke in tally.open_yokes:
        _add(tally.yokes, (yoke.name, only, yoke.gangs), yoke.count)
    for _, block in tally.open_blocks:
        _add(tally.blocks, only, block.count)
    tally.open_yokes, tally.open_blocks = [], []


def largest_present(tally: Tally) -> int | None:
    """AWG that clamps and support fittings are counted at; None while no conductor is named."""
    return None if tally.largest == _SMALLEST else tally.largest
