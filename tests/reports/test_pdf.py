"""The PDF as a reader of PDF files has it: its letters, its pages, and what stands together."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from boxaloud.assistant.reports import JobReport, number_format
from boxaloud.assistant.reports.pdf_drawing import document
from boxaloud.assistant.reports.pdf_fonts import Fonts
from boxaloud.assistant.reports.pdf_layout import FOOT, MARGIN, Block, Tag, pages
from boxaloud.assistant.reports.report_export import write
from boxaloud.assistant.reports.report_messages import say

pypdf = pytest.importorskip("pypdf", reason="pypdf reads back what was written")

HEADINGS = ("cautions", "summary", "materials", "boxes", "rules", "sources")


def read(report: JobReport, folder: Path) -> list[list[str]]:
    """The lines of each page, the last of which is its foot."""
    write(report, folder / "report.pdf")
    found = pypdf.PdfReader(folder / "report.pdf")
    texts = (page.extract_text() for page in found.pages)
    return [[line.rstrip() for line in text.splitlines()] for text in texts]


def words_of(found: list[list[str]]) -> str:
    return " ".join(line for lines in found for line in lines)


def long_job(report: JobReport, first: int = 0) -> JobReport:
    """Boxes of every height, some of more than a page."""
    boxes = (report.boxes * 3)[first:]
    boxes = tuple(
        replace(box, said=box.said * (1 + number % 5 * 3 + (number == 7) * 90))
        for number, box in enumerate(boxes)
    )
    return replace(report, boxes=boxes)


@pytest.mark.parametrize(
    "words", ["Дом Łódź", "Οικία Ελένη", "Đường số 3", "Tŷ Ŵyn", "“Café” – №2"]
)
def test_letters_of_other_scripts_are_there(words: str, report: JobReport, tmp_path: Path) -> None:
    boxes = (replace(report.boxes[0], name=words, said=(words,)),)
    text = words_of(read(replace(report, name=words, boxes=boxes), tmp_path))
    assert f"Box fill: {words}" in text
    assert f"1. {words[0].upper()}{words[1:]}" in text
    assert f"“{words}”" in text
    assert say("page.lacking") not in text


def test_letters_that_are_not_there_are_told(report: JobReport, tmp_path: Path) -> None:
    text = words_of(read(replace(report, name="東 House"), tmp_path))
    assert "Box fill: \N{REPLACEMENT CHARACTER} House" in text
    assert say("page.lacking") in text


def test_every_page_says_which_of_how_many(report: JobReport, tmp_path: Path) -> None:
    found = read(long_job(report), tmp_path)
    assert len(found) > 20
    for number, lines in enumerate(found, 1):
        assert lines[-1] == f"{report.name}, page {number} of {len(found)}"


@pytest.fixture(scope="module", params=range(0, 14, 4))
def long(
    request: pytest.FixtureRequest, report: JobReport, tmp_path_factory: pytest.TempPathFactory
) -> tuple[JobReport, list[list[str]]]:
    """A job whose pages break at other places each time."""
    found = long_job(report, request.param)
    return found, read(found, tmp_path_factory.mktemp("long"))


def test_no_heading_is_alone_at_the_foot(long: tuple[JobReport, list[list[str]]]) -> None:
    report, found = long
    titles = {say(f"section.{key}") for key in HEADINGS} | {say("gauge.key")}
    titles |= {f"{n}. {number_format.capital(b.name)}" for n, b in enumerate(report.boxes, 1)}
    titles |= {say(f"part.{key}") for key in ("advice", "contents", "said", "open", "cautions")}
    for lines in found:
        assert lines[-2].strip() not in titles


def test_a_worksheet_is_whole_on_a_page(long: tuple[JobReport, list[list[str]]]) -> None:
    report, found = long
    for number, box in enumerate(report.boxes, 1):
        title = f"{number}. {number_format.capital(box.name)}"
        (page,) = (lines for lines in found if title in lines)
        after = " ".join(page[page.index(title) :])
        assert number_format.verdict_line(box) in after
        places = [after.index(number_format.capital(line.what)) for line in box.sheet.lines]
        assert places == sorted(places)
        assert f"{number_format.total_name(box)} {number_format.lines_total(box)}" in after
        for part in box.sheet.volumes:
            assert f"{number_format.capital(part.what)}: " in after


def test_nothing_is_lost_where_a_box_is_longer_than_a_page(
    report: JobReport, tmp_path: Path
) -> None:
    long = "xyzw" * 400
    said = (*(f"line {number}" for number in range(150)), long)
    boxes = (replace(report.boxes[0], said=said),)
    text = words_of(read(replace(report, boxes=boxes), tmp_path))
    assert all(f"“line {number}”" in text for number in range(150))
    assert text.replace(" ", "").count("xyzw") == 400


def test_a_long_name_stays_on_the_page(report: JobReport, tmp_path: Path) -> None:
    """Past defect this prevents: a foot that begins left of the paper."""
    path = tmp_path / "report.pdf"
    write(replace(report, name="Heron Street " * 40, boxes=report.boxes[:1]), path)
    lefts: list[float] = []

    def visit(text: str, _: object, place: list[float], *rest: object) -> None:
        if text.strip():
            lefts.append(place[4])

    for page in pypdf.PdfReader(path).pages:
        page.extract_text(visitor_text=visit)
        foot = page.extract_text().splitlines()[-1]
        assert re.fullmatch(r"Heron Street .*…, page \d+ of \d+", foot)
    assert min(lefts) >= MARGIN - 1


def test_a_word_without_end_is_broken_in_time_that_grows_with_it(report: JobReport) -> None:
    """Each letter is measured once, not each beginning of the word."""
    fonts = Fonts(document("Heron"))
    lines = fonts.lines("m" * 20_000, 9, 100)
    assert "".join(lines) == "m" * 20_000
    assert all(fonts.width(line, 9) <= 100 for line in lines)
    assert len(fonts._widths) < 5_000


def test_blocks_held_together_are_on_one_page_and_none_runs_off_it() -> None:
    room = FOOT - MARGIN
    heads = Block(10)
    blocks = [Block(room - 50), Block(30, holds_next=True), Block(30), Block(room - 90)]
    blocks += [Block(40, repeats=heads), Block(room + 5, holds_next=True), Block(10)]
    laid = pages(blocks)
    where = {id(block): n for n, page in enumerate(laid) for _, block in page.blocks}
    assert where[id(blocks[1])] == where[id(blocks[2])] == where[id(blocks[0])] + 1
    assert laid[2].blocks[0][1] == replace(heads, tag=Tag("nothing"))
    assert all(page.filled <= FOOT for page in laid if len(page.blocks) > 1)
