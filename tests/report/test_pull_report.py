"""A pull box in the report: its least dimensions with their sections, and a drawing to scale."""

from __future__ import annotations

import json
import re

from boxaloud.assistant.cli.commands.schema_command import schema
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.report.pull_drawing import pull_section
from boxaloud.assistant.reports import JobReport, html_renderer, job_report, json_renderer
from jsonschema import Draft202012Validator

SAID = "angle pull, a 3 inch and a 2 inch from the left to the top"
"""314.28(A)(2): 6 x 3 + 2 is 20 both ways (EC&M, March 2022)."""


def report_of(*said: str) -> JobReport:
    conversation = Conversation()
    for words in said:
        conversation.hear(words)
    return job_report(conversation, "barn")


def test_the_drawing_is_to_scale() -> None:
    report = report_of(SAID)
    (box,) = report.boxes
    assert box.pull is not None
    page = pull_section(box.pull, 1)
    found = re.findall(r'<rect x="\S+" y="\S+" width="(\S+)" height="(\S+)" class="(\w+)"', page)
    (track,) = [(float(w), float(h)) for w, h, kind in found if kind == "track"]
    assert track[0] == track[1]
    inch = track[0] / 20
    stubs = sorted(min(float(w), float(h)) for w, h, kind in found if kind != "track")
    assert stubs == [2 * inch, 2 * inch, 3 * inch, 3 * inch]
    assert page.count("314.28(A)(2)") >= 4


def test_the_page_holds_it() -> None:
    page = "".join(html_renderer.pieces(report_of(SAID)))
    assert "Pull box: least distances" in page
    assert not re.search(r"\b(safe|legal)\b", page)


def test_the_lines_stand_in_the_json() -> None:
    report = report_of(SAID)
    data = json.loads("".join(json_renderer.pieces(report)))
    Draft202012Validator(schema("report")).validate(data)
    pull = data["boxes"][0]["pull_box"]
    assert (pull["width_in"], pull["height_in"], pull["depth_in"]) == ("20", "20", None)
    assert [line["inches"] for line in pull["lines"]] == ["20", "20", "18", "12"]


def test_a_pull_box_that_is_open_has_no_drawing() -> None:
    report = report_of("pull box with two 3 inch conduits")
    (box,) = report.boxes
    assert box.pull is None
