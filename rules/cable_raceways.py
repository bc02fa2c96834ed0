"""The raceway that the conductors of a cable would need, 314.28(A), by Chapter 9 Table 1, 4 and 5.

A cable in a pull box counts as the least trade size of raceway for the number and size of its
conductors. The code names no kind of raceway: the least size of each kind that is held is worked
out, and the largest of them counts, since a box by the others could be too small.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from boxaloud.rules.conduit import (
    area_from_memory,
    figure,
    fill_share,
    fill_taken,
    names_held,
    raceway_area,
    raceway_sizes,
    wire_area,
)
from boxaloud.rules.data import table
from boxaloud.rules.errors import RulesError


@dataclass(frozen=True, slots=True)
class Cable314:
    """The conductors of a cable: the size of each as the tables write it, `6`, `4/0`, `500`."""

    wires: tuple[str, ...]
    ground: str = ""
    """Its ground, by size; `?` where no size was said: taken as large as the largest of `wires`.
    One that may be bare is taken as insulated, which is never less."""
    insulation: str = ""
    """`thhn`, `xhhw` or `tw`; empty where nobody said."""


@dataclass(frozen=True, slots=True)
class CableRaceway:
    """The raceway that a cable counts as, inches, and how it comes about."""

    size: Fraction
    insulation: str
    by_kind: tuple[tuple[str, Fraction], ...]
    """The least trade size by each kind of raceway that holds them."""
    working: str
    """Of the kind that needs the largest: `4 x 0.3237 of 0.4 x 3.291`."""
    section: str
    from_memory: tuple[tuple[str, str], ...]
    """Which of its areas no source that was read states: the table, and its row."""


def cable_raceway(cable: Cable314) -> CableRaceway | None:
    """The raceway that a cable counts as; None where it hangs on an insulation that is open.

    Raises RulesError where no raceway that is held takes its conductors, or where a size is held
    in no table.
    """
    insulations = (cable.insulation,) if cable.insulation else names_held("insulation")
    found = [_by_insulation(cable, name) for name in insulations]
    if len({one.size for one in found}) > 1:
        return None
    return max(found, key=lambda one: len(one.by_kind))


def worst_insulation(cable: Cable314) -> str:
    """The insulation by which its conductors need the largest raceway."""
    names = names_held("insulation")
    return max(names, key=lambda name: _by_insulation(cable, name).size)


def _by_insulation(cable: Cable314, insulation: str) -> CableRaceway:
    wires = _counted(cable)
    every = [(insulation, size) for size in wires]
    by_kind = []
    for kind in names_held("raceway"):
        sizes = (size for size in raceway_sizes(kind) if fill_taken(kind, size, every))
        if (least := next(sizes, None)) is not None:
            by_kind.append((kind, least))
    if len(by_kind) < 2:  # of fewer nothing says that another would not need a larger one
        raise RulesError(
            "No raceway that is held takes the conductors of this cable: say its size."
        )
    kind, size = max(by_kind, key=lambda one: one[1])
    memory = [
        ("Table 5", one)
        for one in dict.fromkeys(wires)
        if area_from_memory("insulation", insulation, one)
    ]
    if area_from_memory("raceway", kind, str(size)):
        memory.append(("Table 4", kind))
    return CableRaceway(
        size,
        insulation,
        tuple(by_kind),
        _working(wires, insulation, kind, size),
        str(table("pull")["rule"]["pull-cable"]["section"]),
        tuple(memory),
    )


def _counted(cable: Cable314) -> tuple[str, ...]:
    """Every conductor by its size, the ground among them."""
    if not cable.ground:
        return cable.wires
    largest = max(cable.wires, key=lambda size: wire_area("thhn", size))
    return (*cable.wires, largest if cable.ground == "?" else cable.ground)


def _working(wires: tuple[str, ...], insulation: str, kind: str, size: Fraction) -> str:
    counted = {one: wires.count(one) for one in dict.fromkeys(wires)}
    taken = " + ".join(
        f"{count} x {figure(wire_area(insulation, one))}" for one, count in counted.items()
    )
    share = figure(fill_share(len(wires)))
    return f"{taken} of {share} x {figure(raceway_area(kind, size))}"
