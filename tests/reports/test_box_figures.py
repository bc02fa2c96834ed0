"""The total and the margin of a box are one value, the same wherever a report shows them."""

from __future__ import annotations

import csv
import io
import re
from decimal import Decimal
from html import unescape

import pytest
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.reports import (
    JobReport,
    csv_renderer,
    html_renderer,
    job_report,
    number_format,
)
from boxaloud.assistant.reports.box_figures import Amount, Bound, Figures, figures
from boxaloud.assistant.reports.text_renderer import markdown, plain_text


def told(*lines: str) -> JobReport:
    conversation = Conversation()
    for line in lines:
        conversation.hear(line)
    return job_report(conversation, "Heron Street")


EXACT: Bound = "exactly"
LEAST: Bound = "at least"
MOST: Bound = "at most"
SO_FAR: Bound = "so far"
D = Decimal

# Allowances by NEC 314.16(B)(1), (2), (4) and (5), Table 314.16(B): 14 AWG 2.00 in³ each; two
# 14-2 are 8.00, grounds 2.00, a switch 4.00, clamps 2.00 where they are inside.
CASES = {
    "settled": (
        ("18 cubic inch box", "two 14-2 cables", "a switch", "no clamps"),
        Figures(Amount(D(14), EXACT), Amount(D(4), EXACT), None),
    ),
    "fits, clamps open": (
        ("18 cubic inch box", "two 14-2 cables", "a switch"),
        Figures(Amount(D(16), MOST), Amount(D(2), LEAST), None),
    ),
    "over": (
        ("12 cubic inch box", "two 14-2 cables", "a switch", "no clamps"),
        Figures(Amount(D(14), EXACT), None, Amount(D(2), EXACT)),
    ),
    "over, clamps open": (
        ("12 cubic inch box", "two 14-2 cables", "a switch"),
        Figures(Amount(D(14), LEAST), None, Amount(D(2), LEAST)),
    ),
    "clamps decide": (
        ("15 cubic inch box", "two 14-2 cables", "a switch"),
        Figures(Amount(D(14), SO_FAR), None, None),
    ),
    "no volume": (
        ("two 14-2 cables", "a switch", "no clamps"),
        Figures(Amount(D(14), SO_FAR), None, None),
    ),
}


@pytest.fixture(params=CASES, scope="module")
def case(request: pytest.FixtureRequest) -> tuple[JobReport, Figures]:
    lines, due = CASES[request.param]
    return told(*lines), due


def test_figures_are_those_of_the_section(case: tuple[JobReport, Figures]) -> None:
    report, due = case
    assert figures(report.boxes[0]) == due


def test_summary_and_detail_say_the_same(case: tuple[JobReport, Figures]) -> None:
    """Past defect this prevents: margin 4.50 in the summary, “at least 2.50” below."""
    report, due = case
    (box,) = report.boxes
    page = unescape("".join(html_renderer.pieces(report)))
    total, margin = number_format.total(box), number_format.margin(box)
    assert f'<td data-name="Total">{total}</td>' in page
    assert f'<td data-name="Margin">{margin}</td>' in page
    verdict = number_format.verdict_line(box)
    assert verdict in page
    assert verdict in list(plain_text(box))
    assert any(verdict in line for line in markdown(box))
    for due_amount in filter(None, (due.total, due.margin, due.over_by)):
        assert f"{due_amount.value:.2f}" in verdict
        assert due_amount.bound == EXACT or due_amount.bound in verdict
    assert due.total.bound == EXACT or due.total.bound in total
    assert margin.count("at least") == (getattr(due.margin or due.over_by, "bound", "") == LEAST)


def test_the_last_row_of_a_worksheet_is_the_sum_of_its_lines(
    case: tuple[JobReport, Figures],
) -> None:
    report, due = case
    (box,) = report.boxes
    added = sum(line.subtotal for line in box.sheet.lines)
    name = "Total" if due.total.bound == EXACT else "Total so far"
    page = "".join(html_renderer.pieces(report))
    sheet = page[page.index("<article") : page.index("</article>")]
    assert re.findall(r"<strong>(.*?)</strong>", sheet) == [name, f"{added:.2f}"]
    assert f"{name}: {added:.2f} in³" in list(plain_text(box))
    assert any(f"| {name} |  | {added:.2f} |" in row for row in markdown(box))


def test_the_table_of_rows_carries_the_bound(case: tuple[JobReport, Figures]) -> None:
    report, due = case
    rows = csv.DictReader(io.StringIO("".join(csv_renderer.pieces(report))))
    row = next(row for row in rows if row["row"] == "line")
    assert (D(row["total_in3"]), row["total_is"]) == (due.total.value, due.total.bound)
    left = due.margin or due.over_by
    assert row["margin_is"] == (left.bound if left else "")
    for name, amount in (("margin_in3", due.margin), ("over_by_in3", due.over_by)):
        assert row[name] == (f"{amount.value:.2f}" if amount else "")
