"""A worksheet as it leaves: line by line, each with its section. `boxaloud schema worksheet`."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated

from boxaloud.assistant.contract.document import (
    AtLeast0,
    Awg,
    Document,
    Number,
    SignedVolume,
    Volume,
)
from boxaloud.assistant.dialogue.nlg.sentences import marked, plain, volume
from boxaloud.rules.worksheet import Line, Verdict, VolumeLine, Worksheet, WorksheetItem
from pydantic import ConfigDict, Field, Strict


class WorksheetLine(Document):
    """What was counted, and its allowances."""

    item: WorksheetItem
    what: Annotated[str, Field(description="What was counted, in words.")]
    awg: Awg | None
    count: AtLeast0
    allowances: Annotated[Number, Field(description="How many; grounds may take quarters.")]
    each_in3: Annotated[Volume, Field(description="One allowance, cubic inches.")]
    subtotal_in3: Volume
    section: str

    @classmethod
    def of(cls, line: Line) -> WorksheetLine:
        """A line of the rules as it leaves."""
        return cls(
            item=line.item,
            what=line.what,
            awg=line.awg,
            count=line.count,
            allowances=plain(line.allowances),
            each_in3=volume(line.each),
            subtotal_in3=volume(line.subtotal),
            section=line.section,
        )


class CapacityLine(Document):
    """A part of the box, and the volume that it gives or takes."""

    what: str
    in3: Annotated[
        SignedVolume, Field(description="Cubic inches; less than nothing for a barrier.")
    ]
    section: str

    @classmethod
    def of(cls, part: VolumeLine) -> CapacityLine:
        """A line of the capacity as it leaves."""
        return cls(what=part.what, in3=marked(part.volume), section=part.section)


class WorksheetDocument(Document):
    """A box worked out from what is known."""

    model_config = ConfigDict(title="A worksheet")

    edition: str
    worksheet: Annotated[tuple[WorksheetLine, ...], Strict(False)]
    capacity_lines: Annotated[tuple[CapacityLine, ...], Strict(False)]
    total_in3: Annotated[Volume, Field(description="What has been described so far.")]
    capacity_in3: Annotated[Volume | None, Field(description="Null while unknown.")]
    margin_in3: Annotated[
        SignedVolume | None,
        Field(description="Capacity less total; below zero where it is over."),
    ]
    least_total_in3: Annotated[Volume, Field(description="Over everything still open.")]
    greatest_total_in3: Annotated[Volume, Field(description="Over everything still open.")]
    verdict: Verdict

    @classmethod
    def of_sheet(
        cls, sheet: Worksheet, verdict: Verdict, low: Decimal, high: Decimal
    ) -> WorksheetDocument:
        """A worksheet as it leaves. `low` and `high` are cubic inches over everything open."""
        return WorksheetDocument(
            edition=sheet.edition,
            worksheet=tuple(map(WorksheetLine.of, sheet.lines)),
            capacity_lines=tuple(map(CapacityLine.of, sheet.volumes)),
            total_in3=volume(sheet.total),
            capacity_in3=None if sheet.capacity is None else marked(sheet.capacity),
            margin_in3=None if sheet.margin is None else volume(sheet.margin),
            least_total_in3=volume(low),
            greatest_total_in3=volume(high),
            verdict=verdict,
        )
