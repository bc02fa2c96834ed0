"""Whatever was said reaches the page as words: never as mark-up, an attribute or a control code."""

from __future__ import annotations

import re
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import boxaloud.assistant.reports
import pytest
from boxaloud.assistant.reports import JobReport, html_renderer

HOSTILE = [
    "<script>alert('1')</script>",
    "\"><img src=x onerror='alert(1)'>",
    "</title></style></article><h1>other",
    "<!-- {{ report.name }} {% raw %} {# all #} -->",
    "&lt;b&gt; & &amp; &#x3c;",
    "' onclick=alert(1) autofocus='",
    "]]><svg/onload=alert(1)>",
    "back `tick` \\u003cscript\\u003e",
]


class Words(HTMLParser):
    """The elements of a page, their attributes, and its words."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.elements: set[str] = set()
        self.attributes: set[str] = set()
        self.words: list[str] = []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.add(tag)
        self.attributes |= {name for name, _ in attrs}

    def handle_data(self, data: str) -> None:
        self.words.append(data)


@pytest.fixture(scope="module")
def plain(report: JobReport) -> Words:
    return Words("".join(html_renderer.pieces(report)))


@pytest.mark.parametrize("words", HOSTILE)
def test_words_of_a_user_stay_words(words: str, report: JobReport, plain: Words) -> None:
    boxes = tuple(
        replace(
            box, name=words, said=(words,), unused=(words,), contents=(words,), assumed=(words,),
            open=(words,),
        )
        for box in report.boxes
    )  # fmt: skip
    page = Words("".join(html_renderer.pieces(replace(report, name=words, boxes=boxes))))
    assert page.elements == plain.elements
    assert page.attributes == plain.attributes
    shown = "\n".join(page.words)
    capital = words[0].upper() + words[1:]
    assert f"Box fill: {words}" in shown
    assert shown.count(f"“{words}”") == 2 * len(boxes)
    assert shown.count(capital) >= 5 * len(boxes)


def test_characters_that_no_document_may_hold_are_dropped(report: JobReport) -> None:
    """XML 1.0, 2.2: no control character but tab, line feed and carriage return."""
    page = "".join(html_renderer.pieces(replace(report, name="a\x00b\x1b[31mc\u202ed")))
    assert "Box fill: ab[31mcd" in page
    assert not re.search("[\x00-\x08\x0b\x0c\x0e-\x1f\u202e]", page)


@pytest.mark.parametrize("blank", ["\u00a0", "\u2009", "\u2028", "\u3000"])
def test_a_blank_of_any_kind_parts_words(blank: str, report: JobReport) -> None:
    """Past defect this prevents: “14-2 2” with a blank that does not break, shown as “14-22”."""
    page = "".join(html_renderer.pieces(replace(report, name=f"14-2{blank}2 cables")))
    assert "Box fill: 14-2 2 cables" in page


def test_no_mark_up_is_made_by_hand() -> None:
    """Past defect this prevents: a value that somebody forgets to escape in a string of ours."""
    folder = Path(boxaloud.assistant.reports.__file__).parent
    for path in folder.glob("*.py"):
        assert not re.search(r"</?[a-z][a-z0-9]*[ >]|html\.escape", path.read_text("utf-8")), path


def test_a_large_job_is_never_held_whole(report: JobReport) -> None:
    """Past defect this prevents: the summary of 20,000 boxes as one string."""
    boxes = report.boxes * 40
    sizes = [len(piece) for piece in html_renderer.pieces(replace(report, boxes=boxes))]
    assert max(sizes) * 50 < sum(sizes)
