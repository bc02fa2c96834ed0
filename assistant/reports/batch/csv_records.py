"""CSV cut into records, so that what is wrong with one cannot swallow those behind it.

A quoted cell may go over several lines (RFC 4180, section 2). Where its quotation mark is never
closed, or closed by one that opens another row's cell, only the line it began on is given up:
reading goes on with the very next line.
"""

from __future__ import annotations

import csv
from collections import deque
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

MOST_LINES = 64
"""Lines that one cell may go over."""
LEAST_WIDTH = 4
"""Cells of a row from which on a line of a cell with as many commas is taken for a row: what is
said in plain words has a comma or two in a line as well."""
LONGEST = 1_000_000
"""Characters in one record. A longer one is no box."""


@dataclass(frozen=True, slots=True)
class Record:
    """The cells of a record, the line it begins on, and what is wrong with it, if anything is."""

    line: int
    cells: list[str]
    problem: str = ""


class Records:
    """The records of a CSV text, one at a time. `width` is how many cells one has; 0: any."""

    def __init__(self, stream: Iterable[str]) -> None:
        self.width = 0
        self._stream = iter(stream)
        self._again: deque[str] = deque()
        self._line = 0

    def __iter__(self) -> Iterator[Record]:
        while (first := self._next()) is not None:
            yield self._record(first)

    def _next(self) -> str | None:
        text = self._again.popleft() if self._again else next(self._stream, None)
        if text is not None:
            self._line += 1
        return text

    def _record(self, first: str) -> Record:
        line, held = self._line, [first]
        if len(first) >= LONGEST:
            return Record(line, [], f"The row is longer than {LONGEST} characters.")
        try:
            cells = _plain(first) or next(csv.reader(self._from(held), strict=True), [])
        except csv.Error as fault:
            self._put_back(held)
            return Record(line, [], _why(str(fault), len(held)))
        if len(held) > 1 and self.width and (len(cells) != self.width or self._swallows(held)):
            self._put_back(held)
            return Record(line, [], _why("", len(held)))
        if self.width and len(cells) > self.width:
            return Record(line, cells, f"The row has {len(cells)} cells for {self.width} columns.")
        return Record(line, cells)

    def _from(self, held: list[str]) -> Iterator[str]:
        """The lines of a record, each noted in `held`, as far as one may go."""
        yield held[0]
        size = len(held[0])
        while len(held) < MOST_LINES and size < LONGEST:
            text = self._next()
            if text is None:
                return
            held.append(text)
            size += len(text)
            yield text

    def _swallows(self, held: list[str]) -> bool:
        """Whether a line within a cell is a row by itself: it has as many cells as one."""
        return self.width >= LEAST_WIDTH and any(
            text.count(",") >= self.width - 1 for text in held[1:-1]
        )

    def _put_back(self, held: list[str]) -> None:
        self._again.extendleft(reversed(held[1:]))
        self._line -= len(held) - 1


def _plain(text: str) -> list[str]:
    """The cells of a line in which nothing is quoted; none where it is not as plain as that."""
    bare = text.rstrip("\r\n")
    return [] if '"' in bare or "\r" in bare else bare.split(",")


def _why(fault: str, lines: int) -> str:
    if lines > 1 or "unexpected end of data" in fault:
        return "The row cannot be read as CSV: a quotation mark in it is not closed."
    return f"The row cannot be read as CSV: {fault}."
