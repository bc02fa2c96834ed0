"""The verdict, the margin and its unit as large as the room allows, pure."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from boxaloud.assistant.tui.presenters.glyphs import (
    Brush,
    beside,
    brushes,
    large,
    shape,
    width_of,
)
from boxaloud.assistant.tui.presenters.verdict_view import Glance


def drawn(shown: Glance, width: int, height: int) -> list[str]:
    """The rows of the glance in the tallest letters that fit, else one plain line."""
    return tallest(shown, width, height)[1]


def tallest(shown: Glance, width: int, height: int) -> tuple[int, list[str]]:
    """The rows that the letters take (1 where they are plain), and the drawing.

    The word, the margin, its plus and its unit are drawn whole or not at all; the shape, which
    says what the word says, gives way to taller letters, and wider ones give way to it.
    """
    for _, same in groupby(brushes(height), key=lambda brush: brush.height):
        alike = list(same)
        for with_shape in (True, False):
            for brush in alike:
                for rows in _arranged(shown, brush, with_shape):
                    if len(rows) <= height and width_of(rows) <= width:
                        return brush.height, rows
    return 1, [shown.tiny][: max(height, 0)]


def _arranged(shown: Glance, brush: Brush, with_shape: bool) -> Iterator[list[str]]:
    """The ways to set the parts out: in a row, else one under the other."""
    word, gap = large(shown.word, brush), 3 * brush.inner
    if with_shape:
        word = beside(shape(shown.mark, brush), word, gap=gap)
    if not shown.margin:
        yield word
        return
    margin = figure(shown.figure, brush, shown.unit)
    yield beside(word, margin, gap=gap)
    yield [*word, "", *margin]


def figure(shown: str, brush: Brush, unit: str) -> list[str]:
    """A volume drawn large, with its unit at its foot: plain while letters are small."""
    small = [unit] if brush.rows == 1 else large(unit, brush.half)
    return beside(large(shown, brush), small, gap=brush.inner)
