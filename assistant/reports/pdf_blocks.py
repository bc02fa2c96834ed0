"""Headings, paragraphs, lists and tables as blocks of a page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import zip_longest
from typing import NamedTuple

from boxaloud.assistant.reports.pdf_fonts import Fonts
from boxaloud.assistant.reports.pdf_layout import (
    DEEP,
    FAINT,
    INK,
    MARGIN,
    ROOM,
    RULE,
    Block,
    Ink,
    Mark,
    Stroke,
    Tag,
    Words,
    height,
    holding,
)

_LEADING = 1.35
_CELL, _GAP, _PAD = 8.0, 6.0, 2.2
_SPLIT = 40
"""Lines of a cell or a paragraph that are held together; more are parted."""


class Column(NamedTuple):
    """A column of a table: its head, its share of the width, and whether it is of numbers."""

    head: str
    share: float
    number: bool = False


def space(high: float) -> Block:
    """Nothing, so high."""
    return Block(high)


def paragraph(
    fonts: Fonts, words: str, size: float = 10, ink: Ink = INK, bold: bool = False,
    lead: str = "", room: float = ROOM,
) -> list[Block]:  # fmt: skip
    """Words in lines of `room` points, after a sign such as a dash where there is one."""
    indent = fonts.width(lead + " ", size) if lead else 0.0
    lines = fonts.lines(words, size, room - indent, bold)
    blocks = []
    for start in range(0, len(lines), _SPLIT):
        some = lines[start : start + _SPLIT]
        marks = [
            Words(MARGIN + indent, size * (_LEADING * row + 1), line, size, bold, ink)
            for row, line in enumerate(some)
        ]
        if lead and not start:
            marks.insert(0, Words(MARGIN, size, lead, size, bold, ink, -1))
        blocks.append(Block(size * _LEADING * len(some), tuple(marks)))
    return blocks


def heading(fonts: Fonts, words: str, level: int) -> list[Block]:
    """A heading, in the outline too, never parted from what follows it."""
    size, ink = (14.0, DEEP) if level == 1 else (12.0, INK)
    tag = Tag("H2" if level == 1 else "H3")
    first, *rest = (replace(each, tag=tag) for each in paragraph(fonts, words, size, ink, True))
    blocks = [space(12), replace(first, outline=(fonts.shown(words), level - 1)), *rest, space(4)]
    return holding(blocks)


def listing(
    fonts: Fonts, title: str, items: Iterable[str], size: float = 9, room: float = ROOM
) -> list[Block]:
    """A titled list; the title is held by its first item."""
    blocks = [space(5), *paragraph(fonts, title, size, FAINT, True, room=room)] if title else []
    blocks = holding(blocks)
    for item in items:
        blocks += paragraph(fonts, item, size, lead="–", room=room)
    return blocks


def signature_line(fonts: Fonts, by: str, parts: Sequence[str]) -> Block:
    """Who signs, and a line to write each part on: the last, a date, is half as long."""
    first, gap, high, size = 90.0, 12.0, 40.0, 8.0
    one = (ROOM - first - gap * (len(parts) - 1)) / (len(parts) - 0.5)
    marks: list[Mark] = [Words(MARGIN, high - 12, fonts.shown(by), 9, True)]
    for place, part in enumerate(parts):
        left = MARGIN + first + place * (one + gap)
        right = min(left + one, MARGIN + ROOM)
        marks.append(Stroke(left, high - 12, right, high - 12, 0.6, INK))
        marks.append(Words(left, high - 3, fonts.shown(part), size, False, FAINT, place + 1))
    return Block(high, tuple(marks))


def beside(left: Sequence[Block], right: Sequence[Block], across: float) -> Block:
    """Blocks beside blocks that begin `across` points further to the right, as one block."""
    marks: list[Mark] = []
    part = 0
    for blocks, x in ((left, 0.0), (right, across)):
        top = 0.0
        for block in blocks:
            marks += (_moved(mark, x, top, part) for mark in block.marks)
            top += block.height
            part += 1
    return Block(max(height(left), height(right)), tuple(marks))


def _moved(mark: Mark, x: float, y: float, part: int) -> Mark:
    if isinstance(mark, Words) and mark.part >= 0:
        mark = mark._replace(part=part)
    if isinstance(mark, Stroke):
        mark = mark._replace(to_x=mark.to_x + x, to_y=mark.to_y + y)
    return mark._replace(x=mark.x + x, y=mark.y + y)


def table(fonts: Fonts, columns: Sequence[Column], rows: Iterable[Sequence[str]]) -> list[Block]:
    """A table whose heads stand again on each page; no row is alone at its head or its foot."""
    whole = sum(column.share for column in columns)
    places, at = [], MARGIN
    for column in columns:
        wide = ROOM * column.share / whole
        places.append((at, wide - _GAP))
        at += wide
    numbers = [column.number for column in columns]
    heads = [column.head for column in columns]
    (top,) = _row(fonts, heads, places, numbers, True)
    body = [b for row in rows for b in _row(fonts, row, places, numbers, False)]
    blocks = [replace(top, holds_next=True), *(replace(b, repeats=top) for b in body)]
    for end in (1, len(blocks) - 2):
        if 0 < end < len(blocks) - 1:
            blocks[end] = replace(blocks[end], holds_next=True)
    return [*blocks, space(6)]


def _row(
    fonts: Fonts, cells: Sequence[str], places: Sequence[tuple[float, float]],
    numbers: Sequence[bool], bold: bool,
) -> Iterator[Block]:  # fmt: skip
    """A row; one that is very high in several pieces."""
    broken = [
        fonts.lines(cell, _CELL, wide, bold) for cell, (_, wide) in zip(cells, places, strict=True)
    ]
    high = max(map(len, broken))
    for start in range(0, high, _SPLIT):
        some = [lines[start : start + _SPLIT] for lines in broken]
        tall = _CELL * _LEADING * min(_SPLIT, high - start) + 2 * _PAD
        last = start + _SPLIT >= high
        marks = list(_cells(fonts, some, places, numbers, bold))
        if last:
            marks.append(Stroke(MARGIN, tall, MARGIN + ROOM, tall, 0.9 if bold else 0.4, RULE))
        tag = Tag("heads" if bold else "row", cells=len(cells))
        yield Block(tall, tuple(marks), tag=tag)


def _cells(
    fonts: Fonts, broken: Sequence[Sequence[str]], places: Sequence[tuple[float, float]],
    numbers: Sequence[bool], bold: bool,
) -> Iterator[Words | Stroke]:  # fmt: skip
    for line, texts in enumerate(zip_longest(*broken, fillvalue="")):
        y = _PAD + _CELL * (_LEADING * line + 1)
        cells = zip(texts, places, numbers, strict=True)
        for part, (text, (left, wide), number) in enumerate(cells):
            if text:
                x = left + wide - _GAP - fonts.width(text, _CELL, bold) if number else left
                yield Words(x, y, text, _CELL, bold, part=part)
