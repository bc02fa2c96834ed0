"""Working rows out: each by itself, so that a bad one stops nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal

from boxaloud.assistant.batch.batch_row import BadRow, Row, encodable
from boxaloud.assistant.batch.column_parser import box_of_row, edition_of
from boxaloud.assistant.contract.batch_documents import BatchRow, RowResult
from boxaloud.assistant.contract.refusal import BadDocument, accepted
from boxaloud.assistant.dialogue import Conversation, faults
from boxaloud.assistant.dialogue.nlg.sentences import marked, volume
from boxaloud.assistant.dialogue.question_slots import QuestionSlot
from boxaloud.rules import RulesError, work_out
from boxaloud.rules.worksheet import Verdict, Worksheet


def work(rows: Iterable[Row]) -> Iterator[RowResult]:
    """A result a row, in order. Nothing of a row is held once its result is given."""
    for row in rows:
        try:
            if row.problem:
                raise BadRow(row.problem)
            yield _result(row)
        except (BadDocument, BadRow, RulesError) as refusal:
            yield _refused(row, encodable(str(refusal)))
        except Exception as fault:  # a fault of ours over one row loses no other
            if faults.raised:
                raise
            yield _refused(row, encodable(f"The row met a fault of ours ({faults.named(fault)})."))


def _result(row: Row) -> RowResult:
    columns = accepted(BatchRow, row.fields)
    if "says" in columns.model_fields_set:
        return _said(row, columns)
    box = columns.described.value if columns.described else box_of_row(columns)
    sheet = work_out(box)
    slots = [slot.slot for slot in sheet.open]
    return _worked_out(row, sheet, sheet.verdict, sheet.low, sheet.high, slots)


def _said(row: Row, columns: BatchRow) -> RowResult:
    """A box told in plain words, as if it were talked through."""
    conversation = Conversation(edition_of(columns))
    reply, not_used = None, list[str]()
    for statement in columns.says:
        reply = conversation.hear(statement)
        not_used += reply.left_over
    if reply is None or not (conversation.talk.state.items or conversation.talk.state.box):
        raise BadRow("Nothing of what is said was understood.")
    found = conversation.talk.assessment
    slots = [reply.asks] if reply.asks else []
    slots += [slot.slot for slot in found.sheet.open]
    slots = list(dict.fromkeys(slots))
    return _worked_out(row, found.sheet, found.verdict, found.low, found.high, slots, not_used)


def _worked_out(
    row: Row,
    sheet: Worksheet,
    verdict: Verdict,
    low: Decimal,
    high: Decimal,
    slots: Sequence[QuestionSlot],
    not_used: Sequence[str] = (),
) -> RowResult:
    total = volume(sheet.total)
    return RowResult(
        line=row.line,
        name=row.name,
        edition=sheet.edition,
        verdict=verdict,
        total_in3=total,
        capacity_in3=None if sheet.capacity is None else marked(sheet.capacity),
        margin_in3=None if sheet.margin is None else volume(sheet.margin),
        least_total_in3=total if low == sheet.total else volume(low),
        greatest_total_in3=total if high == sheet.total else volume(high),
        open=tuple(slots),
        not_used=tuple(map(encodable, not_used)),
        problem=None,
    )


def _refused(row: Row, problem: str) -> RowResult:
    return RowResult(
        line=row.line,
        name=row.name,
        edition=None,
        verdict=None,
        total_in3=None,
        capacity_in3=None,
        margin_in3=None,
        least_total_in3=None,
        greatest_total_in3=None,
        open=(),
        not_used=(),
        problem=problem,
    )
