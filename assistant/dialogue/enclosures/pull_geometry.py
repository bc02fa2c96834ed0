"""From what was said of a pull box to the raceways and pulls that the rules work out.

Where nobody said by which walls a pull runs, a straight pull runs from left to right, an angle
pull from left to top, a U pull on the left: one name of a wall is as good as another for one pull.
Raceways of one wall are in one row unless rows were said, which makes the largest box.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import count

from boxaloud.assistant.dialogue.enclosures.pull_cables import sized
from boxaloud.assistant.dialogue.enclosures.pull_open import kind_of, lone, walls_of
from boxaloud.assistant.dialogue.enclosures.pull_state import PullBoxSaid, Pulled, PullSaid
from boxaloud.rules import Pull, PullBox, Raceway, RulesError
from boxaloud.rules.pull import OPPOSITE, Wall, shown

LARGEST_CONDUCTOR = "2000"
DEFAULT: dict[PullSaid, tuple[Wall, Wall]] = {
    "straight": ("left", "right"),
    "angle": ("left", "top"),
    "u": ("left", "left"),
    "splice": ("left", "top"),
}
PLACED: dict[str, tuple[Wall, Wall]] = {
    "opposite": ("left", "right"),
    "adjacent": ("left", "top"),
    "same": ("left", "left"),
}


@dataclass(frozen=True, slots=True)
class _Entry:
    """One raceway at one wall."""

    size: Fraction
    wall: Wall
    row: int


@dataclass(slots=True)
class _Making:
    raceways: list[Raceway]
    pulls: list[Pull]
    numbers: count[int]
    conductor: str

    def raceway(self, entry: _Entry) -> str:
        """A raceway of the box; its name tells its size and wall."""
        name = f"{shown(entry.size)} inch {entry.wall} {next(self.numbers)}"
        self.raceways.append(Raceway(name, entry.size, entry.wall, entry.row))
        return name

    def pull(self, kind: PullSaid, one: _Entry, other: _Entry) -> None:
        """Two raceways, and the pull between them."""
        self.pulls.append(Pull(kind, self.raceway(one), self.raceway(other), self.conductor))

    def beside(self, kind: PullSaid, entry: _Entry, partner: str) -> None:
        """A raceway whose conductors go to one that has a pull already."""
        self.pulls.append(Pull(kind, self.raceway(entry), partner, self.conductor))


def built(said: PullBoxSaid, assumed: frozenset[str]) -> PullBox:
    """The pull box as the rules have it. Nothing that a dimension hangs on may be missing."""
    conductor = said.conductor or (LARGEST_CONDUCTOR if "pull_conductor" in assumed else "")
    said = sized(said, assumed)
    making = _Making([], [], count(1), conductor)
    one_row = said.rows == 1 or "pull_rows" in assumed
    for pulled in said.pulls:
        _build(making, pulled, one_row)
    removable = said.cover is not False and "pull_cover" not in assumed
    return PullBox(tuple(making.raceways), tuple(making.pulls), removable)


def _build(making: _Making, pulled: Pulled, one_row: bool) -> None:
    kind = kind_of(pulled)
    if kind is None:
        raise ValueError("a pull whose kind is open has no geometry")
    start, end = _walls(pulled, kind)
    _check(kind, walls_of(pulled))
    singles: dict[Wall, list[_Entry]] = defaultdict(list)
    named = {one.wall for one in pulled.entering if one.wall and not one.to}
    for one in pulled.entering:
        size = Fraction(one.size or Decimal(0))
        row = 1 if one_row or one.row is None else one.row
        for _ in range(one.count):
            if one.end is not None or (one.wall is not None and one.to is None):
                wall = one.wall or (start if one.end == "in" else end)
                if len(named) == 1 and kind in ("straight", "angle") and one.end is None:
                    out = _next(wall, kind)
                    making.pull(kind, _Entry(size, wall, row), _Entry(size, out, row))
                else:
                    singles[wall].append(_Entry(size, wall, row))
            elif one.wall is not None and one.to is not None:
                making.pull(kind, _Entry(size, one.wall, row), _Entry(size, one.to, row))
            elif start == end and (kind == "splice" or lone(pulled)):
                singles[start].append(_Entry(size, start, row))
            else:
                making.pull(kind, _Entry(size, start, row), _Entry(size, end, row))
    _pair(making, kind, singles)


def _check(kind: PullSaid, walls: list[Wall]) -> None:
    """Two walls named that do not make the pull named are refused, as the rules refuse them."""
    if len(walls) != 2 or kind not in ("straight", "angle"):
        return
    facing = OPPOSITE.get(walls[0]) == walls[1]
    if facing != (kind == "straight"):
        raise RulesError(f"From the {walls[0]} wall to the {walls[1]} wall is no {kind} pull.")


def _walls(pulled: Pulled, kind: PullSaid) -> tuple[Wall, Wall]:
    """The two walls of a pull; of one wall named, the other is that which the kind leads to."""
    if kind == "u":
        named = walls_of(pulled)
        return (named[0], named[0]) if named else DEFAULT["u"]
    if pulled.walls:
        first = pulled.walls[0]
        return first, pulled.walls[1] if len(pulled.walls) > 1 else _next(first, kind)
    return PLACED[pulled.placing] if kind == "splice" and pulled.placing else DEFAULT[kind]


def _next(wall: Wall, kind: PullSaid) -> Wall:
    if kind in ("straight", "splice"):
        return OPPOSITE.get(wall, wall)
    return "left" if wall in ("top", "bottom", "back") else "top"


def _pair(making: _Making, kind: PullSaid, singles: dict[Wall, list[_Entry]]) -> None:
    """Raceways named wall by wall: the largest of one wall goes to the largest of the other."""
    if kind == "u":
        for entries in singles.values():
            _along(making, kind, _by_size(entries))
        return
    if len(singles) == 1 and kind == "splice":
        _along(making, kind, _by_size(next(iter(singles.values()))))
        return
    for ones, others in _facing(kind, singles):
        _across(making, kind, _by_size(ones), _by_size(others))


def _facing(
    kind: PullSaid, singles: dict[Wall, list[_Entry]]
) -> list[tuple[list[_Entry], list[_Entry]]]:
    """The raceways that may be joined with each other."""
    if kind == "straight":
        pairs: tuple[tuple[Wall, Wall], ...] = (("left", "right"), ("top", "bottom"))
        return [(singles.get(a, []), singles.get(b, [])) for a, b in pairs]
    if kind == "angle":
        sides = [*singles.get("left", []), *singles.get("right", [])]
        rest = [e for w in ("top", "bottom", "back") for e in singles.get(w, [])]
        if not sides:
            return [(singles.get("back", []), [e for e in rest if e.wall != "back"])]
        return [(sides, rest)]
    first, *others = singles.values() if singles else [[]]
    return [(first, [entry for entries in others for entry in entries])]


def _across(making: _Making, kind: PullSaid, ones: list[_Entry], others: list[_Entry]) -> None:
    if len(ones) < len(others):
        ones, others = others, ones
    if not ones:
        return
    if not others:
        for entry in ones:
            out = _Entry(entry.size, _next(entry.wall, kind), entry.row)
            making.pull(kind, entry, out)
        return
    for one, other in zip(ones, others, strict=False):
        making.pull(kind, one, other)
    partner = making.raceways[-2 * len(others) + 1].name
    for entry in ones[len(others) :]:
        making.beside(kind, entry, partner)


def _along(making: _Making, kind: PullSaid, entries: list[_Entry]) -> None:
    """Entries of one wall two by two; one left over goes to the one before it."""
    pairs = zip(entries[::2], entries[1::2], strict=False)
    for one, other in pairs:
        making.pull(kind, one, other)
    if len(entries) % 2 and making.raceways and len(entries) > 1:
        making.beside(kind, entries[-1], making.raceways[-1].name)
    elif len(entries) == 1 and kind == "u":
        making.pull(kind, entries[0], entries[0])  # its conductors come out beside it
    elif len(entries) == 1:
        name = making.raceway(entries[0])
        making.pulls.append(Pull(kind, name, name, making.conductor))


def _by_size(entries: list[_Entry]) -> list[_Entry]:
    return sorted(entries, key=lambda entry: entry.size, reverse=True)
