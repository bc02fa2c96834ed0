"""What is in a box counted up as Rule 12-3034 counts it, before any volume is given to it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from boxaloud.rules.checks import validate
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
from boxaloud.rules.data import table

CONNECTORS = frozenset({"wire connector", "splicing connector"})
"""Kinds of Uncounted that Canada counts in pairs."""
_THROUGH = frozenset({"through", "loop", "short_loop"})


def deepest() -> Decimal:
    """Centimetres that a device is taken to be deep where nobody says."""
    return Decimal(table("canada")["deep"]["centimetres"])


@dataclass(slots=True)
class CanadianTally:
    """Counts by kind and AWG. A smaller AWG number is a larger conductor."""

    wires: dict[int, int] = field(default_factory=dict)
    through: dict[int, int] = field(default_factory=dict)
    isolated: dict[int, int] = field(default_factory=dict)
    inside: int = 0
    fixture_wires: int = 0
    bonding: int = 0
    fittings: dict[str, int] = field(default_factory=dict)
    connectors: list[int | None] = field(default_factory=list)
    """The largest conductor under each wire connector, None where nobody said."""
    straps: dict[tuple[str, int], int] = field(default_factory=dict)
    deep: dict[tuple[str, Decimal], int] = field(default_factory=dict)
    open_straps: list[tuple[int, str, int | None, int, bool]] = field(default_factory=list)
    """Place, name, AWG, count, and whether it is the depth that is not known."""
    others: dict[str, int] = field(default_factory=dict)
    sizes: set[int] = field(default_factory=set)
    """Sizes of insulated conductors."""

    @property
    def largest(self) -> int | None:
        """AWG of the largest insulated conductor in the box; None while none is named."""
        return min(self.sizes, default=None)

    @property
    def described(self) -> bool:
        """Whether any conductor was named."""
        return bool(self.sizes or self.bonding or self.fixture_wires)

    @property
    def most_connectors(self) -> int:
        """As many wire connectors as there can be."""
        return sum(self.wires.values()) // 2 + (1 if self.bonding > 1 else 0)

    def pairs(self) -> dict[int, int]:
        """Pairs of wire connectors by the largest conductor under them, the largest first."""
        if self.largest is None:
            return {}
        known = sorted(awg if awg is not None else self.largest for awg in self.connectors)
        found: dict[int, int] = {}
        for place in range(0, len(known) - 1, 2):
            found[known[place]] = found.get(known[place], 0) + 1
        return found

    @property
    def connectors_alone(self) -> int:
        """Wire connectors that are in no pair."""
        return len(self.connectors) % 2 if self.largest is not None else len(self.connectors)


def most_connectors(contents: Iterable[Content]) -> int:
    """As many wire connectors as there can be: two conductors or more under each, and one for
    the bonding conductors. Raises RulesError for anything that cannot be."""
    return count_canadian(contents).most_connectors


def count_canadian(contents: Iterable[Content]) -> CanadianTally:
    """Count `contents`, each checked first. Raises RulesError for anything that cannot be."""
    tally = CanadianTally()
    yokes: list[tuple[int, Yoke]] = []
    for index, content in enumerate(contents):
        validate(content)
        if isinstance(content, Yoke):
            yokes.append((index, content))
        else:
            _count(tally, content)
    for index, yoke in yokes:
        _strap(tally, index, yoke)
    return tally


def _count(tally: CanadianTally, content: Content) -> None:
    match content:
        case Cable():
            _wires(tally, content.awg, content.count * content.conductors, content.path)
            if content.ground is not None and content.path != "inside":
                tally.bonding += content.count
        case Conductors():
            _wires(tally, content.awg, content.count, content.path)
        case FixtureWires():
            _fixture(tally, content)
        case Grounds() if content.isolated:
            _add(tally.isolated, content.awg, content.count)
            tally.sizes.add(content.awg)
        case Grounds() | BondingJumper():
            tally.bonding += content.count
        case SupportFitting():
            _add(tally.fittings, content.kind, content.count)
        case Uncounted() if content.kind in CONNECTORS:
            tally.connectors += [content.awg] * content.count
        case Uncounted():
            _add(tally.others, content.kind, content.count)
        case TerminalBlock():
            _add(tally.others, "terminal block", content.count)


def _wires(tally: CanadianTally, awg: int, count: int, path: str) -> None:
    tally.sizes.add(awg)
    if path == "inside":
        tally.inside += count
    else:
        _add(tally.through if path in _THROUGH else tally.wires, awg, count)


def _fixture(tally: CanadianTally, wires: FixtureWires) -> None:
    """18 and 16 AWG wires of the luminaire are left out, 12-3034(1)(d); larger ones count."""
    if wires.awg > 14:
        tally.fixture_wires += wires.count
    else:
        _wires(tally, wires.awg, wires.count, "ends")


def _strap(tally: CanadianTally, index: int, yoke: Yoke) -> None:
    deep = table("canada")["deep"]
    if yoke.depth is not None and yoke.depth > Decimal(deep["over"]):
        _add(tally.deep, (yoke.name, yoke.depth), yoke.count)
        return
    awg = yoke.awg
    if awg is None and len(tally.sizes) == 1:
        (awg,) = tally.sizes
    low = yoke.name.lower()
    unsure = yoke.depth is None and any(word in low for word in deep["devices"])
    if awg is None or unsure:
        tally.open_straps.append((index, yoke.name, awg, yoke.count, unsure))
    else:
        _add(tally.straps, (yoke.name, awg), yoke.count)


def _add(counts: dict[Any, int], key: object, count: int) -> None:
    counts[key] = counts.get(key, 0) + count
