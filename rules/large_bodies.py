"""Conduit bodies with conductors of 4 AWG and larger: their dimensions by 314.28(A).

Such a body is worked out as a pull box whose raceways are those at its hubs: from end to end
through a C, round the corner in an L, and in an LB one end lies opposite the removable cover.
"""

from __future__ import annotations

from fractions import Fraction
from typing import cast

from boxaloud.rules.data import table
from boxaloud.rules.errors import RulesError
from boxaloud.rules.pull import Pull, PullBox, PullKind, Raceway, Wall

_ORDER = (
    "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0", "250", "300", "350", "400", "500", "600",
    "700", "750", "800", "900", "1000", "1250", "1500", "1750", "2000",
)  # fmt: skip
"""Conductors of 4 AWG and larger, the smallest first."""


def shapes() -> tuple[str, ...]:
    """The conduit bodies whose dimensions can be worked out, by their letters."""
    return tuple(row["id"] for row in table("conduit")["shape"])


def large_body(shape: str, size: Fraction, conductor: str) -> PullBox:
    """A conduit body as a pull box: `size` of the raceways on it, inches, and its largest
    conductor. Its width is its length from end to end.

    Raises RulesError for a shape of which nobody knows how its conductors go.
    """
    found = next((row for row in table("conduit")["shape"] if row["id"] == shape), None)
    if found is None:
        raise RulesError(
            f"How conductors go through a body of type {shape} is not held: say one of "
            f"{', '.join(shapes())}."
        )
    raceways: dict[str, Raceway] = {}
    pulls = []
    for kind, start, end in found["pulls"]:
        for wall in (start, end):
            raceways[wall] = Raceway(f"the {wall} hub", size, cast(Wall, wall))
        pulls.append(
            Pull(cast(PullKind, kind), raceways[start].name, raceways[end].name, conductor)
        )
    return PullBox(tuple(raceways.values()), tuple(pulls))


def largest_of(sizes: tuple[str, ...]) -> str:
    """The largest of some conductors of 4 AWG and larger. Raises RulesError for another size."""
    for size in sizes:
        if size not in _ORDER:
            raise RulesError(f"{size} is no conductor of 4 AWG and larger.")
    return max(sizes, key=_ORDER.index)


def marking_holds(permits: tuple[str, ...], wires: tuple[str, ...]) -> bool:
    """Whether a maker's marking, 314.28(A)(3), takes so many conductors of these sizes."""
    return len(wires) <= len(permits) and _ORDER.index(largest_of(wires)) <= _ORDER.index(
        largest_of(permits)
    )
