"""A job's report as PDF, with the same content as the HTML page. Needs fpdf2 (extra `pdf`)."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from boxaloud.assistant.dialogue.nlg.sentences import marked, volume
from boxaloud.assistant.reports import number_format
from boxaloud.assistant.reports.bar_layout import WIDTH, Gauge, gauge
from boxaloud.assistant.reports.box_notes import notes
from boxaloud.assistant.reports.job_facts import facts
from boxaloud.assistant.reports.report_builder import rules_used
from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import BoxReport, JobReport
from boxaloud.assistant.text.problem import Problem

if TYPE_CHECKING:
    from fpdf import FPDF

_PLAIN = str.maketrans({"“": '"', "”": '"', "‘": "'", "’": "'", "–": "-", "—": "-", "…": "..."})
_INK, _FAINT, _DEEP, _COPPER = (32, 48, 47), (90, 104, 102), (29, 92, 90), (154, 74, 28)
_SHADES = ((185, 211, 205), (217, 230, 223))


def write(report: JobReport, path: Path) -> None:
    """Write the report. Raises Problem where fpdf2 is not installed, OSError for the file."""
    pdf = _begin(report)
    _head(pdf, report)
    _summary(pdf, report)
    _materials(pdf, report)
    _heading(pdf, say("section.boxes"), 1)
    _text(pdf, say("gauge.key"), 9, _FAINT)
    for number, box in enumerate(report.boxes, 1):
        _box(pdf, box, number, report.units)
    _rules(pdf, report)
    _text(pdf, say("fact.program"), 8, _FAINT)
    pdf.output(str(path))


def _begin(report: JobReport) -> FPDF:
    try:
        from fpdf import FPDF
    except ImportError:
        raise Problem(
            "A PDF needs fpdf2: install it with “pip install fpdf2”, or write .html and print that."
        ) from None

    class Pages(FPDF):
        """Pages numbered at the foot."""

        def footer(self) -> None:
            """The page number."""
            self.set_y(-12)
            self.set_font("Helvetica", size=8)
            self.set_text_color(*_FAINT)
            self.cell(0, 8, f"{_latin(report.name)}, page {self.page_no()}", align="R")

    pdf = Pages(format="letter")
    pdf.set_title(_latin(say("title.job", job=report.name)))
    pdf.set_creator("Boxaloud")
    pdf.set_lang("en")
    pdf.set_auto_page_break(True, 16)
    pdf.add_page()
    return pdf


def _latin(words: str) -> str:
    """Words in the letters that a PDF's own fonts have; the rest as a question mark."""
    plain = words.translate(_PLAIN).replace("³", "\u00b3")
    return plain.encode("latin-1", "replace").decode("latin-1")


def _text(
    pdf: FPDF, words: str, size: int = 10, ink: tuple[int, int, int] = _INK, style: str = ""
) -> None:
    pdf.set_font("Helvetica", style, size)
    pdf.set_text_color(*ink)
    pdf.multi_cell(0, size * 0.5, _latin(words), align="L", new_x="LMARGIN", new_y="NEXT")


def _heading(pdf: FPDF, words: str, level: int, room: int = 40) -> None:
    """A heading, in the outline too, on a page with room for what follows it."""
    if pdf.get_y() + room > pdf.page_break_trigger:
        pdf.add_page()
    pdf.ln(4)
    pdf.start_section(_latin(words), level=level - 1)
    _text(pdf, words, 14 if level == 1 else 12, _DEEP if level == 1 else _INK, "B")
    pdf.ln(1)


def _list(pdf: FPDF, title: str, items: Sequence[str]) -> None:
    if items:
        pdf.ln(1)
        _text(pdf, title, 9, _FAINT, "B")
        for item in items:
            _text(pdf, f"- {item}", 9)


def _table(
    pdf: FPDF, heads: Sequence[str], rows: Sequence[Sequence[str]], widths: tuple[int, ...]
) -> None:
    pdf.set_font("Helvetica", size=8)
    pdf.set_text_color(*_INK)
    pdf.set_draw_color(190, 186, 172)
    with pdf.table(
        col_widths=widths, borders_layout="HORIZONTAL_LINES", line_height=4.6, text_align="LEFT"
    ) as table:
        for cells in (heads, *rows):
            row = table.row()
            for cell in cells:
                row.cell(_latin(cell))
    pdf.ln(2)


def _head(pdf: FPDF, report: JobReport) -> None:
    _text(pdf, say("title.job", job=report.name), 20, _DEEP, "B")
    pdf.ln(1)
    for fact in facts(report):
        _text(pdf, fact, 9, _FAINT)
    _heading(pdf, say("section.cautions"), 1)
    for caution in report.standing:
        _text(pdf, f"- {caution}", 10)


