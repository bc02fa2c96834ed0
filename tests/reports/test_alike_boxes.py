"""Boxes that were told alike are worked out and written once, each under a name of its own."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.reports import BoxReport, html_renderer, job_report, report_builder
from boxaloud.assistant.reports.html_renderer import pieces

BOX = ("two 14-2 cables and a switch", "no clamps", "18 cubic inches")


def job(*names: str) -> Conversation:
    """A job of boxes that were told alike, under these names; the first has the one it begins
    with."""
    talking = Conversation()
    for words in BOX:
        talking.hear(words)
    for name in names:
        talking.hear(f"next box {name}")
        for words in BOX:
            talking.hear(words)
    return talking


def test_each_has_its_name_and_number() -> None:
    page = "".join(pieces(job_report(job("hall", "porch"), "Heron")))
    headings = re.findall(r'<h3 id="box-(\d+)">(\d+)\. ([^<]*)</h3>', page)
    assert headings == [("1", "1", "Box 1"), ("2", "2", "Hall"), ("3", "3", "Porch")]
    assert re.findall(r'<figcaption id="fill-(\d+)">', page) == ["1", "2", "3"]
    for name in ("box 1", "hall", "porch"):
        assert len(re.findall(rf"<caption>[^<]*\b{name}\b", page)) == 2


def test_a_name_is_escaped_in_every_place() -> None:
    found = job_report(job("hall"), "Heron").boxes[-1]
    made = str(html_renderer.article(replace(found, name="a <b> & c"), 7, "in3"))
    assert "<b>" not in made
    assert made.count("&lt;b&gt; &amp; c") == 3  # the heading and the captions of two tables


def test_nothing_of_one_is_shown_of_another_told_otherwise() -> None:
    talking = job("hall")
    talking.hear("one more 14-2 cable")
    first, second = job_report(talking, "Heron").boxes
    # Table 314.16(B)(1): 7 allowances of 2.00 for 14 AWG, and 9 with two conductors more
    assert (str(first.sheet.total), str(second.sheet.total)) == ("14.00", "18.00")
    assert first.said != second.said


def test_what_was_told_alike_is_worked_out_once(monkeypatch: pytest.MonkeyPatch) -> None:
    worked: list[str] = []
    real = report_builder.box_report

    def counted(talk: Talk) -> BoxReport:
        worked.append(talk.name)
        return real(talk)

    monkeypatch.setattr(report_builder, "box_report", counted)
    assert len(job_report(job("hall", "porch", "stair"), "Heron").boxes) == 4
    assert worked == ["box 1"]
