"""The chart of a job by margin: on the side of the line that the verdict says, in every form."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.reports import JobReport, html_renderer, job_report
from boxaloud.assistant.reports.margin_chart import WIDTH, margin_chart
from boxaloud.assistant.reports.report_export import write


def chart_of(*boxes: str) -> JobReport:
    conversation = Conversation()
    for number, words in enumerate(boxes):
        conversation.hear(f"next box room {number}, {words}")
    return job_report(conversation, "Heron")


def test_no_bar_is_on_the_other_side_of_the_line_than_its_verdict(report: JobReport) -> None:
    strips = margin_chart(report)
    assert [strip.box.name for strip in strips] != [box.name for box in report.boxes]
    assert {strip.box.name for strip in strips} == {box.name for box in report.boxes}
    for strip in strips:
        if strip.limit is None:
            assert strip.box.sheet.capacity is None
            continue
        assert strip.least is not None
        assert strip.most is not None
        assert 0 <= strip.least <= strip.most <= WIDTH
        if strip.box.verdict == "over":
            assert strip.least > strip.limit
        if strip.box.verdict == "fits":
            assert strip.most <= strip.limit


def test_the_order_is_that_of_the_margins() -> None:
    # 314.16(B): 14 AWG 2.00, 12 AWG 2.25. 14.00 of 18.0 leaves 4.00, 14.00 of 14.0 nothing,
    # 20.25 of 18.0 lacks 2.25; without a volume there is no margin
    found = margin_chart(
        chart_of(
            "two 14-2s and a switch, 18 cubic inches, no clamps",
            "two 14-2s and a switch, no clamps",
            "three 12-2s and a receptacle, 18 cubic inches, no clamps",
            "two 14-2s and a switch, 14 cubic inches, no clamps",
        )
    )
    assert [strip.box.name for strip in found] == ["room 2", "room 3", "room 0", "room 1"]
    assert [strip.told for strip in found] == [
        "over by 2.25",
        "fits, margin 0.00",
        "fits, margin 4.00",
        "not finished",
    ]
    assert found[1].most == found[1].limit
    assert found[0].limit == found[2].limit


def test_what_is_over_many_times_is_drawn_as_twice() -> None:
    ten = "ten 12-2s and a receptacle, 8 cubic inches, no clamps"
    (most, _) = margin_chart(chart_of(ten, "two 14-2s and a switch, 18 cubic inches, no clamps"))
    assert most.limit is not None
    assert most.least == pytest.approx(2 * most.limit, abs=Decimal("0.02"))
    assert most.least <= WIDTH


def test_one_box_has_no_chart(report: JobReport) -> None:
    assert margin_chart(replace(report, boxes=report.boxes[:1])) == ()
    assert 'class="chart"' not in "".join(
        html_renderer.pieces(replace(report, boxes=report.boxes[:1]))
    )


def test_it_is_in_the_page_and_in_the_pdf(report: JobReport, tmp_path: Path) -> None:
    page = "".join(html_renderer.pieces(report))
    chart = page.partition('<figure class="chart">')[2].partition("</figure>")[0]
    told = re.findall(r'class="told[^>]*>(.*?)<', chart)
    assert told == [strip.told for strip in margin_chart(report)]
    pypdf = pytest.importorskip("pypdf", reason="pypdf reads back what was written")
    write(report, tmp_path / "r.pdf")
    text = " ".join(page.extract_text() for page in pypdf.PdfReader(tmp_path / "r.pdf").pages)
    for words in told:
        assert words in text
