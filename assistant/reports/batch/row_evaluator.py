"""Working rows out: each by itself, so that a bad one stops nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from fractions import Fraction

from boxaloud.assistant.contract.batch_documents import BatchRow, RowResult
from boxaloud.assistant.contract.refusal import BadDocument, accepted
from boxaloud.assistant.dialogue import Conversation, faults
from boxaloud.assistant.dialogue.assessment import Assessment, assess
from boxaloud.assistant.dialogue.enclosures import body_telling, pull_telling
from boxaloud.assistant.dialogue.nlg.sentences import marked, plain, volume
from boxaloud.assistant.dialogue.nlg.volume_units import in3
from boxaloud.assistant.dialogue.question_slots import QuestionSlot
from boxaloud.assistant.dialogue.state import State, to_box
from boxaloud.assistant.reports.batch.batch_row import BadRow, Row, encodable
from boxaloud.assistant.reports.batch.column_parser import box_of_row, edition_of
from boxaloud.assistant.reports.batch.parted_row import parted
from boxaloud.rules import RulesError, cautions, counted_under, work_out
from boxaloud.rules.contents import Box
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
    if columns.described is None and (state := parted(columns, box)) is not None:
        return _parted(row, box, state)
    sheet = work_out(box)
    slots = [slot.slot for slot in sheet.open]
    return _worked_out(row, box, sheet, sheet.verdict, sheet.low, sheet.high, slots)


def _parted(row: Row, box: Box, state: State) -> RowResult:
    """A box that barriers part: the figures are those of the side that governs."""
    found = assess(state)
    slots = [found.question.slot] if found.question else []
    slots += [slot.slot for slot in found.sheet.open]
    open_ = list(dict.fromkeys(slots))
    return _worked_out(row, box, found.sheet, found.verdict, found.low, found.high, open_)


def _said(row: Row, columns: BatchRow) -> RowResult:
    """A box told in plain words, as if it were talked through."""
    conversation = Conversation(edition_of(columns))
    reply, not_used = None, list[str]()
    for statement in columns.says:
        reply = conversation.hear(statement)
        not_used += reply.left_over
    state = conversation.talk.state
    if reply is None or not (state.items or state.box or state.pulls or state.body.large):
        raise BadRow("Nothing of what is said was understood.")
    found = conversation.talk.assessment
    slots = [reply.asks] if reply.asks else []
    slots += [slot.slot for slot in found.sheet.open]
    slots = list(dict.fromkeys(slots))
    if not found.by_volume:
        return _of_enclosure(row, state, found, reply.asks, not_used)
    box = to_box(state)
    return _worked_out(row, box, found.sheet, found.verdict, found.low, found.high, slots, not_used)


def _of_enclosure(
    row: Row,
    state: State,
    found: Assessment,
    asks: QuestionSlot | None,
    not_used: Sequence[str],
) -> RowResult:
    """A pull box, or a conduit body that goes by its raceway: no volume is counted."""
    pull = found.pull.sheet if found.pull is not None else None
    edition = found.sheet.edition
    section = "314.28(A)" if found.body is None else "314.16(C)"
    refused = _refused(row, "")
    return refused.model_copy(
        update={
            "edition": edition,
            "counted_under": counted_under(edition).replace("314.16", section, 1),
            "verdict": found.verdict,
            "open": (asks,) if asks else (),
            "cautions": _cautions(to_box(state)),
            "not_used": tuple(map(encodable, not_used)),
            "problem": None,
            "told": encodable(pull_telling.told(state) or body_telling.told(state)),
            "least_width_in": _side(pull.width if pull else None),
            "least_height_in": _side(pull.height if pull else None),
            "least_depth_in": _side(pull.depth if pull else None),
        }
    )


def _side(inches: Fraction | None) -> str | None:
    return None if inches is None else plain(Decimal(inches.numerator) / inches.denominator)


def _worked_out(
    row: Row,
    box: Box,
    sheet: Worksheet,
    verdict: Verdict,
    low: Decimal,
    high: Decimal,
    slots: Sequence[QuestionSlot],
    not_used: Sequence[str] = (),
) -> RowResult:
    unit, room, left = sheet.unit, sheet.capacity, sheet.margin
    metric = unit == "mL"
    total = volume(in3(sheet.total, unit))
    return RowResult(
        line=row.line,
        name=row.name,
        edition=sheet.edition,
        counted_under=counted_under(sheet.edition),
        verdict=verdict,
        total_in3=total,
        capacity_in3=None if room is None else marked(in3(room, unit)),
        margin_in3=None if left is None else volume(in3(left, unit)),
        least_total_in3=total if low == sheet.total else volume(in3(low, unit)),
        greatest_total_in3=total if high == sheet.total else volume(in3(high, unit)),
        open=tuple(slots),
        cautions=_cautions(box),
        not_used=tuple(map(encodable, not_used)),
        problem=None,
        total_ml=volume(sheet.total) if metric else None,
        capacity_ml=marked(room) if metric and room is not None else None,
        margin_ml=volume(left) if metric and left is not None else None,
        told="",
        least_width_in=None,
        least_height_in=None,
        least_depth_in=None,
    )


def _refused(row: Row, problem: str) -> RowResult:
    return RowResult(
        line=row.line,
        name=row.name,
        edition=None,
        counted_under=None,
        verdict=None,
        total_in3=None,
        capacity_in3=None,
        margin_in3=None,
        least_total_in3=None,
        greatest_total_in3=None,
        open=(),
        cautions=(),
        not_used=(),
        problem=problem,
        total_ml=None,
        capacity_ml=None,
        margin_ml=None,
        told="",
        least_width_in=None,
        least_height_in=None,
        least_depth_in=None,
    )


def _cautions(box: Box) -> tuple[str, ...]:
    """What to mind about a box; the standing cautions go with every row and are not repeated."""
    return tuple(f"{caution.says} ({caution.section})" for caution in cautions(box))
