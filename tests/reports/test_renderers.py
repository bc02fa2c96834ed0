"""What a report says: published numbers, the words of the speaker, and nothing that misleads."""

from __future__ import annotations

import csv
import io
import json
import re
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
from boxaloud.assistant.reports.source_annex import references
from boxaloud.assistant.reports.text_renderer import markdown, plain_text
from boxaloud.assistant.text.problem import Problem
from jsonschema import Draft202012Validator


def told(*lines: str) -> JobReport:
    conversation = Conversation()
    for line in lines:
        conversation.hear(line)
    return job_report(conversation, "Heron Street")


# Box Fill Calculations, DIY Chatroom thread 102858: exactly full at 18.0
FULL = told("18 cubic inch box", "three 14-2 cables", "a receptacle", "no clamps")
# the same thread: internal clamps would add 2.0
OVER = told("18 cubic inch box", "three 14-2 cables", "a receptacle", "clamps inside")


def test_a_full_box_is_reported_as_published() -> None:
    (box,) = FULL.boxes
    assert number_format.verdict_line(box) == (
        "Fits under 314.16, edition 2023: 18.00 of 18.0 in³, margin 0.00."
    )
    assert [words.split(" with")[0] for words in box.contents] == [
        "three 14-2 cables",
        "one receptacle",
    ]
    assert box.said == ("18 cubic inch box", "three 14-2 cables", "a receptacle", "no clamps")
    assert box.advice == ()


def test_a_box_that_is_over_says_by_how_much_and_what_to_do() -> None:
    (box,) = OVER.boxes
    assert number_format.margin(box) == "over by 2.00"
    assert box.recommended is not None
    assert box.recommended.kind == "clamp_outside"
    assert box.recommended.section == "314.16(B)(2)"
    (material,) = OVER.materials
    assert (material.quantity, material.boxes) == (3, ("box 1",))


def test_early_verdicts_say_what_they_rest_on() -> None:
    """Two 14-2 and a switch are 14.00 (314.16(B), 2.00 each), 16.00 if clamps are inside."""
    (box,) = told("18 cubic inch box", "two 14-2 cables", "a switch").boxes
    assert number_format.verdict_line(box) == (
        "Fits under 314.16, edition 2023, whatever the open answers are: "
        "at most 16.00 of 18.0 in³, margin at least 2.00."
    )
    assert box.open == ("whether cable clamps are inside the box",)


def test_what_was_said_and_not_used_is_reported() -> None:
    (box,) = told("18 cubic inch box", "two 14-2 cables and a flurbled 7 gromnet").boxes
    assert box.unused
    assert "Said and not used" in "".join(
        html_renderer.pieces(told("two 14-2 cables and 7 gromnets"))
    )


def test_words_that_only_steer_are_no_boxes_and_no_contents() -> None:
    report = told("next box hall", "two 14-2 cables", "list the boxes", "next box loft")
    assert [box.name for box in report.boxes] == ["hall"]
    assert report.boxes[0].said == ("two 14-2 cables",)


def test_the_demo_has_a_dozen_boxes_of_every_kind(report: JobReport) -> None:
    assert len(report.boxes) >= 12
    assert all(box.unused == () for box in report.boxes), "the demo must be understood"
    for verdict in ("fits", "over", "incomplete"):
        assert report.count(verdict)
    margins = [box.sheet.margin for box in report.boxes if box.verdict == "fits"]
    assert any(margin is not None and margin <= 1 for margin in margins), "none is tight"
    assert any(margin is not None and margin >= 4 for margin in margins), "none is easy"


def test_every_form_names_every_box_total_and_section(report: JobReport, page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    rows = "".join(csv_renderer.pieces(report))
    data = "".join(json_renderer.pieces(report))
    for box in report.boxes:
        assert number_format.capital(box.name) in text
        for form in (rows, data):
            assert box.name in form
        for line in box.sheet.lines:
            assert line.section in text
            assert line.section in rows
            assert line.section in data
    for caution in report.standing:
        assert caution in text


def test_it_never_says_safe_or_legal(report: JobReport, page: Path) -> None:
    for text in (page.read_text(encoding="utf-8"), "".join(plain_text(report.boxes[2]))):
        assert not re.search(r"\b(safe|legal|safely|legally)\b", text, re.IGNORECASE)


def test_json_fits_its_schema(report: JobReport) -> None:
    data = json.loads("".join(json_renderer.pieces(report)))
    validator = Draft202012Validator(schema("report"))
    validator.validate(data)
    assert not validator.is_valid(data | {"counts": {}})
    sheet = {key: data["boxes"][0][key] for key in schema("worksheet")["properties"]}
    Draft202012Validator(schema("worksheet")).validate(sheet)


HOSTILE = "=HYPERLINK(\"x\")<script>alert('1')</script>&"


def test_no_cell_of_the_csv_begins_a_formula() -> None:
    report = told("18 cubic inch box", "three 14-2 cables", "clamps inside", "three switches")
    report = JobReport(HOSTILE, "in3", "", "", report.boxes, report.standing)
    rows = list(csv.reader(io.StringIO("".join(csv_renderer.pieces(report)))))
    assert all(not cell.startswith(("=", "+", "-", "@")) for row in rows for cell in row)
    over = next(row for row in csv_rows(report) if row["row"] == "line")
    assert over["job"] == f"'{HOSTILE}"
    assert (over["margin_in3"], over["verdict"]) == ("", "over")


def csv_rows(report: JobReport) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO("".join(csv_renderer.pieces(report)))))


