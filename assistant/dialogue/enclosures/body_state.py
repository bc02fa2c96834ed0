"""What is said of a conduit body besides what is in it: part of a `State`."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.grammar.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True)
class BodySaid:
    """A conduit body as it was said; empty or None where it was not."""

    shape: str = ""
    raceway: str = ""
    """`emt`, `imc`, `rmc` or `pvc40`: the largest raceway on it."""
    size: Decimal | None = None
    """Trade size of that raceway, inches."""
    insulation: str = ""
    spliced: bool | None = None
    short_radius: bool = False
    unmarked: bool = False
    both_sides: bool | None = None
    """True where each spliced conductor comes in from both sides, so that it counts twice."""
