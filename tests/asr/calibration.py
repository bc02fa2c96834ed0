"""How far a probability is what it says: a reliability diagram as a table of text, and the
expected calibration error (Naeini and others, 2015; Guo and others, 2017, section 2)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

BINS = 10
BAR = 30

Row = tuple[float, bool]


def calibration_error(rows: Sequence[Row]) -> float:
    """The mean distance, over ten bins, of how often it was right from what was foretold."""
    whole = len(rows)
    return sum(
        len(inside) * abs(_right(inside) - _foretold(inside)) / whole for inside in _bins(rows)
    )


def diagram(rows: Sequence[Row]) -> str:
    """A line for each bin: what was foretold, how often it was right, and how many there were."""
    lines = ["| foretold | right | of | |", "| --- | --- | --- | --- |"]
    for inside in _bins(rows):
        right = _right(inside)
        bar = "#" * round(BAR * right)
        lines.append(f"| {_foretold(inside):.2f} | {right:.2f} | {len(inside)} | {bar} |")
    return "\n".join(lines)


def _bins(rows: Sequence[Row]) -> Iterator[list[Row]]:
    for place in range(BINS):
        inside = [row for row in rows if min(BINS - 1, int(row[0] * BINS)) == place]
        if inside:
            yield inside


def _right(rows: Sequence[Row]) -> float:
    return sum(right for _, right in rows) / len(rows)


def _foretold(rows: Sequence[Row]) -> float:
    return sum(likely for likely, _ in rows) / len(rows)
