"""The fill drawn to scale: a run of blocks for each kind of content, and the capacity line.

Kinds differ by the pattern of their blocks, never by colour. The drawing never lies at the
line: a fill that meets the capacity exactly touches it, one over passes it, one under stops
short of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from assistant.conversation.assessing import Assessment
from assistant.conversation.saying import marked, volume
from assistant.screen.wording import text

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
}
"""Block of each worksheet item."""

MAYBE, ROOM, LINE, BEYOND = "?", "·", "┃", " "
HEADROOM = Decimal("1.08")
"""The scale ends this far past the larger of fill and capacity."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """The bar and the two lines under it."""

    bar: str
    scale: str
    legend: str


def draw(found: Assessment, width: int) -> Drawing:
    """Draw a worksheet `width` columns wide."""
    sheet = found.sheet
    capacity = sheet.capacity
    top = max(found.high, sheet.total, capacity or Decimal(0)) * HEADROOM
    if top == 0 or width < 10:
        return Drawing(ROOM * max(width, 0), text("fill.empty")[:width], "")
    cells = _runs(found, top, width)
    if capacity is None:
        return Drawing(cells, text("fill.no_capacity")[:width], _legend(found))
    line = _at(capacity, top, width)
    total_end = len(cells.rstrip(ROOM))
    low = max(found.low, sheet.total)
    cells = _true_at_line(cells, line, low, found.high, capacity, total_end)
    bar = cells[:line] + LINE + cells[line:].replace(ROOM, BEYOND)
    return Drawing(bar[:width], _scale(found, capacity, line, width), _legend(found))


def _at(value: Decimal, top: Decimal, width: int) -> int:
    """Columns from the left for a volume."""
    return int((value / top * (width - 1)).to_integral_value())


def _runs(found: Assessment, top: Decimal, width: int) -> str:
    """The blocks of each kind up to the total, then what is still open, then room."""
    cells, at = "", Decimal(0)
    for item, subtotal in _items(found):
        at += subtotal
        cells = cells.ljust(_at(at, top, width), PATTERNS.get(item, "█"))
    if found.high > at:
        cells = cells.ljust(_at(found.high, top, width), MAYBE)
    return cells.ljust(width - 1, ROOM)


def _items(found: Assessment) -> Iterator[tuple[str, Decimal]]:
    seen: dict[str, Decimal] = {}
    for line in found.sheet.lines:
        if line.subtotal:
            seen[line.item] = seen.get(line.item, Decimal(0)) + line.subtotal
    yield from seen.items()


def _true_at_line(
    cells: str, line: int, low: Decimal, high: Decimal, capacity: Decimal, end: int
) -> str:
    """Rounding to columns must not move the fill across the capacity line."""
    if end <= line and low > capacity:
        last = cells[end - 1 : end] or MAYBE
        return cells[:end] + last * (line + 1 - end) + cells[line + 1 :]
    if end >= line and high < capacity:
        return cells[: line - 1] + ROOM + ROOM * (len(cells) - line)
    if end > line and high == capacity:
        return cells[:line] + ROOM * (len(cells) - line)
    return cells


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


def _legend(found: Assessment) -> str:
    kinds = [
        f"{PATTERNS.get(item, '█') * 2} {text(f'fill.name.{item}')} {volume(each)}"
        for item, each in _items(found)
    ]
    if found.high > found.sheet.total:
        still = volume(found.high - found.sheet.total)
        kinds.append(text("fill.open", mark=MAYBE * 2, volume=still))
    return "  ".join(kinds)
