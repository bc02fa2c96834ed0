"""Working rows out: each by itself, so that a bad one stops nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from boxaloud.assistant.batch.batch_row import BY_PARTS, BadRow, Row, checked, items
from boxaloud.assistant.batch.box_json import box_of_json
from boxaloud.assistant.batch.column_parser import box_of_row, edition_of
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.dialogue.nlg.sentences import marked, volume
from boxaloud.rules import RulesError, work_out
from boxaloud.rules.worksheet import Verdict, Worksheet


@dataclass(frozen=True, slots=True)
class Result:
    """What a row came to. `verdict` is None for a bad row, and `problem` then says why."""

    line: int
    name: str
    verdict: Verdict | None
    sheet: Worksheet | None
    least: str = ""
    greatest: str = ""
    open: tuple[str, ...] = ()
    not_used: tuple[str, ...] = ()
    problem: str = ""

    def fields(self) -> dict[str, Any]:
        """The result as plain data; volumes are decimal strings of cubic inches."""
        sheet = self.sheet
        room = sheet.capacity if sheet else None
        left = sheet.margin if sheet else None
        return {
            "line": self.line,
            "name": self.name,
            "edition": sheet.edition if sheet else None,
            "verdict": self.verdict,
            "total_in3": volume(sheet.total) if sheet else None,
            "capacity_in3": None if room is None else marked(room),
            "margin_in3": None if left is None else volume(left),
            "least_total_in3": self.least or None,
            "greatest_total_in3": self.greatest or None,
            "open": list(self.open),
            "not_used": list(self.not_used),
            "problem": self.problem or None,
        }


def work(rows: Iterable[Row]) -> Iterator[Result]:
    """A result a row, in order. Nothing of a row is held once its result is given."""
    for row in rows:
        try:
            if row.problem:
                raise BadRow(row.problem)
            yield _result(row)
        except (BadRow, RulesError) as refusal:
            yield Result(row.line, row.name, None, None, problem=str(refusal))


def _result(row: Row) -> Result:
    fields = checked(row.fields)
    ways = ("says" in fields) + ("described" in fields) + bool(BY_PARTS & fields.keys())
    if ways != 1:
        raise BadRow(
            "Describe the box in one way: by what is said of it, as a described box, or by its "
            "columns."
        )
    if "says" in fields:
        return _said(row, fields)
    box = box_of_json(fields["described"]) if "described" in fields else box_of_row(fields)
    sheet = work_out(box)
    return Result(
        row.line, row.name, sheet.verdict, sheet, volume(sheet.low), volume(sheet.high),
        tuple(slot.slot for slot in sheet.open),
    )  # fmt: skip


def _said(row: Row, fields: Any) -> Result:
    """A box told in plain words, as if it were talked through."""
    conversation = Conversation(edition_of(fields))
    reply, not_used = None, list[str]()
    for statement in items(fields["says"], "says"):
        reply = conversation.hear(statement)
        not_used += reply.left_over
    if reply is None or not (conversation.talk.state.items or conversation.talk.state.box):
        raise BadRow("Nothing of what is said was understood.")
    found = conversation.talk.assessment
    slots = [reply.asks] if reply.asks else []
    slots += [slot.slot for slot in found.sheet.open]
    return Result(
        row.line, row.name, found.verdict, found.sheet, volume(found.low), volume(found.high),
        tuple(dict.fromkeys(slots)), tuple(not_used),
    )  # fmt: skip
