"""Very large characters: words, figures and shapes as rows of blocks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from boxaloud.assistant.tui.tui_messages import table

ROWS = 5
"""Dots of a glyph from top to bottom."""

INK, BLANK = "█", " "
LARGEST = 12
"""The tallest dot, in rows: a letter of sixty rows fills any terminal."""


@dataclass(frozen=True, slots=True)
class Brush:
    """The size of a dot: columns at the rim of a letter, columns within it, rows."""

    rim: int = 2
    inner: int = 2
    rows: int = 1

    @property
    def height(self) -> int:
        """Rows that a letter takes."""
        return ROWS * self.rows

    @property
    def half(self) -> Brush:
        """A brush of half the height, for a unit beside its figure."""
        tall = max(self.rows // 2, 1)
        return Brush(tall, tall, tall)

    def widths(self, dots: int) -> list[int]:
        """The columns of each dot in a row of so many."""
        return [self.rim if at in (0, dots - 1) else self.inner for at in range(dots)]


def brushes(tallest: int) -> Iterator[Brush]:
    """Every brush whose letters take `tallest` rows or fewer: tall before low, wide before slim."""
    for rows in range(min(tallest // ROWS, LARGEST), 0, -1):
        yield Brush(2 * rows, 2 * rows, rows)
        yield Brush(2 * rows, rows, rows)
        if rows > 1:
            yield Brush((3 * rows + 1) // 2, rows, rows)
        yield Brush(rows, rows, rows)


def _block(drawing: list[str], brush: Brush, even: bool = False) -> list[str]:
    """A drawing in this brush; `even` makes every dot as wide as those at the rim."""
    widths = [brush.rim] * len(drawing[0]) if even else brush.widths(len(drawing[0]))
    wide = [
        "".join(
            (INK if dot == "#" else BLANK) * columns
            for dot, columns in zip(row, widths, strict=True)
        )
        for row in drawing
    ]
    return [row for row in wide for _ in range(brush.rows)]


def large(words: str, brush: Brush = Brush()) -> list[str]:
    """`words` drawn large; a character without a drawing is left as a gap."""
    glyphs: dict[str, list[str]] = table("glyphs")["glyph"]
    drawn = [_block(glyphs.get(character, glyphs[" "]), brush) for character in words]
    gap = BLANK * brush.inner
    return [gap.join(glyph[row] for glyph in drawn) for row in range(brush.height)]


def shape(verdict: str, brush: Brush = Brush()) -> list[str]:
    """The shape that goes with a verdict."""
    drawing: list[str] = table("glyphs")["shape"][verdict]
    return _block(drawing, brush, even=True)


def width_of(rows: list[str]) -> int:
    """Columns that a drawing takes."""
    return max((len(row) for row in rows), default=0)


def beside(*drawings: list[str], gap: int = 3) -> list[str]:
    """Drawings side by side on one foot, each kept to its own width."""
    height = max(len(drawing) for drawing in drawings)
    columns = [_filled(drawing, height) for drawing in drawings]
    return [(" " * gap).join(rows).rstrip() for rows in zip(*columns, strict=True)]


def _filled(drawing: list[str], height: int) -> list[str]:
    """A drawing filled out to its own width and, above it, to `height` rows."""
    width = width_of(drawing)
    rows = [row.ljust(width) for row in drawing]
    return [BLANK * width] * (height - len(rows)) + rows
