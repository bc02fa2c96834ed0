"""A pull box of the PDF report: the drawing to scale, each least distance with its section."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.assistant.reports import number_format
from boxaloud.assistant.reports.pdf_blocks import Column, paragraph, space, table
from boxaloud.assistant.reports.pdf_fonts import Fonts
from boxaloud.assistant.reports.pdf_layout import (
    FAINT,
    INK,
    MARGIN,
    SHADES,
    Area,
    Block,
    Disc,
    Ink,
    Mark,
    Tag,
    Words,
    held,
)
from boxaloud.assistant.reports.pull_drawing import Plan, Shape, plan
from boxaloud.assistant.reports.pull_lines import HEADS, pull_caption, pull_lines
from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import PullReport
from boxaloud.rules.pull import shown

_WIDEST, _HIGHEST = 250.0, 200.0
"""Points that the drawing takes at most: beside its table it leaves room on a page."""
_SIZE = 8.0


def pull_box(fonts: Fonts, pull: PullReport) -> list[Block]:
    """What was understood of it, the drawing with what it shows, and each least distance."""
    shares = (46, 12, 24, 36)
    columns = [
        Column(say(f"table.{head}"), share, number=head == "pull_inches")
        for head, share in zip(HEADS, shares, strict=True)
    ]
    rows = [line._replace(what=number_format.capital(line.what)) for line in pull_lines(pull)]
    caption = pull_caption(pull)
    figure = held([_figure(fonts, pull, caption), *paragraph(fonts, caption, 8, FAINT)])
    told = paragraph(fonts, pull.told, 9)
    return [*told, space(4), *figure, space(4), *table(fonts, columns, rows)]


def _figure(fonts: Fonts, pull: PullReport, caption: str) -> Block:
    """The front of the box with its raceways, and the sides that pulls set."""
    drawn = plan(pull)
    scale = min(_WIDEST / float(drawn.width), _HIGHEST / float(drawn.height))
    marks = [_mark(drawn.box, scale, INK, None)]
    marks += [_mark(one, scale, INK, SHADES[one.shade]) for one in drawn.raceways]
    marks += _sides(fonts, pull, drawn, scale)
    return Block(float(drawn.height) * scale + 6, tuple(marks), tag=Tag("figure", caption))


def _mark(shape: Shape, scale: float, ink: Ink, fill: Ink | None) -> Mark:
    x, y, wide, high = (
        float(length) * scale for length in (shape.left, shape.top, shape.width, shape.height)
    )
    if shape.round and fill is not None:
        return Disc(MARGIN + x, y, wide, ink, fill)
    return Area(MARGIN + x, y, wide, high, ink, fill)


def _sides(fonts: Fonts, pull: PullReport, drawn: Plan, scale: float) -> list[Mark]:
    """How wide and how high, inside along the walls, where a pull sets it."""
    made: list[Mark] = []
    box = drawn.box
    if pull.sheet.width is not None:
        text = shown(pull.sheet.width)
        middle = box.left + box.width / 2
        x = MARGIN + float(middle) * scale - fonts.width(text, _SIZE, True) / 2
        made.append(Words(x, float(box.top) * scale + 10, text, _SIZE, True))
    if pull.sheet.height is not None:
        x = MARGIN + float(box.left) * scale + 4
        y = float(box.top + box.height / Decimal(2)) * scale
        made.append(Words(x, y, shown(pull.sheet.height), _SIZE, True))
    return made
