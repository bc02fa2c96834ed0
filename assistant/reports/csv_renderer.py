"""A job's report as CSV: a row for each line of each box's worksheet."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from io import StringIO

from boxaloud.assistant.dialogue.nlg.sentences import marked, plain, volume
from boxaloud.assistant.reports.box_figures import figures
from boxaloud.assistant.reports.report_model import BoxReport, JobReport
from boxaloud.assistant.text.spreadsheet_cell import safe
from boxaloud.rules.worksheet import Line

COLUMNS = (
    "job", "box", "edition", "line", "counted", "awg", "count", "allowances", "each_in3",
    "subtotal_in3", "section", "total_in3", "total_is", "capacity_in3",
    "margin_in3", "over_by_in3", "margin_is",
    "verdict", "assumed", "open", "advice", "cautions",
)  # fmt: skip


def pieces(report: JobReport) -> Iterator[str]:
    """The file, row by row. No number in it is negative: what is over has its own column."""
    yield _row(COLUMNS)
    for box in report.boxes:
        shared = _of_box(box, report)
        lines = box.sheet.lines or (None,)
        for number, line in enumerate(lines, 1):
            cells = [report.name, box.name, box.edition, *_of_line(number, line), *shared]
            yield _row([safe(cell) for cell in cells])


def _of_line(number: int, line: Line | None) -> list[object]:
    if line is None:
        return [None] * 8
    return [
        number, line.what, line.awg, line.count, plain(line.allowances),
        volume(line.each), volume(line.subtotal), line.section,
    ]  # fmt: skip


def _of_box(box: BoxReport, report: JobReport) -> list[object]:
    sheet, found = box.sheet, figures(box)
    left = found.margin or found.over_by
    change = box.recommended
    return [
        volume(found.total.value),
        found.total.bound,
        None if sheet.capacity is None else marked(sheet.capacity),
        None if found.margin is None else volume(found.margin.value),
        None if found.over_by is None else volume(found.over_by.value),
        None if left is None else left.bound,
        box.verdict,
        "; ".join(box.assumed),
        "; ".join(box.open),
        "" if change is None else f"{change.what} ({change.section})",
        " ".join([*report.standing, *box.cautions]),
    ]


def _row(cells: list[str] | tuple[str, ...]) -> str:
    out = StringIO()
    csv.writer(out).writerow(cells)
    return out.getvalue()