def _summary(pdf: FPDF, report: JobReport) -> None:
    _heading(pdf, say("section.summary"), 1)
    counts = [f"{len(report.boxes)} {say('count.boxes')}"]
    counts.append(f"{report.count('fits')} {say('count.fits')}")
    counts.append(f"{report.count('over')} {say('count.over')}")
    counts.append(f"{report.count('incomplete')} {say('count.incomplete')}")
    _text(pdf, ", ".join(counts) + ".", 10)
    pdf.ln(1)
    names = ("box", "edition", "total", "capacity", "margin", "verdict")
    rows = [
        [
            number_format.capital(box.name), box.edition, number_format.total(box),
            number_format.capacity(box), number_format.margin(box), number_format.verdict(box),
        ]
        for box in report.boxes
    ]  # fmt: skip
    _table(pdf, [say(f"table.{name}") for name in names], rows, (34, 10, 12, 13, 18, 16))


def _materials(pdf: FPDF, report: JobReport) -> None:
    if not report.count("over"):
        return
    _heading(pdf, say("section.materials"), 1)
    if not report.materials:
        _text(pdf, say("part.no_materials"))
        return
    heads = [say("table.material"), say("table.quantity"), say("table.for_boxes")]
    rows = [
        [m.name, str(m.quantity), number_format.capital(", ".join(m.boxes))]
        for m in report.materials
    ]
    _table(pdf, heads, rows, (60, 12, 40))


def _box(pdf: FPDF, box: BoxReport, number: int, units: str) -> None:
    _heading(pdf, f"{number}. {number_format.capital(box.name)}", 2, 70)
    over = box.verdict == "over"
    _text(pdf, number_format.verdict_line(box), 10, _COPPER if over else _INK, "B")
    if units == "cm3":
        _text(pdf, number_format.counted(box, units), 9, _FAINT)
    _gauge(pdf, box)
    _fill(pdf, box)
    parts = [
        f"{number_format.capital(part.what)}: {marked(part.volume)} in³, {part.section}"
        for part in box.sheet.volumes
    ]
    _list(pdf, say("table.capacity"), parts)
    for note in notes(box):
        _list(pdf, note.title, note.items)


def _gauge(pdf: FPDF, box: BoxReport) -> None:
    """The bar, its numbered parts, and the capacity line."""
    drawn, scale = gauge(box), pdf.epw / float(WIDTH)
    left, top, tall = pdf.l_margin, pdf.get_y() + 3, 6
    pdf.set_draw_color(*_FAINT)
    pdf.rect(left, top, pdf.epw, tall)
    pdf.set_font("Helvetica", "B", 8)
    pdf.set_text_color(*_INK)
    for place, part in enumerate(drawn.segments):
        pdf.set_fill_color(*_SHADES[place % 2])
        at, wide = left + float(part.left) * scale, float(part.width) * scale
        pdf.rect(at, top, wide, tall, style="DF")
        if wide > 4:
            pdf.set_xy(at, top)
            pdf.cell(wide, tall, str(part.number), align="C")
    pdf.set_fill_color(255)
    if drawn.capacity is not None:
        _hatch(pdf, drawn, top, tall)
        pdf.set_line_width(0.8)
        pdf.set_draw_color(*_INK)
        at = left + float(drawn.capacity) * scale
        pdf.line(at, top - 2, at, top + tall + 2)
        pdf.set_line_width(0.2)
    pdf.set_xy(left, top + tall + 3)


def _hatch(pdf: FPDF, drawn: Gauge, top: float, tall: int) -> None:
    """Slanted lines over what lies past the capacity."""
    assert drawn.capacity is not None
    scale = pdf.epw / float(WIDTH)
    at, end = (pdf.l_margin + float(x) * scale for x in (drawn.capacity, drawn.filled))
    pdf.set_draw_color(*_COPPER)
    pdf.set_line_width(0.5)
    with pdf.local_context(), pdf.rect_clip(at, top, max(end - at, 0.01), tall):
        while at < end + tall:
            pdf.line(at, top, at - tall, top + tall)
            at += 1.6


def _fill(pdf: FPDF, box: BoxReport) -> None:
    if not box.sheet.lines:
        _text(pdf, say("part.no_contents"))
        return
    names = ("number", "item", "allowances", "each", "subtotal", "section")
    rows = [
        [
            str(number), number_format.capital(line.what), number_format.allowances(line),
            number_format.each(line), volume(line.subtotal), line.section,
        ]
        for number, line in enumerate(box.sheet.lines, 1)
    ]  # fmt: skip
    rows.append(["", number_format.total_name(box), "", "", number_format.lines_total(box), ""])
    _table(pdf, [say(f"table.{name}") for name in names], rows, (6, 40, 20, 13, 14, 22))


def _rules(pdf: FPDF, report: JobReport) -> None:
    uses = rules_used(report)
    if uses:
        _heading(pdf, say("section.rules"), 1)
        heads = [say(f"table.{name}") for name in ("section", "says", "source", "mark")]
        rows = [[use.section, use.note.says, use.note.source, use.note.mark] for use in uses]
        _table(pdf, heads, rows, (20, 50, 45, 16))
