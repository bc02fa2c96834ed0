"""Laid-out pages drawn into a PDF."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from importlib.resources import files
from io import BytesIO
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

from boxaloud.assistant.reports.pdf_fonts import FAMILY, Fonts
from boxaloud.assistant.reports.pdf_layout import (
    FAINT,
    FOOT,
    HEIGHT,
    MARGIN,
    ROOM,
    WIDTH,
    Area,
    Block,
    Disc,
    Hatching,
    Mark,
    Page,
    Photo,
    Stroke,
    Tag,
    Words,
)

if TYPE_CHECKING:
    from boxaloud.assistant.reports.pdf_structure import Structure
    from fpdf import FPDF
    from fpdf.structure_tree import StructElem

_APART = 4.5
"""Between two slanted lines."""


def document(title: str, written: str = "") -> FPDF:
    """An empty document of letter pages, measured in points, kept to PDF/A-1b (ISO 19005-1).

    `written` is the day it was made, ISO 8601; now, where it is empty.
    """
    from fpdf import FPDF, ViewerPreferences

    pdf = FPDF(unit="pt", format=(WIDTH, HEIGHT), enforce_compliance="PDF/A-1B")
    when = datetime.fromisoformat(written) if written else datetime.now(UTC)
    when = when.replace(tzinfo=when.tzinfo or UTC)
    pdf.set_creation_date(when)
    pdf.set_title(title)
    pdf.set_lang("en")
    pdf.set_xmp_metadata(_about(title, when))
    pdf.viewer_preferences = ViewerPreferences(display_doc_title=True)
    pdf.set_auto_page_break(False)
    return pdf


def _about(title: str, when: datetime) -> str:
    """What the file says of itself, a schema a block, as the checkers of the standard want it."""
    path = files("boxaloud.assistant.reports") / "data" / "templates" / "about.xmp"
    values = {"title": escape(title), "when": when.isoformat(timespec="seconds")}
    return path.read_text(encoding="utf-8").strip().format_map(values)


def draw(pdf: FPDF, fonts: Fonts, pages: Sequence[Page], feet: Sequence[str]) -> None:
    """Draw each page, with its line at the foot, and tag what is drawn."""
    from boxaloud.assistant.reports.pdf_structure import Structure

    tags = Structure(pdf)
    pdf.struct_builder = tags
    pen = _Pen(pdf, tags)
    for page, foot in zip(pages, feet, strict=True):
        pdf.add_page()
        for top, block in page.blocks:
            pen.block(block, top)
        shown = fonts.shown(foot)
        x = MARGIN + ROOM - fonts.width(shown, 8)
        with tags.decoration():
            _mark(pdf, Words(x, FOOT + 22, shown, 8, False, FAINT), 0)


class _Pen:
    """Draws blocks, and tags each piece; the rows of a table belong together."""

    def __init__(self, pdf: FPDF, tags: Structure) -> None:
        self._pdf = pdf
        self._tags = tags
        self._table: StructElem | None = None

    def block(self, block: Block, top: float) -> None:
        """Draw a block whose top is at `top`."""
        if block.outline is not None:
            name, level = block.outline
            self._pdf.set_xy(MARGIN, top)
            self._pdf.start_section(name, level)
        if not block.marks:
            return
        kind = block.tag.kind
        if kind == "nothing":
            self._decorate(block.marks, top)
            return
        if kind not in ("row", "heads"):
            self._table = None
        if kind == "figure":
            with self._tags.content(self._tags.element("Figure", alt=block.tag.alt)):
                self._all(block.marks, top)
            return
        words = [mark for mark in block.marks if isinstance(mark, Words) and mark.part >= 0]
        self._decorate([mark for mark in block.marks if mark not in words], top)
        if kind == "row" or kind == "heads":
            self._row(words, block.tag, top)
            return
        for part in sorted({word.part for word in words}):
            with self._tags.content(self._tags.element(kind)):
                self._all(_one_text([word for word in words if word.part == part]), top)

    def _row(self, words: Sequence[Words], tag: Tag, top: float) -> None:
        if self._table is None or tag.kind == "heads":
            self._table = self._tags.element("Table")
        row = self._tags.element("TR", self._table)
        for part in range(tag.cells):
            cell = self._tags.element("TH" if tag.kind == "heads" else "TD", row)
            if inside := [word for word in words if word.part == part]:
                with self._tags.content(cell):
                    self._all(_one_text(inside), top)

    def _decorate(self, marks: Sequence[Mark], top: float) -> None:
        if marks:
            with self._tags.decoration():
                self._all(marks, top)

    def _all(self, marks: Sequence[Mark], top: float) -> None:
        for mark in marks:
            _mark(self._pdf, mark, top)


def _one_text(lines: Sequence[Words]) -> list[Words]:
    """Lines with a blank between them, without which the last word of one and the first of the
    next are one word to who hears them."""
    return [line._replace(text=f"{line.text} ") for line in lines[:-1]] + list(lines[-1:])


def _mark(pdf: FPDF, mark: Mark, top: float) -> None:
    match mark:
        case Words(x, y, text, size, bold, ink):
            pdf.set_font(FAMILY, "B" if bold else "", size)
            pdf.set_text_color(*ink)
            pdf.text(x, top + y, text)
        case Stroke(x, y, to_x, to_y, weight, ink):
            pdf.set_line_width(weight)
            pdf.set_draw_color(*ink)
            pdf.line(x, top + y, to_x, top + to_y)
        case Area(x, y, width, height, ink, fill):
            pdf.set_line_width(0.5)
            pdf.set_draw_color(*ink)
            if fill is not None:
                pdf.set_fill_color(*fill)
            pdf.rect(x, top + y, width, height, style="D" if fill is None else "DF")
        case Disc(x, y, width, ink, fill):
            pdf.set_line_width(0.5)
            pdf.set_draw_color(*ink)
            pdf.set_fill_color(*fill)
            pdf.ellipse(x, top + y, width, width, style="DF")
        case Photo(x, y, width, height, data):
            pdf.image(BytesIO(data), x, top + y, width, height)
        case Hatching():
            _hatch(pdf, mark, top)


def _hatch(pdf: FPDF, mark: Hatching, top: float) -> None:
    y = top + mark.y
    pdf.set_draw_color(*mark.ink)
    pdf.set_line_width(1.4)
    with pdf.rect_clip(mark.x, y, max(mark.width, 0.01), mark.height):
        at = mark.x
        while at < mark.x + mark.width + mark.height:
            pdf.line(at, y, at - mark.height, y + mark.height)
            at += _APART
