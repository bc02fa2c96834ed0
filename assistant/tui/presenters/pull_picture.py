"""A pull box from the front, to scale, in characters (`rules.pull_front` says what stands where).

A cell is taken as twice as tall as it is wide (common practice of terminals). What cannot be drawn
to scale in the room that there is, is not drawn. Rows of a wall differ by their pattern, never by
colour.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from boxaloud.rules.pull import shown
from boxaloud.rules.pull_front import Entry, Front

BLOCKS = ("▒", "█")
"""Of a raceway by its row, the second and the first."""
ROUND = "○"
"""Of a raceway in the back wall."""
STUB = 3
"""Columns of a raceway outside of its wall; one row where it comes in from above or below."""
LEAST = 4
"""Rows of a box under which nothing is drawn."""


@dataclass(frozen=True, slots=True)
class _Place:
    """The box on the grid: its first column and row, its columns and rows, columns an inch."""

    left: int
    top: int
    across: int
    down: int
    scale: Fraction


def drawn(front: Front, width: int, height: int) -> list[str]:
    """The rows of the drawing, `width` by `height` at most; none where it would not be to scale."""
    place = _placed(front, width, height)
    if place is None:
        return []
    grid = _Grid(width, height)
    grid.frame(place)
    for entry in front.entries:
        if not _draw(grid, place, entry):
            return []
    _sides(grid, place, front)
    return grid.rows()


def _placed(front: Front, width: int, height: int) -> _Place | None:
    walls = {wall: [e for e in front.entries if e.raceway.wall == wall] for wall in _WALLS}
    beside = {side: _margin(walls[side]) for side in ("left", "right")}
    over = {side: 2 if walls[side] else 0 for side in ("top", "bottom")}
    room = width - beside["left"] - beside["right"], height - over["top"] - over["bottom"]
    if room[0] < 2 * LEAST or room[1] < LEAST:
        return None
    scale = min(room[0] / front.wide, 2 * room[1] / front.high)
    down = int(scale * front.high / 2)
    scale = 2 * down / front.high
    across = round(scale * front.wide)
    if down < LEAST or across < 2 * LEAST:
        return None
    return _Place(beside["left"], over["top"], across, down, scale)


_WALLS = ("left", "right", "top", "bottom", "back")


def _margin(entries: list[Entry]) -> int:
    """Columns beside a wall: its longest size, a gap and the raceway."""
    return max((len(shown(e.size)) + 1 + STUB for e in entries), default=0)


class _Grid:
    """Cells that are written once: what would stand on something else is refused."""

    def __init__(self, width: int, height: int) -> None:
        self._cells = [[" "] * width for _ in range(height)]

    def put(self, column: int, row: int, text: str) -> bool:
        """Write where nothing stands yet; False, and nothing written, where something does."""
        cells = self._cells[row][column : column + len(text)]
        if len(cells) < len(text) or column < 0 or any(cell != " " for cell in cells):
            return False
        self._cells[row][column : column + len(text)] = text
        return True

    def frame(self, place: _Place) -> None:
        """The walls of the box."""
        flat = "─" * (place.across - 2)
        foot = place.top + place.down - 1
        self.put(place.left, place.top, f"┌{flat}┐")
        self.put(place.left, foot, f"└{flat}┘")
        for row in range(place.top + 1, foot):
            self.put(place.left, row, "│")
            self.put(place.left + place.across - 1, row, "│")

    def rows(self) -> list[str]:
        """The drawing without the blanks behind and under it."""
        rows = ["".join(cells).rstrip() for cells in self._cells]
        while rows and not rows[-1]:
            rows.pop()
        return rows


def _draw(grid: _Grid, place: _Place, entry: Entry) -> bool:
    """A raceway and its size; False where it would stand on another."""
    block = BLOCKS[entry.raceway.row % 2]
    wall, label = entry.raceway.wall, shown(entry.size)
    wide, tall = _cells(entry.size * place.scale), _cells(entry.size * place.scale / 2)
    column = place.left + _first(entry.across * place.scale, wide)
    row = place.top + _first(entry.down * place.scale / 2, tall)
    behind = place.left + place.across
    match wall:
        case "left" | "right":
            start = place.left - STUB if wall == "left" else behind
            beside = place.left - STUB - 1 - len(label) if wall == "left" else behind + STUB + 1
            lines = range(row, row + tall)
            good = all(grid.put(start, line, block * STUB) for line in lines)
            return good and grid.put(beside, row + tall // 2, label)
        case "top" | "bottom":
            line = place.top - 1 if wall == "top" else place.top + place.down
            far = line - 1 if wall == "top" else line + 1
            middle = column + (wide - len(label)) // 2
            return grid.put(column, line, block * wide) and grid.put(middle, far, label)
        case "back":
            return all(grid.put(column, line, ROUND * wide) for line in range(row, row + tall))


def _cells(length: Fraction) -> int:
    return max(round(length), 1)


def _first(middle: Fraction, cells: int) -> int:
    """The first of so many cells that have their middle there."""
    return ceil(middle - Fraction(cells, 2))


def _sides(grid: _Grid, place: _Place, front: Front) -> None:
    """How wide and how high, inside along the walls, where a pull sets it."""
    wide, high = shown(front.wide), shown(front.high)
    if front.wide_set:
        grid.put(place.left + (place.across - len(wide)) // 2, place.top + 1, wide)
    if front.high_set:
        grid.put(place.left + 2, place.top + place.down // 2, high)
