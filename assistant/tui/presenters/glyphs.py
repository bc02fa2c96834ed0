"""Very large characters: words, figures and shapes as rows of blocks."""

from __future__ import annotations

from boxaloud.assistant.tui.tui_messages import table

ROWS = 5
"""Rows of a glyph at scale one."""

INK, BLANK = "█", " "


def _block(rows: list[str], scale: int) -> list[str]:
    """A drawing made `scale` times larger: a dot is two columns by one row at scale one."""
    wide = ["".join((INK if dot == "#" else BLANK) * (2 * scale) for dot in row) for row in rows]
    return [row for row in wide for _ in range(scale)]


def large(words: str, scale: int = 1) -> list[str]:
    """`words` drawn large; a character without a drawing is left as a gap."""
    glyphs: dict[str, list[str]] = table("glyphs")["glyph"]
    drawn = [_block(glyphs.get(character, glyphs[" "]), scale) for character in words.upper()]
    gap = BLANK * scale
    return [gap.join(glyph[row] for glyph in drawn) for row in range(ROWS * scale)]


def shape(verdict: str, scale: int = 1) -> list[str]:
    """The shape that goes with a verdict."""
    drawing: list[str] = table("glyphs")["shape"][verdict]
    return _block(drawing, scale)


def width_of(rows: list[str]) -> int:
    """Columns that a drawing takes."""
    return max((len(row) for row in rows), default=0)


def beside(*drawings: list[str], gap: int = 3) -> list[str]:
    """Drawings side by side, each kept to its own width."""
    height = max(len(drawing) for drawing in drawings)
    columns = [_filled(drawing, height) for drawing in drawings]
    return [(" " * gap).join(rows).rstrip() for rows in zip(*columns, strict=True)]


def _filled(drawing: list[str], height: int) -> list[str]:
    """A drawing filled out to its own width and to `height` rows."""
    width = width_of(drawing)
    rows = [row.ljust(width) for row in drawing]
    return rows + [BLANK * width] * (height - len(rows))
