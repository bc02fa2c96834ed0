"""Words broken into rows of a width, and cut with a mark where there are too few rows."""

from __future__ import annotations

import re

from boxaloud.assistant.tui.tui_messages import text
from rich.cells import cell_len, set_cell_size

_BREAK = re.compile(r"(?<!×) (?!×)")
"""A space at which a row may end: never within a size (4 × 1-1/2)."""


def wrapped(words: str, width: int) -> list[str]:
    """The rows that the words take, broken between words wherever a word fits the width."""
    rows: list[str] = []
    for paragraph in words.split("\n"):
        row = ""
        for word in _BREAK.split(paragraph):
            row, longer = word if not row else f"{row} {word}", row
            if cell_len(row) > width and longer:
                rows.append(longer)
                row = word
            while cell_len(row) > max(width, 1):
                piece = set_cell_size(row, max(width, 1)).rstrip() or row[:1]
                rows.append(piece)
                row = row[len(piece) :]
        rows.append(row)
    return rows


def fitted(words: str, width: int, rows: int, mark: str = "") -> str:
    """The words in so many rows; a mark at their end says where the rest is to be seen."""
    whole = wrapped(words, width)
    if len(whole) <= rows:
        return "\n".join(whole)
    if rows < 1:
        return ""
    mark = mark or text("cut.mark")
    room = width - cell_len(mark)
    last = wrapped(whole[rows - 1], room)[0] if room > 0 else ""
    return "\n".join([*whole[: rows - 1], (last + mark)[: max(width, 1)]])
