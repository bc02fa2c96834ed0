"""Rule 12-3034 a second time, as plainly as it can be written: one list of single things.

Shares nothing with `rules` but the described things. Table 22: 14, 12 AWG DIY Chatroom 48926,
8 AWG Dakota Prep; 10 and 6 AWG from memory. The rule: oncodes.ca.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import product
from math import floor

from boxaloud.rules.contents import (
    Barrier,
    Box,
    Cable,
    Conductors,
    FixtureWires,
    Grounds,
    Marked,
    SupportFitting,
    Uncounted,
    Yoke,
)

TABLE_22 = {
    14: Fraction("24.6"),
    12: Fraction("28.7"),
    10: Fraction("36.9"),
    8: Fraction("45.1"),
    6: Fraction("73.7"),
}
DEEP = Fraction("2.54")
DEEPEST = Fraction("5.715")
MAY_BE_DEEP = ("dimmer", "GFCI receptacle")


def insulated(box: Box) -> list[tuple[int, bool]]:
    """Every insulated conductor by itself: its size, and whether it leaves the box."""
    found: list[tuple[int, bool]] = []
    for thing in box.contents:
        if isinstance(thing, Cable):
            wire = (thing.awg, thing.path != "inside")
            found += [wire] * thing.conductors * thing.count
        elif isinstance(thing, Conductors):
            found += [(thing.awg, thing.path != "inside")] * thing.count
        elif (isinstance(thing, FixtureWires) and thing.awg <= 14) or (
            isinstance(thing, Grounds) and thing.isolated
        ):
            found += [(thing.awg, True)] * thing.count
    return found


def counts(thing: FixtureWires | Grounds) -> bool:
    """Large fixture wires and isolated grounds are conductors like any other."""
    return thing.awg <= 14 if isinstance(thing, FixtureWires) else thing.isolated


def fill(box: Box) -> Fraction:
    """Millilitres of everything that is known."""
    wires = insulated(box)
    total = sum((TABLE_22[awg] for awg, leaves in wires if leaves), Fraction(0))
    biggest = max((TABLE_22[awg] for awg, _ in wires), default=None)
    under: list[Fraction] = []
    for thing in box.contents:
        if isinstance(thing, SupportFitting) and biggest is not None:
            total += biggest * thing.count
        elif isinstance(thing, Uncounted) and thing.kind == "wire connector":
            size = biggest if thing.awg is None else TABLE_22[thing.awg]
            under += [size] * thing.count if size is not None else []
        elif isinstance(thing, Yoke) and thing.depth is not None and Fraction(thing.depth) > DEEP:
            total += 32 * Fraction(thing.depth) * thing.count
        elif isinstance(thing, Yoke) and not open_depth(thing):
            awg = landed(thing, wires)
            total += 2 * TABLE_22[awg] * thing.count if awg is not None else 0
    if biggest is None:
        return total
    under.sort(reverse=True)
    while len(under) > 1:
        total += under[0]
        under = under[2:]
    return total


def open_depth(yoke: Yoke) -> bool:
    """Whether nobody said how deep a device is that may be deep."""
    return yoke.depth is None and yoke.name in MAY_BE_DEEP


def landed(yoke: Yoke, wires: list[tuple[int, bool]]) -> int | None:
    """The size on a strap: as said, else the only one there is."""
    only = {awg for awg, _ in wires}
    if yoke.awg is None and len(only) == 1:
        return only.pop()
    return yoke.awg


def volume(box: Box) -> Fraction | None:
    """Millilitres of the box by its marks; None where the box itself has none."""
    total, known = Fraction(0), False
    for part in box.parts:
        if isinstance(part, Marked):
            if part.cm3 is not None:
                total += Fraction(part.cm3)
            else:
                total += Fraction(floor(Fraction(part.volume) * Fraction("1638.7064")), 100)
            known = known or part.label == "box"
        elif isinstance(part, Barrier) and part.volume is not None:
            hundredths = Fraction(part.volume) * Fraction("1638.7064")
            total -= Fraction(-floor(-hundredths), 100)
    return total if known else None


def settled(box: Box) -> list[Fraction]:
    """The fill for every way of answering what is open."""
    wires = insulated(box)
    sizes = {awg for awg, _ in wires} or set(TABLE_22)
    extra: list[list[Fraction]] = []
    for thing in box.contents:
        if not isinstance(thing, Yoke) or (thing.depth is not None and thing.depth > DEEP):
            continue
        awg = landed(thing, wires)
        each = [2 * TABLE_22[a] * thing.count for a in ([awg] if awg is not None else sizes)]
        if open_depth(thing):
            extra.append([min(each), max(*each, 32 * DEEPEST * thing.count)])
        elif awg is None:
            extra.append([min(each), max(each)])
    named = any(isinstance(t, Uncounted) and t.kind == "wire connector" for t in box.contents)
    if not box.connectors_known and not named and wires:
        extra.append([Fraction(0), most_connectors(box) // 2 * max(TABLE_22[a] for a, _ in wires)])
    return [fill(box) + sum(way, Fraction(0)) for way in product(*extra)]


def most_connectors(box: Box) -> int:
    """Two conductors that end under each, and one for the bonding conductors."""
    ends = 0
    bonding = 0
    for thing in box.contents:
        if isinstance(thing, Cable):
            ends += thing.conductors * thing.count if thing.path == "ends" else 0
            bonding += thing.count if thing.ground is not None and thing.path != "inside" else 0
        elif (isinstance(thing, Conductors) and thing.path == "ends") or (
            isinstance(thing, FixtureWires) and thing.awg <= 14
        ):
            ends += thing.count
        elif type(thing).__name__ == "BondingJumper" or (
            isinstance(thing, Grounds) and not thing.isolated
        ):
            bonding += thing.count
    return ends // 2 + (1 if bonding > 1 else 0)


def is_described(box: Box) -> bool:
    """Whether any conductor was named."""
    kinds = (Cable, Conductors, FixtureWires, Grounds)
    return any(
        isinstance(thing, kinds) or type(thing).__name__ == "BondingJumper"
        for thing in box.contents
    )


def verdict(box: Box) -> str:
    """What comes of it."""
    room, ways = volume(box), settled(replace(box))
    if room is None:
        return "incomplete"
    if min(ways) > room:
        return "over"
    return "fits" if max(ways) <= room and is_described(box) else "incomplete"
