"""What a report says of the code it was counted under, and where it keeps its sources."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.reports import (
    csv_renderer,
    html_renderer,
    job_report,
    json_renderer,
    pdf_renderer,
)
from boxaloud.assistant.reports.text_renderer import markdown, plain_text


def report_of(*said: str) -> tuple[str, dict[str, Any], str]:
    talk = Conversation()
    for words in said:
        talk.hear(words)
    report = job_report(talk, "job")
    page = "".join(html_renderer.pieces(report))
    return (
        page,
        json.loads("".join(json_renderer.pieces(report))),
        "".join(csv_renderer.pieces(report)),
    )


def test_a_provisional_edition_is_said_beside_every_verdict() -> None:
    """No change of 314.16 in 2026 was found in public material, which is not proof."""
    page, data, table = report_of("use the 2026 code", "two 14-2s in an 18, no clamps")
    (box,) = data["boxes"]
    assert "provisional" in box["provisional"]
    assert "edition 2026 provisional, counted as 2023" in page
    assert "provisional" in table


def test_a_canadian_box_is_in_millilitres_throughout() -> None:
    """Rule 12-3034, Table 22, DIY Chatroom 48926: 4 x 24.6 mL."""
    page, data, table = report_of("Canadian code", "two 14-2s, no wire nuts, 300 mL box")
    (box,) = data["boxes"]
    assert (box["unit"], box["total_ml"], box["capacity_ml"]) == ("mL", "98.40", "300.0")
    assert "98.40 of 300.0 mL" in page
    assert "Rule 12-3034, CE Code 2024" in page
    assert "NEC 314.16" not in page
    assert ",98.40," in table


def test_forum_threads_stand_in_the_annex_and_not_beside_the_sections() -> None:
    page, _, _ = report_of("two 14-2s and a switch in an 18, clamps inside")
    before, _, annex = page.partition("Annex:")
    assert "forum" not in before.partition("<main>")[2].lower()
    assert "DIY" not in before
    assert "forum" in annex.lower()


def test_a_divided_box_is_told_side_by_side() -> None:
    """314.16(A) from 2017: 42.0 less 0.5 for metal, half to each side."""
    page, data, _ = report_of(
        "4-11/16 square deep box with a metal barrier in the middle, no clamps",
        "on the first side four 12-2s",
        "on the second side five 12-2s",
    )
    (box,) = data["boxes"]
    assert [side["total_in3"] for side in box["spaces"]] == ["20.25", "25.3125"]
    assert [side["capacity_in3"] for side in box["spaces"]] == ["20.75", "20.75"]
    assert box["verdict"] == "over"
    assert "side 2, 25.3125 of 20.75 in³" in page


def test_the_plain_forms_and_the_pdf_name_the_unit_and_the_code(tmp_path: Path) -> None:
    """Rule 12-3034, Table 22, DIY Chatroom 48926: 4 x 24.6 mL."""
    pypdf = pytest.importorskip("pypdf")
    talk = Conversation()
    for words in ("Canadian code", "two 14-2s, no wire nuts, 300 mL box"):
        talk.hear(words)
    report = job_report(talk, "job")
    pdf_renderer.write(report, tmp_path / "job.pdf")
    pages = pypdf.PdfReader(tmp_path / "job.pdf").pages
    (box,) = report.boxes
    shown = " ".join(" ".join(page.extract_text() for page in pages).split())
    for text in (shown, "\n".join(plain_text(box)), "\n".join(markdown(box))):
        assert "98.40 of 300.0 mL" in text
        assert "Rule 12-3034, CE Code 2024" in text
        assert "in³" not in text.replace("Volumes are cubic inches (in³)", "")
