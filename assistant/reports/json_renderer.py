"""A job's report as JSON, box by box. Its schema is `boxaloud schema report`."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from boxaloud.assistant.dialogue.nlg.sentences import volume
from boxaloud.assistant.reports.report_model import JobReport

if TYPE_CHECKING:
    from boxaloud.assistant.contract.report_document import BoxEntry, ReportHead
    from boxaloud.assistant.reports.report_model import BoxReport, Change


def pieces(report: JobReport) -> Iterator[str]:
    """The JSON text, box by box: an object with a key a line, and in `boxes` a box a line."""
    head = (f" {_text(key)}: {_text(value)}" for key, value in _head(report).to_json().items())
    yield "{\n" + ",\n".join(head) + ',\n "boxes": ['
    for number, box in enumerate(report.boxes):
        yield ("," if number else "") + "\n" + box_entry(box).model_dump_json()
    yield "\n ]\n}\n"


def _text(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False)


def _head(report: JobReport) -> ReportHead:
    from boxaloud.assistant.contract.report_document import (
        MaterialEntry,
        ProjectEntry,
        ReportHead,
        VerdictCounts,
    )

    return ReportHead(
        job=report.name,
        begun=report.begun,
        written=report.written,
        project=ProjectEntry(**asdict(report.project)),
        editions=report.editions,
        counts=VerdictCounts(
            fits=report.count("fits"),
            over=report.count("over"),
            incomplete=report.count("incomplete"),
        ),
        cautions=report.standing,
        materials=tuple(
            MaterialEntry(material=m.name, quantity=m.quantity, boxes=m.boxes)
            for m in report.materials
        ),
    )


def box_entry(box: BoxReport) -> BoxEntry:
    """One box: what was said of it, its worksheet, and what follows from it."""
    from boxaloud.assistant.contract.report_document import AdviceEntry, BoxEntry
    from boxaloud.assistant.contract.worksheet_document import WorksheetDocument

    def advice(change: Change) -> AdviceEntry:
        return AdviceEntry(
            change=change.kind,
            what=change.what,
            margin_in3=volume(change.margin),
            enough=change.enough,
            section=change.section,
            material=change.material or None,
            quantity=change.quantity if change.material else None,
        )

    sheet = WorksheetDocument.of_sheet(box.sheet, box.verdict, box.low, box.high, box.spaces)
    return BoxEntry(
        name=box.name,
        contents=box.contents,
        said=box.said,
        not_used=box.unused,
        assumed=box.assumed,
        open=box.open,
        cautions=box.cautions,
        advice=tuple(map(advice, box.advice)),
        **vars(sheet),
    )
