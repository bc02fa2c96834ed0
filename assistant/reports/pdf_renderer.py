"""A job's report as PDF, with the same content as the HTML page."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

from boxaloud.assistant.reports import number_format
from boxaloud.assistant.reports.job_facts import facts, project_block, signatures
from boxaloud.assistant.reports.pdf_blocks import (
    Column,
    heading,
    listing,
    paragraph,
    signature_line,
    space,
    table,
)
from boxaloud.assistant.reports.pdf_box import box_blocks
from boxaloud.assistant.reports.pdf_chart import chart_blocks
from boxaloud.assistant.reports.pdf_drawing import document, draw
from boxaloud.assistant.reports.pdf_fonts import Fonts
from boxaloud.assistant.reports.pdf_layout import (
    DEEP,
    FAINT,
    ROOM,
    Block,
    Page,
    Tag,
    held,
    holding,
    pages,
)
from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import JobReport
from boxaloud.assistant.reports.source_annex import references, source_kind

_SIGNED = ("name", "signed", "on")


def write(report: JobReport, path: Path, step: Callable[[], None] = lambda: None) -> None:
    """Write the report; `step` is called as each box is laid out. Raises OSError for the file."""
    pdf = document(say("title.job", job=report.name), report.written)
    fonts = Fonts(pdf)
    laid = layout(report, fonts, step)
    job = fonts.short(report.name, 8, ROOM * 0.7)
    feet = [
        say("page.foot", job=job, number=number, pages=len(laid))
        for number in range(1, len(laid) + 1)
    ]
    draw(pdf, fonts, laid, feet)
    pdf.output(str(path))


def layout(report: JobReport, fonts: Fonts, step: Callable[[], None] = lambda: None) -> list[Page]:
    """The pages of a report, laid out."""
    return pages(_blocks(report, fonts, step))


def _blocks(report: JobReport, fonts: Fonts, step: Callable[[], None]) -> Iterator[Block]:
    yield from _head(report, fonts)
    yield from _summary(report, fonts)
    yield from chart_blocks(fonts, report)
    yield from _materials(report, fonts)
    if report.boxes:
        yield from heading(fonts, say("section.boxes"), 1)
        yield from holding(paragraph(fonts, say("gauge.key"), 9, FAINT))
    for number, box in enumerate(report.boxes, 1):
        yield from box_blocks(fonts, box, number, report.units)
        step()
    yield from _rules(report, fonts)
    yield from _signatures(fonts)
    yield space(8)
    if fonts.lacking:
        yield from paragraph(fonts, say("page.lacking"), 8, FAINT)
    yield from paragraph(fonts, say("fact.program"), 8, FAINT)


def _head(report: JobReport, fonts: Fonts) -> Iterator[Block]:
    title = paragraph(fonts, say("title.job", job=report.name), 20, DEEP, bold=True)
    yield from (replace(block, tag=Tag("H1")) for block in title)
    yield space(3)
    for fact in facts(report):
        yield from paragraph(fonts, fact, 9, FAINT)
    told = [f"{label}: {words}" for label, words in project_block(report.project)]
    yield from (listing(fonts, say("section.project"), told, 10) if told else ())
    yield from heading(fonts, say("section.cautions"), 1)
    yield from listing(fonts, "", report.standing, 10)


def _summary(report: JobReport, fonts: Fonts) -> Iterator[Block]:
    yield from heading(fonts, say("section.summary"), 1)
    counted = say("count.box" if len(report.boxes) == 1 else "count.boxes")
    counts = [f"{len(report.boxes)} {counted}"]
    counts.append(f"{report.count('fits')} {say('count.fits')}")
    counts.append(f"{report.count('over')} {say('count.over')}")
    counts.append(f"{report.count('incomplete')} {say('count.incomplete')}")
    if report.too_small:
        counts.append(f"{report.too_small} {say('count.too_small')}")
    yield from holding([*paragraph(fonts, ", ".join(counts) + "."), space(4)])
    columns = (
        Column(say("table.box"), 32),
        Column(say("table.edition"), 10),
        Column(say("table.total"), 16, number=True),
        Column(say("table.capacity"), 12, number=True),
        Column(say("table.margin"), 20, number=True),
        Column(say("table.verdict"), 15),
    )
    rows = (
        (
            number_format.capital(box.name), box.edition, number_format.total(box),
            number_format.capacity(box), number_format.margin(box), number_format.verdict(box),
        )
        for box in report.boxes
    )  # fmt: skip
    yield from table(fonts, columns, rows)


def _materials(report: JobReport, fonts: Fonts) -> Iterator[Block]:
    if not report.count("over"):
        return
    yield from heading(fonts, say("section.materials"), 1)
    materials = report.materials
    if not materials:
        yield from paragraph(fonts, say("part.no_materials"))
        return
    columns = (
        Column(say("table.material"), 60),
        Column(say("table.quantity"), 12, number=True),
        Column(say("table.for_boxes"), 40),
    )
    rows = [(m.name, str(m.quantity), number_format.capital(", ".join(m.boxes))) for m in materials]
    yield from table(fonts, columns, rows)


def _signatures(fonts: Fonts) -> list[Block]:
    """Lines to sign on, all on one page."""
    blocks = heading(fonts, say("section.signatures"), 1)
    for by in signatures():
        blocks.append(signature_line(fonts, by, [say(f"signature.{k}") for k in _SIGNED]))
    return held(blocks)


def _rules(report: JobReport, fonts: Fonts) -> Iterator[Block]:
    rests_on = references(report)
    if not rests_on.rules:
        return
    yield from heading(fonts, say("section.rules"), 1)
    columns = (
        Column(say("table.section"), 20),
        Column(say("table.says"), 80),
        Column(say("table.mark"), 18),
        Column(say("table.read_in"), 13),
    )
    rows = [
        (use.section, use.note.says, use.note.mark, ", ".join(map(str, use.sources)))
        for use in rests_on.rules
    ]
    yield from table(fonts, columns, rows)
    yield from heading(fonts, say("section.sources"), 1)
    yield from holding(paragraph(fonts, say("table.sources_caption"), 9, FAINT))
    columns = (
        Column(say("table.number"), 6),
        Column(say("table.source"), 58),
        Column(say("table.source_kind"), 42),
        Column(say("table.read_for"), 26),
    )
    read = [
        (str(use.number), str(use.source), source_kind(use.source), ", ".join(use.sections))
        for use in rests_on.sources
    ]
    yield from table(fonts, columns, read)
