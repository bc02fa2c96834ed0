"""A job's report as CSV: a row for each line of each box's worksheet.

Cautions have rows of their own, each once, and the sources stand at the end.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from io import StringIO

from boxaloud.assistant.dialogue.nlg.sentences import marked, plain, volume
from boxaloud.assistant.dialogue.nlg.volume_units import in3
from boxaloud.assistant.reports.body_lines import body_rows
from boxaloud.assistant.reports.box_figures import figures
from boxaloud.assistant.reports.job_facts import project_block
from boxaloud.assistant.reports.pull_lines import pull_lines
from boxaloud.assistant.reports.report_model import BoxReport, JobReport
from boxaloud.assistant.reports.source_annex import references, source_kind
from boxaloud.assistant.text.spreadsheet_cell import safe
from boxaloud.rules import counted_under
from boxaloud.rules.worksheet import Line, Unit

COLUMNS = (
    "row", "job", "box", "edition", "line", "counted", "awg", "count", "allowances", "each_in3",
    "subtotal_in3", "section", "total_in3", "total_is", "capacity_in3",
    "margin_in3", "over_by_in3", "margin_is", "verdict", "assumed", "open", "advice",
    "least_in", "note", "subtotal_ml", "total_ml", "capacity_ml", "counted_under",
    "have", "limit",
)  # fmt: skip
"""`row` is `project`, `caution`, `line` of a worksheet, `pull_box` (what was understood, then
each least distance, inches, with its working in `note`), `conduit_body` (where it stands, then what
it `have`s of each `limit`, with the working in `note`) or, at the end, `source`."""


def pieces(report: JobReport) -> Iterator[str]:
    """The file, row by row. No number in it is negative: what is over has its own column."""
    yield _row(COLUMNS)
    for label, words in project_block(report.project):
        yield _told("project", report, counted=label, note=words)
    for words in report.standing:
        yield _told("caution", report, note=words)
    for box in report.boxes:
        shared = _of_box(box)
        lines = (box.sheet.lines or (None,)) if box.by_volume else ()
        for number, line in enumerate(lines, 1):
            of_line = _of_line(number, line, box.sheet.unit)
            cells = ["line", report.name, box.name, box.edition, *of_line, *shared]
            cells += [*_metric(line, box), counted_under(box.edition)]
            yield _row([safe(cell) for cell in cells])
        yield from _pull_box(report, box)
        yield from _body(report, box)
        for words in box.cautions:
            yield _told("caution", report, box=box.name, edition=box.edition, note=words)
    for use in references(report).sources:
        yield _told(
            "source",
            report,
            line=use.number,
            counted=str(use.source),
            section=", ".join(use.sections),
            note=source_kind(use.source),
        )


def _told(row: str, report: JobReport, **cells: object) -> str:
    """A row that is no line of a worksheet: most of its cells are empty."""
    known = {"row": row, "job": report.name, **cells}
    return _row([safe(known.get(name)) for name in COLUMNS])


def _metric(line: Line | None, box: BoxReport) -> list[object]:
    """Millilitres, for a box that is worked out in them; else empty."""
    sheet = box.sheet
    if sheet.unit == "in3":
        return [None] * 3
    return [
        None if line is None else volume(line.subtotal),
        volume(figures(box).total.value),
        None if sheet.capacity is None else marked(sheet.capacity),
    ]


def _of_line(number: int, line: Line | None, unit: Unit) -> list[object]:
    if line is None:
        return [None] * 8
    return [
        number, line.what, line.awg, line.count, plain(line.allowances),
        volume(in3(line.each, unit)), volume(in3(line.subtotal, unit)), line.section,
    ]  # fmt: skip


def _of_box(box: BoxReport) -> list[object]:
    sheet, found = box.sheet, figures(box)
    left = found.margin or found.over_by
    change = box.recommended

    def inches(value: Decimal) -> str:
        return volume(in3(value, sheet.unit))

    return [
        inches(found.total.value),
        found.total.bound,
        None if sheet.capacity is None else marked(in3(sheet.capacity, sheet.unit)),
        None if found.margin is None else inches(found.margin.value),
        None if found.over_by is None else inches(found.over_by.value),
        None if left is None else left.bound,
        box.verdict,
        "; ".join(box.assumed),
        "; ".join(box.open),
        "" if change is None else f"{change.what} ({change.section})",
        None,
        None,
    ]


def _pull_box(report: JobReport, box: BoxReport) -> Iterator[str]:
    """A row of what was understood, and one of each least distance."""
    if box.pull is None:
        return
    told = {"box": box.name, "edition": box.edition, "assumed": "; ".join(box.assumed)}
    yield _told("pull_box", report, **told, note=box.pull.told)
    for number, line in enumerate(pull_lines(box.pull), 1):
        yield _told(
            "pull_box", report, **told, line=number, counted=line.what, section=line.section,
            least_in=line.inches, note=line.working,
        )  # fmt: skip


def _body(report: JobReport, box: BoxReport) -> Iterator[str]:
    """A row of where a conduit body stands, and one of each limit by its raceway."""
    if box.body is None or not (box.body.told or box.body.lines):
        return
    told = {"box": box.name, "edition": box.edition, "verdict": box.verdict}
    yield _told("conduit_body", report, **told, note=box.body.told)
    for number, (line, row) in enumerate(zip(box.body.lines, body_rows(box.body), strict=True), 1):
        yield _told(
            "conduit_body", report, **told, line=number, counted=row.what, section=row.section,
            have=_decimal(line.have), limit=_decimal(line.limit), note=row.working,
        )  # fmt: skip


def _decimal(value: Fraction) -> str:
    return plain(Decimal(value.numerator) / value.denominator)


def _row(cells: list[str] | tuple[str, ...]) -> str:
    out = StringIO()
    csv.writer(out).writerow(cells)
    return out.getvalue()