def test_a_caution_stands_once_in_the_csv(report: JobReport) -> None:
    """Past defect this prevents: the same three hundred letters on every row."""
    rows = csv_rows(report)
    notes = [row["note"] for row in rows if row["row"] == "caution" and not row["box"]]
    assert notes == list(report.standing)
    for box in report.boxes:
        told = [r["note"] for r in rows if (r["row"], r["box"]) == ("caution", box.name)]
        assert told == list(box.cautions)
    assert all(row["note"] == "" for row in rows if row["row"] == "line")


def test_sources_stand_in_an_annex_with_what_they_are(report: JobReport) -> None:
    """Past defect this prevents: the number of a forum thread beside a line of a worksheet."""
    found = references(report)
    read = [row for row in csv_rows(report) if row["row"] == "source"]
    assert [int(row["line"]) for row in read] == [use.number for use in found.sources]
    assert all(row["note"] for row in read)
    page = "".join(html_renderer.pieces(report))
    sheets, _, annex = page.partition("Annex: where each section was read")
    forums = [use for use in found.sources if use.source.kind == "forum"]
    assert forums
    for use in found.sources:
        assert str(use.source) not in unescape(sheets)
        assert str(use.source) in unescape(annex)
    assert annex.count("the opinion of those who wrote it") == len(forums)
    assert found.sources[-1].source.kind in ("forum", "none")


def test_names_are_escaped_in_every_form(tmp_path: Path) -> None:
    report = told(f"next box {HOSTILE}", "18 cubic inch box", f"two 14-2 cables {HOSTILE}")
    text = "".join(html_renderer.pieces(report))
    assert "<script" not in text
    assert "&lt;script&gt;" in text
    assert "<script" not in "\n".join(markdown(report.boxes[0])).replace("\\<script", "")
    write(report, tmp_path / "report.pdf")
    assert (tmp_path / "report.pdf").read_bytes().startswith(b"%PDF")


def test_a_worksheet_to_share_reads_line_by_line() -> None:
    """The same published box; the text has no table, the Markdown one that is whole."""
    (box,) = FULL.boxes
    text = list(plain_text(box))
    assert text[:2] == ["Box fill: Box 1", number_format.verdict_line(box)]
    assert "Six 14 AWG conductors: 12.00 in³ (6 of 14 AWG), 314.16(B)(1)" in text
    assert "Total: 18.00 in³" in text
    table = [line for line in markdown(box) if line.startswith("|")]
    assert {line.replace("\\|", "").count("|") for line in table} == {6}
    assert any("314.16(B)(5)" in line for line in table)


@pytest.mark.parametrize("form", ["html", "pdf", "csv", "json"])
def test_a_report_is_written_whole_or_not_at_all(
    form: str, report: JobReport, tmp_path: Path
) -> None:
    path = tmp_path / f"report.{form}"
    write(report, path)
    before = path.read_bytes()
    assert len(before) > 5000
    with pytest.raises(Problem, match=r"cannot be written: No such file"):
        write(report, tmp_path / "nowhere" / f"report.{form}")
    assert list(tmp_path.iterdir()) == [path]


def test_a_form_that_is_none_is_refused_in_a_sentence(report: JobReport, tmp_path: Path) -> None:
    with pytest.raises(Problem, match=r"end it with \.html, \.pdf, \.csv or \.json"):
        write(report, tmp_path / "report.docx")


def test_an_empty_job_has_a_report_too(tmp_path: Path) -> None:
    for form in ("html", "pdf", "csv", "json"):
        write(job_report(Conversation(), "Empty"), tmp_path / f"report.{form}")


def test_cubic_centimetres_are_shown_where_the_job_asks() -> None:
    """18.00 in³ is 295.0 cm³ (1 in = 2.54 cm, by definition)."""
    report = JobReport("Heron", "cm3", "", "", FULL.boxes, FULL.standing)
    assert "18.00 (295.0 cm³) in³ counted" in "".join(html_renderer.pieces(report))
