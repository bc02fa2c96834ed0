"""A pull box in the report: its least dimensions with their sections, and a drawing to scale."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Callable, Iterator
from html import unescape
from pathlib import Path

import pytest
from boxaloud.assistant.contract.document_schemas import schema
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.dialogue.nlg.sentences import say
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

SAID = "angle pull, a 3 inch and a 2 inch from the left to the top"
"""314.28(A)(2): 6 x 3 + 2 is 20 both ways; the same conductors enter and leave 6 x 3 = 18 and
6 x 2 = 12 apart (EC&M, March 2022)."""
LEAST = ["20", "20", "18", "12"]


def report_of(*said: str) -> JobReport:
    conversation = Conversation()
    for words in said:
        conversation.hear(words)
    return job_report(conversation, "barn")


def page_of(report: JobReport) -> str:
    return "".join(html_renderer.pieces(report))


def plan_of(page: str) -> tuple[list[float], list[list[float]]]:
    """Width and height of the drawn box, and of each raceway."""
    svg = page.partition('class="plan"')[2].partition("</svg>")[0]
    found = re.findall(r'<rect x="\S+" y="\S+" width="(\S+)" height="(\S+)" class="(\w+)"', svg)
    (box,) = [[float(w), float(h)] for w, h, kind in found if kind == "track"]
    return box, [[float(w), float(h)] for w, h, kind in found if kind != "track"]


def test_the_drawing_is_to_scale() -> None:
    box, raceways = plan_of(page_of(report_of(SAID)))
    assert box[0] == box[1]
    inch = box[0] / 20
    assert sorted(map(min, raceways)) == [2 * inch, 2 * inch, 3 * inch, 3 * inch]


def test_a_side_that_no_pull_sets_is_told() -> None:
    """314.28(A)(1): 8 x 3 is 24 from left to right (EC&M, March 2022); up and down is open."""
    page = page_of(report_of("straight pull, a 3 inch from the left to the right"))
    box, raceways = plan_of(page)
    assert box[0] == box[1] == min(raceways[0]) / 3 * 24
    caption = page.partition('<figcaption id="pull-1">')[2].partition("</figcaption>")[0]
    assert "width 24" in caption
    assert "height: it is drawn" in caption


def test_the_page_holds_it() -> None:
    page = unescape(page_of(report_of(SAID)))
    table = page.partition('<table class="pull">')[2].partition("</table>")[0]
    assert re.findall(r'data-name="At least">(\S+)</td>', table) == LEAST
    assert table.count("314.28(A)(2)") == 4
    assert STANDING[0].says in page
    assert not re.search(r"\b(safe|legal)\b", page)
    assert "No single" not in page
    assert "0.00 in³" not in page, "nothing in it counts by volume"


def test_the_lines_stand_in_the_json() -> None:
    data = json.loads("".join(json_renderer.pieces(report_of(SAID))))
    Draft202012Validator(schema("report")).validate(data)
    pull = data["boxes"][0]["pull_box"]
    assert (pull["width_in"], pull["height_in"], pull["depth_in"]) == ("20", "20", None)
    assert [line["inches"] for line in pull["lines"]] == LEAST


def test_the_lines_stand_in_the_table_file() -> None:
    rows = list(csv.DictReader(io.StringIO("".join(csv_renderer.pieces(report_of(SAID))))))
    told, *pulls = [row for row in rows if row["row"] == "pull_box"]
    assert told["note"].startswith("The box is at least 20 wide and 20 high")
    assert [row["least_in"] for row in pulls] == LEAST
    assert {row["section"] for row in pulls} == {"314.28(A)(2)"}
    assert not [row for row in rows if row["row"] == "line"]


@pytest.mark.parametrize("form", [plain_text, markdown])
def test_the_lines_stand_in_text(form: Callable[[BoxReport], Iterator[str]]) -> None:
    (box,) = report_of(SAID).boxes
    text = "\n".join(form(box))
    for inches in LEAST:
        assert re.search(rf"\b{inches}\b[^\n]*314\.28\(A\)\(2\)", text)
    assert "0.00 in³" not in text
    assert STANDING[0].says in text


def test_the_lines_stand_in_the_pdf(tmp_path: Path) -> None:
    write(report_of(SAID), tmp_path / "barn.pdf")
    text = "\n".join(page.extract_text() for page in pypdf.PdfReader(tmp_path / "barn.pdf").pages)
    assert text.count("314.28(A)(2)") >= 4
    assert "6 x 3 + 2" in text
    assert "0.00 in³" not in text


def test_where_its_sections_were_read_stands_in_the_annex() -> None:
    assert "314.28(A)(2)" in [use.section for use in references(report_of(SAID)).rules]


def test_a_box_that_is_too_small_is_told_in_every_form(tmp_path: Path) -> None:
    """18 inches that were measured are less than the 20 of 314.28(A)(2)."""
    report = report_of(SAID, "the box is 18 by 18 by 6 inches")
    (box,) = report.boxes
    assert box.pull is not None
    write(report, tmp_path / "barn.pdf")
    pages = pypdf.PdfReader(tmp_path / "barn.pdf").pages
    forms = [
        "".join(renderer.pieces(report))
        for renderer in (html_renderer, csv_renderer, json_renderer)
    ]
    forms += ["\n".join(plain_text(box)), "\n".join(markdown(box))]
    forms.append(" ".join(page.extract_text() for page in pages))
    small = say("pull.small", axis="width", have="18", least="20", section="314.28(A)(2)")
    for form in forms:
        assert small in " ".join(unescape(form).split())
    assert report.too_small == 1
    assert number_format.verdict(box).endswith("too small for its pulls")


def test_a_box_that_is_large_enough_is_told_in_every_form(tmp_path: Path) -> None:
    """24 by 24 is more than the 20 by 20 of 314.28(A)(2)."""
    report = report_of(SAID, "the box is 24 by 24 by 6 inches")
    (box,) = report.boxes
    write(report, tmp_path / "barn.pdf")
    forms = [
        "".join(renderer.pieces(report))
        for renderer in (html_renderer, csv_renderer, json_renderer)
    ]
    forms += ["\n".join(plain_text(box)), "\n".join(markdown(box))]
    pages = pypdf.PdfReader(tmp_path / "barn.pdf").pages
    forms.append(" ".join(page.extract_text() for page in pages))
    for axis in ("width", "height"):
        fits = say("pull.fits", axis=axis, have="24", least="20", section="314.28(A)(2)")
        for form in forms:
            assert fits in " ".join(unescape(form).split())
    assert (report.count("fits"), report.too_small, box.look) == (1, 0, "fits")
    assert number_format.verdict(box).endswith("large enough")
    data = json.loads("".join(json_renderer.pieces(report)))
    Draft202012Validator(schema("report")).validate(data)
    pull = data["boxes"][0]["pull_box"]
    assert (pull["large_enough"], pull["too_small"]) == (True, False)
    held = [(one["dimension"], one["have_in"], one["least_in"]) for one in pull["box"]]
    assert held == [("width", "24", "20"), ("height", "24", "20")]


def areas_of(path: Path) -> list[tuple[float, float]]:
    """Width and height of each rectangle that a PDF draws and fills or frames, points."""
    found: list[tuple[float, float]] = []
    for page in pypdf.PdfReader(path).pages:
        drawn = page.get_contents().get_data().decode("latin-1")
        for wide, high in re.findall(r"[\d.-]+ [\d.-]+ ([\d.-]+) ([\d.-]+) re (?:S|B|f)\b", drawn):
            found.append((abs(float(wide)), abs(float(high))))
    return found


def test_the_drawing_of_the_pdf_is_to_scale(tmp_path: Path) -> None:
    """20 by 20, with raceways of 3 and 2 inches in two walls."""
    write(report_of(SAID), tmp_path / "barn.pdf")
    box, *stubs = areas_of(tmp_path / "barn.pdf")
    assert box[0] == pytest.approx(box[1], abs=0.1)
    inch = box[0] / 20
    assert sorted(min(one) / inch for one in stubs) == pytest.approx([2, 2, 3, 3], abs=0.05)


def test_the_drawing_of_the_pdf_is_told_to_who_cannot_see_it(tmp_path: Path) -> None:
    write(report_of("straight pull, a 3 inch from the left to the right"), tmp_path / "barn.pdf")
    pages = pypdf.PdfReader(tmp_path / "barn.pdf").pages
    text = " ".join(" ".join(page.extract_text() for page in pages).split())
    assert "To scale, from the front" in text
    assert "No pull sets the height: it is drawn as long as the other side." in text


def test_a_pull_box_with_devices_has_both() -> None:
    """It fits only by both, 314.16 and 314.28(A): nobody said how large it is inside."""
    report = report_of("18 cubic inch box", "two 14-2 cables", "no clamps", SAID)
    (box,) = report.boxes
    assert box.pull is not None
    assert (box.verdict, box.pull_alone) == ("incomplete", False)
    page = page_of(report)
    assert 'class="fill"' in page
    assert 'class="pull"' in page


def test_it_is_counted_by_itself() -> None:
    report = report_of(SAID)
    assert report.count("incomplete") == 0


def test_a_pull_box_that_is_open_has_no_drawing() -> None:
    report = report_of("pull box with two 3 inch conduits")
    (box,) = report.boxes
    assert box.pull is None
    assert report.count("incomplete") == 1
    assert 'class="plan"' not in page_of(report)


@pytest.mark.parametrize(
    ("said", "section"),
    [
        ("straight pull with one 3 conductor 4/0 cable", "314.28(A), Chapter 9 Table 1, 4 and 5"),
        ("LB, 1 inch EMT, three number 4 THHN, no splices, marked for three 4/0", "314.28(A)(3)"),
        ("C body, 1 inch EMT, three number 4 THHN, no splices, 8 inches long", "314.28(A)(1)"),
    ],
)
def test_what_else_it_rests_on_stands_in_the_annex(said: str, section: str) -> None:
    assert section in [use.section for use in references(report_of(said)).rules]
