"""A job's report as plain data for JSON. Its schema is `boxaloud schema report`."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict
from typing import Any

from boxaloud.assistant.dialogue.nlg.sentences import marked, volume
from boxaloud.assistant.dialogue.reply import line_json
from boxaloud.assistant.reports.report_model import BoxReport, Change, JobReport


def pieces(report: JobReport) -> Iterator[str]:
    """The JSON text, box by box."""
    head = json.dumps(_head(report), ensure_ascii=False, indent=1)
    yield head.removesuffix("\n}") + ',\n "boxes": ['
    for number, box in enumerate(report.boxes):
        yield ("," if number else "") + "\n" + json.dumps(box_json(box), ensure_ascii=False)
    yield "\n ]\n}\n"


def _head(report: JobReport) -> dict[str, Any]:
    return {
        "job": report.name,
        "begun": report.begun,
        "written": report.written,
        "project": asdict(report.project),
        "editions": list(report.editions),
        "counts": {
            "fits": report.count("fits"),
            "over": report.count("over"),
            "incomplete": report.count("incomplete"),
        },
        "cautions": list(report.standing),
        "materials": [
            {"material": m.name, "quantity": m.quantity, "boxes": list(m.boxes)}
            for m in report.materials
        ],
    }


def box_json(box: BoxReport) -> dict[str, Any]:
    """One box: what was said of it, its worksheet, and what follows from it."""
    return {
        "name": box.name,
        "contents": list(box.contents),
        "said": list(box.said),
        "not_used": list(box.unused),
        **worksheet_json(box),
        "assumed": list(box.assumed),
        "open": list(box.open),
        "cautions": list(box.cautions),
        "advice": [_change(change) for change in box.advice],
    }


def worksheet_json(box: BoxReport) -> dict[str, Any]:
    """The worksheet: volumes are decimal strings of cubic inches."""
    sheet = box.sheet
    return {
        "edition": sheet.edition,
        "worksheet": [line_json(line) for line in sheet.lines],
        "capacity_lines": [
            {"what": part.what, "in3": marked(part.volume), "section": part.section}
            for part in sheet.volumes
        ],
        "total_in3": volume(sheet.total),
        "capacity_in3": None if sheet.capacity is None else marked(sheet.capacity),
        "margin_in3": None if sheet.margin is None else volume(sheet.margin),
        "least_total_in3": volume(box.low),
        "greatest_total_in3": volume(box.high),
        "verdict": box.verdict,
    }


def _change(change: Change) -> dict[str, Any]:
    return {
        "change": change.kind,
        "what": change.what,
        "margin_in3": volume(change.margin),
        "enough": change.enough,
        "section": change.section,
        "material": change.material or None,
        "quantity": change.quantity if change.material else None,
    }
