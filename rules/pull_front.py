"""A pull box seen from the front, to scale: how large it is and where its raceways enter.

Inches, exact `Fraction`s. Where on a wall a raceway enters was not said: those of a wall are spread
along it. A side that no pull sets is taken as long as the other one.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from boxaloud.rules.pull import PullSheet, Raceway, Wall

UNSET = Fraction(12)
"""Inches of a front of which no side is set."""
_LOW = Fraction(3, 4)
"""How far down the front the raceways of the back wall are drawn, of its height."""


@dataclass(frozen=True, slots=True)
class Entry:
    """Where a raceway enters: its middle, inches from the left and from the top of the front."""

    raceway: Raceway
    across: Fraction
    down: Fraction

    @property
    def size(self) -> Fraction:
        """How thick it is drawn, inches: its trade size."""
        return self.raceway.size


@dataclass(frozen=True, slots=True)
class Front:
    """The front of a box, inches wide and high, and the raceways that enter it."""

    wide: Fraction
    high: Fraction
    entries: tuple[Entry, ...]
    wide_set: bool
    """False where no pull sets the width: it is drawn as long as the height."""
    high_set: bool
    """False where no pull sets the height."""


def front(sheet: PullSheet, raceways: Iterable[Raceway]) -> Front:
    """The front of a box of the least size."""
    other = sheet.width or sheet.height or UNSET
    wide, high = sheet.width or other, sheet.height or other
    walls: dict[Wall, list[Raceway]] = defaultdict(list)
    for raceway in raceways:
        walls[raceway.wall].append(raceway)
    entries = (e for wall, found in walls.items() for e in _along(wall, found, wide, high))
    return Front(wide, high, tuple(entries), sheet.width is not None, sheet.height is not None)


def _along(wall: Wall, raceways: list[Raceway], wide: Fraction, high: Fraction) -> Iterator[Entry]:
    for place, raceway in enumerate(raceways, 1):
        share = Fraction(place, len(raceways) + 1)
        match wall:
            case "left" | "right":
                yield Entry(raceway, wide if wall == "right" else Fraction(0), share * high)
            case "top" | "bottom":
                yield Entry(raceway, share * wide, high if wall == "bottom" else Fraction(0))
            case "back":
                yield Entry(raceway, share * wide, _LOW * high)
