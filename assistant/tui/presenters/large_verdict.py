"""The verdict, the margin and its unit as large as the room allows, pure."""

from __future__ import annotations

from collections.abc import Iterator

from boxaloud.assistant.tui.presenters.glyphs import (
    Brush,
    beside,
    brushes,
    large,
    shape,
    width_of,
)
from boxaloud.assistant.tui.presenters.verdict_view import Glance
from boxaloud.assistant.tui.tui_messages import text


def drawn(shown: Glance, width: int, height: int) -> list[str]:
    """The rows of the glance in the tallest letters that fit, else one plain line."""
    return tallest(shown, width, height)[1]


def tallest(shown: Glance, width: int, height: int) -> tuple[int, list[str]]:
    """The rows that the letters take (1 where they are plain), and the drawing.

    The word, the margin, its plus and its unit are drawn whole or not at all; the shape, which
    says what the word says, is the first to give way.
    """
    for brush in brushes(height):
        for rows in _arranged(shown, brush):
            if len(rows) <= height and width_of(rows) <= width:
                return brush.height, rows
    return 1, [shown.tiny][: max(height, 0)]


def _arranged(shown: Glance, brush: Brush) -> Iterator[list[str]]:
    """The ways to set the parts out, the fullest first: in a row, else one under the other."""
    word, gap = large(shown.word, brush), 3 * brush.inner
    marked = beside(shape(shown.verdict, brush), word, gap=gap)
    if not shown.margin:
        yield from (marked, word)
        return
    margin = figure(shown.figure, brush)
    for first in (marked, word):
        yield beside(first, margin, gap=gap)
    for first in (marked, word):
        yield [*first, "", *margin]


def figure(shown: str, brush: Brush) -> list[str]:
    """A volume drawn large, with its unit at its foot: plain while letters are small."""
    unit = text("verdict.unit")
    small = [unit] if brush.rows == 1 else large(unit, brush.half)
    return beside(large(shown, brush), small, gap=brush.inner)
