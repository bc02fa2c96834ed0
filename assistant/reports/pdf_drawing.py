"""Laid-out pages drawn into a PDF."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

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
    Hatching,
    Mark,
    Page,
    Stroke,
    Words,
)

if TYPE_CHECKING:
    from fpdf import FPDF

_APART = 4.5
"""Between two slanted lines."""


def document(title: str) -> FPDF:
    """An empty document of letter pages, measured in points."""
    from fpdf import FPDF

    pdf = FPDF(unit="pt", format=(WIDTH, HEIGHT))
    pdf.set_title(title)
    pdf.set_creator("Boxaloud")
    pdf.set_lang("en")
    pdf.set_auto_page_break(False)
    return pdf


def draw(pdf: FPDF, fonts: Fonts, pages: Sequence[Page], feet: Sequence[str]) -> None:
    """Draw each page, with its line at the foot."""
    for page, foot in zip(pages, feet, strict=True):
        pdf.add_page()
        for top, block in page.blocks:
            _block(pdf, block, top)
        shown = fonts.shown(foot)
        x = MARGIN + ROOM - fonts.width(shown, 8)
        _mark(pdf, Words(x, FOOT + 22, shown, 8, False, FAINT), 0)


def _block(pdf: FPDF, block: Block, top: float) -> None:
    if block.outline is not None:
        name, level = block.outline
        pdf.set_xy(MARGIN, top)
        pdf.start_section(name, level)
    for mark in block.marks:
        _mark(pdf, mark, top)


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
