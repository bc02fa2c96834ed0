"""A job's report as JSON, box by box. Its schema is `boxaloud schema report`."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from boxaloud.assistant.dialogue.nlg import volume_units
from boxaloud.assistant.dialogue.nlg.sentences import plain, volume
from boxaloud.assistant.reports.report_model import JobReport

if TYPE_CHECKING:
    from boxaloud.assistant.contract.report_document import (
        BodyEntry,
        BoxEntry,
        PullBoxEntry,
        ReportHead,
    )
    from boxaloud.assistant.reports.report_model import BodyReport, BoxReport, Change, PullReport


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
    from boxaloud.assistant.contract.report_document import AdviceEntry, BoxEntry, PictureEntry
    from boxaloud.assistant.contract.worksheet_document import WorksheetDocument

    def advice(change: Change) -> AdviceEntry:
        return AdviceEntry(
            change=change.kind,
            what=change.what,
            margin_in3=volume(volume_units.in3(change.margin, change.unit)),
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
        pictures=tuple(
            PictureEntry(says=one.says, kind=one.kind, wide=one.wide, high=one.high)
            for one in box.pictures
        ),
        pull_box=None if box.pull is None else _pull_box(box.pull),
        conduit_body=None if box.body is None else _body(box.body),
        **vars(sheet),
    )


def _body(body: BodyReport) -> BodyEntry:
    from boxaloud.assistant.contract.enclosure_documents import BodyLineEntry
    from boxaloud.assistant.contract.report_document import BodyEntry

    said = body.said
    return BodyEntry(
        told=body.told,
        shape=said.shape or None,
        raceway=said.raceway or None,
        size_in=None if said.size is None else plain(said.size),
        insulation=said.insulation or None,
        governs=body.governs,
        lines=tuple(map(BodyLineEntry.of, body.lines)),
        remedy=body.remedy,
    )


def _pull_box(pull: PullReport) -> PullBoxEntry:
    from boxaloud.assistant.contract.enclosure_documents import DimensionEntry
    from boxaloud.assistant.contract.report_document import PullBoxEntry, PullLineEntry

    sheet = pull.sheet
    return PullBoxEntry(
        told=pull.told,
        width_in=_inches(sheet.width) if sheet.width is not None else None,
        height_in=_inches(sheet.height) if sheet.height is not None else None,
        depth_in=_inches(sheet.depth) if sheet.depth is not None else None,
        too_small=pull.too_small,
        large_enough=pull.enough,
        box=tuple(map(DimensionEntry.of, pull.compared)),
        lines=tuple(
            PullLineEntry(
                what=line.what,
                inches=_inches(line.inches),
                working=line.working,
                section=line.section,
                disputed=line.disputed,
            )
            for line in pull.lines
        ),
    )


def _inches(value: Fraction) -> str:
    return plain(Decimal(value.numerator) / value.denominator)
