"""A conduit body in the report: its limit by 314.16(C) with the tables it comes from, no volume.

0.4 of 0.533 in² (EMT 3/4, Table 4: sfasoft, "All tubing and conduits") over 0.0133 in² (12 THHN,
Table 5: buildmyowncabin, "NEC 2008 Chapter 9 Table 5") is 16.03.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable, Iterator
from html import unescape
from pathlib import Path

import pytest
from boxaloud.assistant.contract.document_schemas import schema
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.reports import (
    JobReport,
    csv_renderer,
    html_renderer,
    job_report,
    json_renderer,
    number_format,
)
from boxaloud.assistant.reports.report_export import write
from boxaloud.assistant.reports.report_model import BoxReport
from boxaloud.assistant.reports.source_annex import references
from boxaloud.assistant.reports.text_renderer import markdown, plain_text
from boxaloud.rules import STANDING
from jsonschema import Draft202012Validator

pypdf = pytest.importorskip("pypdf", reason="pypdf reads back what was written")

SAID = "LB with six number 12 THHN passing through, no splices, three quarter EMT"
SECTION = "314.16(C)(1), Chapter 9 Table 1"
WORKING = "0.4 x 0.533 / 0.0133"


def report_of(*said: str) -> JobReport:
    conversation = Conversation()
    for words in said:
        conversation.hear(words)
    return job_report(conversation, "barn")


def page_of(report: JobReport) -> str:
    return unescape("".join(html_renderer.pieces(report)))


def in_pdf(report: JobReport, folder: Path) -> str:
    write(report, folder / "barn.pdf")
    pages = pypdf.PdfReader(folder / "barn.pdf").pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def test_it_is_counted_by_its_own_verdict() -> None:
    report = report_of(SAID)
    (box,) = report.boxes
    assert (box.verdict, report.count("fits"), report.count("incomplete")) == ("fits", 1, 0)
    assert (number_format.total(box), number_format.margin(box), box.open) == ("", "", ())


@pytest.mark.parametrize("form", ["page", "pdf", "text", "markdown"])
def test_each_form_has_its_line_with_figures_and_tables(form: str, tmp_path: Path) -> None:
    report = report_of(SAID)
    (box,) = report.boxes
    made: dict[str, Callable[[], str]] = {
        "page": lambda: page_of(report),
        "pdf": lambda: in_pdf(report, tmp_path),
        "text": lambda: "\n".join(plain_text(box)),
        "markdown": lambda: "\n".join(markdown(box)),
    }
    text = made[form]()
    for due in ("6 THHN conductors", "16 at most", WORKING, SECTION, STANDING[0].says):
        assert due in " ".join(text.split()), due
    for wrong in ("13.50", "No single change", "volume is not known", "capacity unknown"):
        assert wrong not in text, wrong


def test_the_lines_stand_in_the_json() -> None:
    data = json.loads("".join(json_renderer.pieces(report_of(SAID))))
    Draft202012Validator(schema("report")).validate(data)
    body = data["boxes"][0]["conduit_body"]
    assert (body["shape"], body["raceway"], body["size_in"]) == ("LB", "emt", "0.75")
    (line,) = body["lines"]
    assert (line["have"], line["limit"], line["unit"]) == ("6", "16", "conductors")
    assert (line["working"], line["section"], line["holds"]) == (WORKING, SECTION, True)


def test_the_lines_stand_in_the_table_file() -> None:
    rows = list(csv.DictReader(io.StringIO("".join(csv_renderer.pieces(report_of(SAID))))))
    told, line = [row for row in rows if row["row"] == "conduit_body"]
    assert told["verdict"] == "fits"
    assert "16 at most" in told["note"]
    assert (line["have"], line["limit"], line["section"]) == ("6", "16", SECTION)
    assert WORKING in line["note"]
    assert not [row for row in rows if row["row"] == "line"]


def test_where_its_tables_were_read_stands_in_the_annex() -> None:
    assert SECTION in [use.section for use in references(report_of(SAID)).rules]


@pytest.mark.parametrize("form", [plain_text, markdown])
def test_one_that_is_over_says_what_would_hold_it(
    form: Callable[[BoxReport], Iterator[str]],
) -> None:
    """0.4 x 0.304 / 0.0133 is 9.14; 16 in the next size, as above."""
    report = report_of("LL, half inch EMT, ten 12 THHN passing through")
    (box,) = report.boxes
    text = "\n".join(form(box))
    assert (box.verdict, report.count("over")) == ("over", 1)
    assert "9 at most" in text
    assert "3/4 inch EMT" in text


def test_mixed_conductors_go_by_their_area() -> None:
    """3 x 0.0211 + 4 x 0.0133 = 0.1165 of 0.4 x 0.533 = 0.2132."""
    (box,) = report_of("LB 3/4 inch EMT, three 10s and four 12s THHN, no splices").boxes
    text = "\n".join(plain_text(box))
    assert "0.1165" in text
    assert "0.2132" in text
    assert "0.4 x 0.533" in text


def test_one_with_splices_is_counted_by_its_volume(tmp_path: Path) -> None:
    """314.16(C)(2), (B)(1), (5): 4 x 2.25 and one allowance for the grounds, 11.25 of 8.8."""
    report = report_of(
        "LB marked 8.8 cubic inches, hot, neutral and ground all number 12, each spliced", "yes"
    )
    (box,) = report.boxes
    assert (box.verdict, number_format.total(box)) == ("over", "11.25")
    text = in_pdf(report, tmp_path)
    assert "314.16(C)(2)" in text
    assert "11.25" in text


def test_one_that_may_hold_no_splice_says_why() -> None:
    report = report_of("short radius conduit body with two number 12, each spliced")
    (box,) = report.boxes
    assert box.verdict == "over"
    assert "314.16(C)(3)" in page_of(report)
    assert "No single change" not in page_of(report)
