"""What was told of the project is in every form of a report, and there are lines to sign on."""

from __future__ import annotations

import csv
import io
import json
import re
from dataclasses import asdict, replace
from html import unescape
from pathlib import Path

import pytest
from boxaloud.assistant.contract.document_schemas import schema
from boxaloud.assistant.reports import (
    JobReport,
    Project,
    csv_renderer,
    html_renderer,
    json_renderer,
)
from boxaloud.assistant.reports.report_export import write
from boxaloud.assistant.reports.text_renderer import markdown, plain_text
from jsonschema import Draft202012Validator

TOLD = Project(
    site="Heron Street <plot 7>",
    address="7 Heron Street, Wexcombe",
    permit="E-2041 & E-2042",
    contractor="Дом Łódź Wiring",
    prepared_by="Ada *Quill*",
    licence="=J-118",
    date="2026-11-20",
)
LABELS = ("Site", "Address", "Permit", "Contractor", "Prepared by", "Licence", "Date")
DUE = list(zip(LABELS, asdict(TOLD).values(), strict=True))


@pytest.fixture(scope="module")
def told(report: JobReport) -> JobReport:
    return replace(report, project=TOLD)


def test_the_page_has_each_field_and_lines_to_sign(told: JobReport, report: JobReport) -> None:
    page = "".join(html_renderer.pieces(told))
    found = re.findall(r"<dt>(.*?)</dt><dd>(.*?)</dd>", page)
    assert [(unescape(label), unescape(words)) for label, words in found] == DUE
    assert "<plot" not in page
    assert page.count('class="blank">Signature<') == 2
    bare = "".join(html_renderer.pieces(report))
    assert "<dt>" not in bare
    assert bare.count('class="blank">Signature<') == 2


def test_the_pdf_has_each_field_and_lines_to_sign(told: JobReport, tmp_path: Path) -> None:
    pypdf = pytest.importorskip("pypdf", reason="pypdf reads back what was written")
    write(told, tmp_path / "told.pdf")
    pages = [page.extract_text() for page in pypdf.PdfReader(tmp_path / "told.pdf").pages]
    lines = [line.removeprefix("– ") for line in pages[0].splitlines()]
    first = lines.index(f"Site: {TOLD.site}")
    assert lines[first : first + 7] == [f"{label}: {words}" for label, words in DUE]
    signed = [page for page in pages if "Signatures" in page]
    assert len(signed) == 1
    assert re.findall(r"^(?:Prepared|Reviewed) by$", signed[0], re.M) == [
        "Prepared by",
        "Reviewed by",
    ]


def test_the_text_has_each_field_and_lines_to_sign(report: JobReport) -> None:
    box = report.boxes[0]
    lines = list(plain_text(box, TOLD))
    assert lines[1:8] == [f"{label}: {words}" for label, words in DUE]
    assert sum("signature ____" in line for line in lines) == 2
    marked = "\n".join(markdown(box, TOLD))
    assert "- Prepared by: Ada \\*Quill\\*" in marked
    assert "\\<plot 7>" in marked
    assert not any("signature" in line for line in plain_text(box))


def test_the_data_has_every_field(told: JobReport, report: JobReport) -> None:
    data = json.loads("".join(json_renderer.pieces(told)))
    assert data["project"] == asdict(TOLD)
    check = Draft202012Validator(schema("report"))
    check.validate(data)
    check.validate(json.loads("".join(json_renderer.pieces(report))))
    assert not check.is_valid(data | {"project": {"site": "Plot 7"}})


def test_the_table_of_rows_has_each_field(told: JobReport) -> None:
    rows = list(csv.DictReader(io.StringIO("".join(csv_renderer.pieces(told)))))
    found = [(row["counted"], row["note"]) for row in rows if row["row"] == "project"]
    assert found == [(label, words.replace("=J", "'=J")) for label, words in DUE]
