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
    large: tuple[str, ...] = ()
    """Conductors of 4 AWG and larger in it, each by its size: `4`, `2/0`, `500`."""
    permits: tuple[str, ...] = ()
    """What its maker marked it for, each conductor by its size."""
    listed: bool = False
    """True where it was said to be marked for what is in it."""
    length: Decimal | None = None
    width: Decimal | None = None
    depth: Decimal | None = None
    """Inside dimensions, inches: from end to end, across, and from the back to the cover."""
    both_sides: bool | None = None
    """True where each spliced conductor comes in from both sides, so that it counts twice."""
