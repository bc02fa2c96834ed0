"""Box fill a second time, as plainly as it can be written, to disagree with `rules` if it can.

Shares nothing with `rules` but the described things. Every conductor is a separate item in a
list, everything is a Fraction, and open answers are settled by trying them all.

Volumes: Table 314.16(A) and (B) as in the Electrical Box Sizing Guide (synthmind.com); rules
and editions as in the sources of `rules/data/rules.toml`, written here independently.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product

from boxaloud.rules.contents import (
    Barrier,
    BondingJumper,
    Box,
    Cable,
    ClampAssembly,
    Clamps,
    Conductors,
    Content,
    FixtureWires,
    Grounds,
    Marked,
    Measured,
    SupportFitting,
    TableBox,
    TerminalBlock,
    Yoke,
)

CUBIC_INCHES = {
    18: Fraction("1.5"),
    16: Fraction("1.75"),
    14: Fraction("2"),
    12: Fraction("2.25"),
    10: Fraction("2.5"),
    8: Fraction("3"),
    6: Fraction("5"),
}

BOXES = {
    "octagon-4-1.25": "12.5",
    "octagon-4-1.5": "15.5",
    "octagon-4-2.125": "21.5",
    "square-4-1.25": "18",
    "square-4-1.5": "21",
    "square-4-2.125": "30.3",
    "square-4.6875-1.25": "25.5",
    "square-4.6875-1.5": "29.5",
    "square-4.6875-2.125": "42",
    "device-3x2x1.5": "7.5",
    "device-3x2x2": "10",
    "device-3x2x2.25": "10.5",
    "device-3x2x2.5": "12.5",
    "device-3x2x2.75": "14",
    "device-3x2x3.5": "18",
    "handy-4x2.125x1.5": "10.3",
    "handy-4x2.125x1.875": "13",
    "handy-4x2.125x2.125": "14.5",
    "masonry-3.75x2x2.5": "14",
    "masonry-3.75x2x3.5": "21",
    "fs-single": "13.5",
    "fd-single": "18",
    "fs-multiple": "18",
    "fd-multiple": "24",
}


@dataclass(frozen=True)
class Plain:
    """What the plain way finds."""

    total: Fraction
    capacity: Fraction | None
    low: Fraction
    high: Fraction
    verdict: str


def fill(box: Box) -> Fraction:  # noqa: C901 - one long walk is the plainest
    """Cubic inches of everything that is known; what has no size is left out."""
    year = int(box.edition)
    total = Fraction(0)
    entering: list[int] = []
    staying: list[int] = []
    grounds: list[int] = []
    isolated: list[int] = []
    tails: list[int] = []
    fittings: set[str] = set()
    blocks: list[int] = []
    for thing in box.contents:
        if isinstance(thing, Cable):
            for _ in range(thing.count):
                for _ in range(thing.conductors):
                    total += _wire(thing.awg, thing.path, entering, staying)
                if thing.ground is not None and thing.path != "inside":
                    grounds.append(thing.ground)
        elif isinstance(thing, Conductors):
            for _ in range(thing.count):
                total += _wire(thing.awg, thing.path, entering, staying)
        elif isinstance(thing, FixtureWires) and thing.canopy:
            tails += [thing.awg] * thing.count
        elif isinstance(thing, FixtureWires):
            entering += [thing.awg] * thing.count
            total += CUBIC_INCHES[thing.awg] * thing.count
        elif isinstance(thing, Grounds) and not thing.canopy:
            (isolated if thing.isolated else grounds).extend([thing.awg] * thing.count)
        elif isinstance(thing, BondingJumper) and thing.enters is not False:
            grounds += [thing.awg] * thing.count
        elif isinstance(thing, Yoke) and thing.awg is not None:
            total += 2 * thing.gangs * thing.count * CUBIC_INCHES[thing.awg]
        elif isinstance(thing, SupportFitting):
            fittings.add(thing.kind)
        elif isinstance(thing, TerminalBlock) and thing.awg is not None:
            blocks += [thing.awg] * thing.count
    small = sorted(awg for awg in tails if awg > 14)
    counted_tails = small[4:] + [awg for awg in tails if awg <= 14]
    for awg in counted_tails:
        entering.append(awg)
        total += CUBIC_INCHES[awg]
    present = entering + staying + grounds + isolated
    if present:
        biggest = max(CUBIC_INCHES[awg] for awg in present)
        total += biggest * len(fittings)
        if box.clamps == "inside":
            total += biggest
    total += _grounds(year, grounds, isolated)
    if year >= 2023:
        total += sum(CUBIC_INCHES[awg] for awg in blocks)
    return total


def _wire(awg: int, path: str, entering: list[int], staying: list[int]) -> Fraction:
    if path == "inside":
        staying.append(awg)
        return Fraction(0)
    entering.append(awg)
    return CUBIC_INCHES[awg] * (2 if path == "loop" else 1)


def _grounds(year: int, grounds: list[int], isolated: list[int]) -> Fraction:
    if year < 2020:
        sets = [one for one in (grounds, isolated) if one]
        return sum((max(CUBIC_INCHES[awg] for awg in one) for one in sets), Fraction(0))
    every = grounds + isolated
    if not every:
        return Fraction(0)
    quarters = 4 + max(0, len(every) - 4)
    return Fraction(quarters, 4) * max(CUBIC_INCHES[awg] for awg in every)


def volume(box: Box) -> Fraction | None:
    """Cubic inches of the box; None while no part of it is a box."""
    total = Fraction(0)
    is_known = False
    for part in box.parts:
        if isinstance(part, Marked):
            total += Fraction(part.volume)
            is_known = is_known or part.label == "box"
        elif isinstance(part, TableBox):
            total += Fraction(BOXES[part.row]) * part.gangs
            is_known = is_known or part.label == "box"
        elif isinstance(part, Measured):
            total += Fraction(part.width) * Fraction(part.height) * Fraction(part.depth)
            is_known = True
        elif isinstance(part, ClampAssembly):
            total -= Fraction(part.volume) * part.count
        elif isinstance(part, Barrier) and int(box.edition) >= 2017:
            unmarked = {"metal": Fraction(1, 2), "nonmetallic": Fraction(1)}[part.material]
            total -= unmarked if part.volume is None else Fraction(part.volume)
    return total if is_known else None


def answers(box: Box) -> list[Box]:
    """The box once for every way of answering what is open."""
    for place, thing in enumerate(box.contents):
        if isinstance(thing, BondingJumper) and thing.enters is None:
            before, after = box.contents[:place], box.contents[place + 1 :]
            return [
                one
                for enters in (True, False)
                for one in answers(
                    replace(box, contents=(*before, replace(thing, enters=enters), *after))
                )
            ]
    sizes = {c.awg for c in box.contents if isinstance(c, (Cable, Conductors))}
    if not sizes:
        sizes = set(_grounds_named(box))
    sizes = sizes or set(CUBIC_INCHES)
    each: list[list[Content]] = []
    for thing in box.contents:
        if isinstance(thing, (Yoke, TerminalBlock)) and thing.awg is None:
            each.append([replace(thing, awg=awg) for awg in sizes])
        else:
            each.append([thing])
    clamps: dict[str, list[Clamps]] = {
        "unknown": ["none", "inside"],
        "moulded": ["none", "inside"],
    }
    made = []
    for contents in product(*each):
        for clamp in clamps.get(box.clamps, [box.clamps]):
            settled = replace(box, contents=contents, clamps=clamp)
            made.append(settled)
            if not box.grounds_known and (biggest := _biggest_present(settled)):
                more = (*contents, Grounds(biggest, 1))
                made.append(replace(settled, contents=more))
    return made


def _biggest_present(box: Box) -> int | None:
    sizes: list[int] = []
    tails: list[int] = []
    for thing in box.contents:
        if isinstance(thing, (Cable, Conductors)):
            sizes.append(thing.awg)
            if isinstance(thing, Cable) and thing.ground and thing.path != "inside":
                sizes.append(thing.ground)
        elif isinstance(thing, FixtureWires):
            (tails if thing.canopy else sizes).extend([thing.awg] * thing.count)
    sizes += _grounds_named(box)
    small = sorted(awg for awg in tails if awg > 14)
    sizes += small[4:] + [awg for awg in tails if awg <= 14]
    return min(sizes, default=None)


def _grounds_named(box: Box) -> list[int]:
    found = [c.awg for c in box.contents if isinstance(c, Grounds) and not c.canopy]
    return found + [
        c.awg for c in box.contents if isinstance(c, BondingJumper) and c.enters is not False
    ]


def is_described(box: Box) -> bool:
    """Whether any conductor was named."""
    counted_tails = [c for c in box.contents if isinstance(c, FixtureWires)]
    only_tails = replace(box, contents=tuple(counted_tails), clamps="none", edition="2023")
    return (
        fill(only_tails) > 0
        or any(isinstance(c, (Cable, Conductors)) for c in box.contents)
        or bool(_grounds_named(box))
    )


def work_out_plainly(box: Box) -> Plain:
    """Total, capacity, bounds and verdict, the plain way."""
    every = [fill(one) for one in answers(box)]
    low, high = min(every), max(every)
    counted = tuple(
        c for c in box.contents if not (isinstance(c, BondingJumper) and c.enters is None)
    )
    sure = replace(box, contents=counted)
    known = replace(sure, clamps=box.clamps if box.clamps in ("inside", "outside") else "none")
    only = {c.awg for c in counted if isinstance(c, (Cable, Conductors))}
    if not only:
        only = set(_grounds_named(sure))
    if len(only) == 1:
        (awg,) = only
        settled = tuple(
            replace(c, awg=awg) if isinstance(c, (Yoke, TerminalBlock)) and c.awg is None else c
            for c in counted
        )
        known = replace(known, contents=settled)
    capacity = volume(box)
    verdict = "incomplete"
    if capacity is not None and low > capacity:
        verdict = "over"
    elif capacity is not None and high <= capacity and is_described(box):
        verdict = "fits"
    return Plain(fill(known), capacity, low, high, verdict)
