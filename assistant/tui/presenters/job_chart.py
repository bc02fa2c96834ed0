"""The boxes of a job by margin: a bar each, and the one line that none may pass."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.tui.presenters.list_rows import Row
from boxaloud.assistant.tui.presenters.verdict_view import glance
from boxaloud.assistant.tui.tui_messages import text

FILL, MAYBE, ROOM, LINE = "█", "?", "·", "┃"
MOST_SHARE = Decimal(2)
"""A fill of more than twice the capacity is drawn as twice."""
LONGEST_NAME = 24
FIGURES = 18
"""Columns kept for the verdict and the pointer."""


@dataclass(frozen=True, slots=True)
class Bar:
    """A box: its verdict, the figure shown, and fill and capacity in its unit."""

    name: str
    verdict: str
    figure: str
    low: Decimal
    high: Decimal
    capacity: Decimal | None
    unit: str = "in³"
    code: str = ""
    """The code, where it must stand with every verdict."""

    @property
    def order(self) -> tuple[bool, Decimal]:
        """The box that is furthest over first; those without a verdict last."""
        if self.verdict == "incomplete" or self.capacity is None:
            return True, Decimal(0)
        return False, self.capacity - (self.low if self.verdict == "over" else self.high)

    def share(self, volume: Decimal) -> Decimal:
        """A volume as a share of the capacity."""
        return min(volume / self.capacity, MOST_SHARE) if self.capacity else Decimal(0)


def bar_of(talk: Talk) -> Bar:
    """The bar of a box."""
    found = talk.assessment
    shown = glance(found)
    capacity = found.sheet.capacity
    return Bar(
        talk.name,
        shown.verdict,
        shown.figure,
        found.low,
        found.high,
        capacity,
        shown.unit,
        shown.code,
    )


def sorted_bars(bars: Iterable[Bar]) -> list[Bar]:
    """The bars by margin."""
    return sorted(bars, key=lambda bar: bar.order)


def tally(bars: Sequence[Bar]) -> str:
    """How many boxes are over, fit, and are not worked out yet."""
    verdicts = [bar.verdict for bar in bars]
    kinds = ("over", "fits", "incomplete")
    return text("chart.tally", **{kind: verdicts.count(kind) for kind in kinds})


def chart_rows(bars: Iterable[Bar], width: int) -> list[Row]:
    """A row a box, `width` columns with its figures, about the name of its box."""
    found = sorted_bars(bars)
    longest = min(max((len(bar.name) for bar in found), default=0), LONGEST_NAME, width // 3)
    coded = max((len(bar.code) + 3 for bar in found if bar.code), default=0)
    room = max(width - longest - FIGURES - coded - 4, 6)
    top = max((bar.share(bar.high) for bar in found if bar.capacity), default=Decimal(1))
    line = int((room - 2) / max(top, Decimal(1)))
    rows = []
    for bar in found:
        name = bar.name if len(bar.name) <= longest else bar.name[: longest - 1] + "…"
        mark = text(f"verdict.mark.{bar.verdict}")
        left = f"{mark} {name.ljust(longest)} {_cells(bar, line, room)}"
        told = text(f"chart.{bar.verdict}", margin=bar.figure, unit=bar.unit)
        if bar.code:
            told = text("verdict.coded", words=told, code=bar.code)
        rows.append(Row(left, told, bar.name))
    return rows


def _cells(bar: Bar, line: int, room: int) -> str:
    """The bar, on the same side of the line as its figures."""
    if not bar.capacity:
        return text("chart.no_capacity")[:room]
    full, maybe = (_column(bar, volume, line, room) for volume in (bar.low, bar.high))
    cells = (FILL * full).ljust(maybe, MAYBE)
    inside = cells[:line].ljust(line, ROOM)
    return f"{inside}{LINE}{cells[line:]}"[:room]


def _column(bar: Bar, volume: Decimal, line: int, room: int) -> int:
    if not bar.capacity:
        return 0
    at = int((bar.share(volume) * line).to_integral_value())
    if volume > bar.capacity:
        return min(max(at, line + 1), room - 1)
    return line if volume == bar.capacity else min(at, line - 1)
