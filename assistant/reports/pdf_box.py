"""One box of the PDF report: its worksheet, which stands whole on a page, and its notes."""

from __future__ import annotations

from collections.abc import Iterator

from boxaloud.assistant.dialogue.nlg.sentences import marked, volume
from boxaloud.assistant.reports import number_format
from boxaloud.assistant.reports.bar_layout import WIDTH, gauge
from boxaloud.assistant.reports.body_lines import HEADS as BODY_HEADS
from boxaloud.assistant.reports.body_lines import body_rows
from boxaloud.assistant.reports.box_notes import Note, notes
from boxaloud.assistant.reports.pdf_blocks import (
    Column,
    beside,
    heading,
    listing,
    paragraph,
    space,
    table,
)
from boxaloud.assistant.reports.pdf_fonts import Fonts
from boxaloud.assistant.reports.pdf_layout import (
    COPPER,
    FAINT,
    INK,
    MARGIN,
    ROOM,
    SHADES,
    Area,
    Block,
    Hatching,
    Mark,
    Photo,
    Stroke,
    Tag,
    Words,
    fits_a_page,
    height,
    held,
)
from boxaloud.assistant.reports.pdf_pull_box import pull_box
from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import BodyReport, BoxReport

_BAR = 17.0
_HALF = ROOM / 2 - 8
_SHORT = 300.0
_WIDEST, _HIGHEST = 300.0, 225.0
"""Points that a picture takes at most."""
_BESIDE = {"contents": "said", "assumed": "open"}
"""Notes beside which another may stand."""


def box_blocks(fonts: Fonts, box: BoxReport, number: int, units: str) -> list[Block]:
    """A box: on one page where it fits on one, else as much of it as does: without its
    pictures, or at least its worksheet."""
    sheet = _worksheet(fonts, box, number, units)
    parts = (sheet, list(_notes(fonts, box)), list(_pictures(fonts, box)))
    for kept in (3, 2, 1):
        first = [block for part in parts[:kept] for block in part]
        if fits_a_page(first):
            return [*held(first), *(block for part in parts[kept:] for block in part)]
    return [block for part in parts for block in part]


def _notes(fonts: Fonts, box: BoxReport) -> Iterator[Block]:
    """The notes; two short ones that belong together stand beside each other."""
    left: Note | None = None
    for note in notes(box):
        if note.kind in _BESIDE:
            left = note
            continue
        if left is not None and _BESIDE[left.kind] == note.kind:
            both = [listing(fonts, n.title, n.items, room=_HALF) for n in (left, note)]
            if all(height(blocks) < _SHORT for blocks in both):
                yield beside(both[0], both[1], ROOM - _HALF)
                left = None
                continue
        for each in filter(None, (left, note)):
            yield from listing(fonts, each.title, each.items)
        left = None
    if left is not None:
        yield from listing(fonts, left.title, left.items)


def _pictures(fonts: Fonts, box: BoxReport) -> Iterator[Block]:
    """The pictures, each with what it shows on the same page."""
    for number, picture in enumerate(box.pictures, 1):
        scale = min(_WIDEST / picture.wide, _HIGHEST / picture.high)
        wide, high = picture.wide * scale, picture.high * scale
        told = number_format.pictured(box, picture, number)
        shown = Photo(MARGIN, 6, wide, high, picture.data)
        figure = Block(high + 10, (shown,), tag=Tag("figure", told))
        yield from held([figure, *paragraph(fonts, told, 8, FAINT), space(4)])


def _worksheet(fonts: Fonts, box: BoxReport, number: int, units: str) -> list[Block]:
    blocks = heading(fonts, f"{number}. {number_format.capital(box.name)}", 2)
    ink = COPPER if box.look == "over" else INK
    blocks += paragraph(fonts, number_format.verdict_line(box), 10, ink, bold=True)
    if box.pull is not None:
        blocks += pull_box(fonts, box.pull)
    if box.body is not None:
        blocks += _body(fonts, box.body)
    return [*blocks, *_counted(fonts, box, units)] if box.by_volume else blocks


def _body(fonts: Fonts, body: BodyReport) -> list[Block]:
    """What a conduit body goes by, and each limit by its raceway."""
    told = [] if body.governs else paragraph(fonts, body.told, 9)
    if not body.lines:
        return told
    shares = (48, 40, 32)
    columns = [
        Column(say(f"table.{head}"), share) for head, share in zip(BODY_HEADS, shares, strict=True)
    ]
    return [*told, space(4), *table(fonts, columns, list(body_rows(body)))]


def _counted(fonts: Fonts, box: BoxReport, units: str) -> list[Block]:
    """The fill drawn, its lines, and the capacity."""
    blocks = [_drawn(fonts, box)]
    blocks += paragraph(fonts, number_format.counted(box, units), 8, FAINT)
    blocks.append(space(4))
    if box.sheet.lines:
        blocks += _fill(fonts, box)
    else:
        blocks += paragraph(fonts, say("part.no_contents"))
    unit = number_format.unit(box)
    parts = [
        f"{number_format.capital(part.what)}: {marked(part.volume)} {unit}, {part.section}"
        for part in box.sheet.volumes
    ]
    return [*blocks, *listing(fonts, say("table.capacity"), parts)] if parts else blocks


def _fill(fonts: Fonts, box: BoxReport) -> list[Block]:
    unit = number_format.unit(box)
    columns = (
        Column(say("table.number"), 4),
        Column(say("table.item"), 38),
        Column(say("table.allowances"), 17),
        Column(say("table.each", unit=unit), 11, number=True),
        Column(say("table.subtotal", unit=unit), 14, number=True),
        Column(say("table.section"), 20),
    )
    rows = [
        [
            str(number), number_format.capital(line.what), number_format.allowances(line),
            number_format.each(line), volume(line.subtotal), line.section,
        ]
        for number, line in enumerate(box.sheet.lines, 1)
    ]  # fmt: skip
    rows.append(["", number_format.total_name(box), "", "", number_format.lines_total(box), ""])
    return table(fonts, columns, rows)


def _drawn(fonts: Fonts, box: BoxReport) -> Block:
    """The bar, its numbered parts, and the capacity line."""
    drawn, scale, top = gauge(box), ROOM / float(WIDTH), 9.0
    marks: list[Mark] = [Area(MARGIN, top, ROOM, _BAR, FAINT)]
    for place, part in enumerate(drawn.segments):
        at, wide = MARGIN + float(part.left) * scale, float(part.width) * scale
        marks.append(Area(at, top, wide, _BAR, FAINT, SHADES[place % 2]))
        text = str(part.number)
        if wide > 12:
            x = MARGIN + float(part.middle) * scale - fonts.width(text, 8, True) / 2
            marks.append(Words(x, top + 11.5, text, 8, True))
    if drawn.capacity is not None:
        at = MARGIN + float(drawn.capacity) * scale
        if drawn.filled > drawn.capacity:
            past = float(drawn.filled - drawn.capacity) * scale
            marks.append(Hatching(at, top, past, _BAR, COPPER))
        marks.append(Stroke(at, top - 5, at, top + _BAR + 5, 2.2, INK))
    alt = number_format.counted(box, "in3")
    return Block(top + _BAR + 9, tuple(marks), tag=Tag("figure", alt))
