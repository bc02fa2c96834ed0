"""The fill drawn to scale: a run of blocks for each kind of content, and the capacity line.

Kinds differ by the pattern of their blocks, never by colour. The drawing never lies at the
line: a fill that meets the capacity exactly touches it, one over passes it, one under stops
short of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from boxaloud.assistant.dialogue.assessment import Assessment
from boxaloud.assistant.dialogue.nlg.sentences import marked, volume
from boxaloud.assistant.tui.tui_messages import text

PATTERNS = {
    "conductors": "█",
    "pass_through": "▉",
    "loops": "▊",
    "fixture_wires": "▞",
    "clamps": "▚",
    "support_fittings": "▙",
    "yokes": "▓",
    "grounds": "▒",
    "isolated_grounds": "░",
    "terminal_blocks": "▛",
    "wire_connectors": "▜",
}
"""Block of each worksheet item."""

MAYBE, ROOM, LINE, BEYOND = "?", "·", "┃", " "
NARROWEST = 10
"""Columns under which nothing is drawn."""
THICKEST = 3
"""Rows of the bar at most."""
HEADROOM = Decimal("1.08")
"""The scale ends this far past the larger of fill and capacity."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """The bar and the two lines under it."""

    bar: str
    scale: str
    legend: tuple[str, ...]
    """What each pattern means, kind by kind."""


@dataclass(frozen=True, slots=True)
class Ruler:
    """Columns for volumes: to scale, and never on the wrong side of the capacity line."""

    top: Decimal
    width: int
    capacity: Decimal | None

    @property
    def line(self) -> int:
        """The column of the capacity line."""
        return min(max(self._scaled(self.capacity or Decimal(0)), 1), self.width - 2)

    def end(self, value: Decimal) -> int:
        """The column at which a fill of `value` cubic inches ends."""
        column = self._scaled(value)
        if self.capacity is None:
            return column
        if value > self.capacity:
            return max(column, self.line + 1)
        return self.line if value == self.capacity else min(column, self.line - 1)

    def _scaled(self, value: Decimal) -> int:
        return int((value / self.top * (self.width - 1)).to_integral_value())


def draw(found: Assessment, width: int) -> Drawing:
    """Draw a worksheet `width` columns wide."""
    capacity = found.sheet.capacity
    top = max(found.high, found.sheet.total, capacity or Decimal(0)) * HEADROOM
    if top == 0 or width < NARROWEST:
        return Drawing(ROOM * max(width, 0), text("fill.empty")[:width], ())
    ruler = Ruler(top, width, capacity)
    cells = _runs(found, ruler)
    if capacity is None:
        return Drawing(cells, text("fill.no_capacity")[:width], _legend(found))
    line = ruler.line
    bar = cells[:line] + LINE + cells[line:].replace(ROOM, BEYOND)
    return Drawing(bar, _scale(found, capacity, line, width), _legend(found))


def _runs(found: Assessment, ruler: Ruler) -> str:
    """The blocks of each kind up to the total, then what is still open, then room."""
    cells, at = "", Decimal(0)
    for item, subtotal in _items(found):
        at += subtotal
        cells = cells.ljust(ruler.end(at), PATTERNS.get(item, "█"))
    cells = cells.ljust(ruler.end(found.high), MAYBE)
    return cells.ljust(ruler.width - 1, ROOM)


def _items(found: Assessment) -> Iterator[tuple[str, Decimal]]:
    seen: dict[str, Decimal] = {}
    for line in found.sheet.lines:
        if line.subtotal:
            seen[line.item] = seen.get(line.item, Decimal(0)) + line.subtotal
    yield from seen.items()


def _scale(found: Assessment, capacity: Decimal, line: int, width: int) -> str:
    """The figures under the bar, the capacity's right at its line."""
    if found.low == found.high:
        filled = text("fill.total", volume=volume(found.sheet.total))
    else:
        filled = text("fill.range", low=volume(found.low), high=volume(found.high))
    label = text("fill.capacity", volume=marked(capacity)) + " ┃"
    start = max(line + 1 - len(label), len(filled) + 2)
    if start + len(label) > width:
        return f"{filled}  {label}"[:width]
    return filled.ljust(start) + label


def legend_rows(kinds: Sequence[str], width: int) -> list[str]:
    """The legend in rows; no kind is broken across two."""
    rows: list[str] = []
    for kind in kinds:
        if rows and len(rows[-1]) + 2 + len(kind) <= width:
            rows[-1] += f"  {kind}"
        else:
            rows.append(kind)
    return rows


def rows_of_fill(found: Assessment, width: int, height: int) -> list[str]:
    """The bar, its figures and the whole legend; with more rows than that, a thicker bar.

    Where rows lack the legend goes first, and then the figures.
    """
    drawing = draw(found, width)
    legend = legend_rows(drawing.legend, width)
    under = [drawing.scale, *legend] if 2 + len(legend) <= height else [drawing.scale]
    under = under[: max(height - 1, 0)]
    bars = [drawing.bar] * max(min(height - len(under), THICKEST), 1)
    return [row[:width] for row in (*bars, *under)]


def _legend(found: Assessment) -> tuple[str, ...]:
    kinds = [
        f"{PATTERNS.get(item, '█') * 2} {text(f'fill.name.{item}')} {volume(each)}"
        for item, each in _items(found)
    ]
    if found.high > found.sheet.total:
        still = volume(found.high - found.sheet.total)
        kinds.append(text("fill.open", mark=MAYBE * 2, volume=still))
    return tuple(kinds)
