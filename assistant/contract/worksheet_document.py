"""A worksheet as it leaves: line by line, each with its section. `boxaloud schema worksheet`."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Annotated, Any

from boxaloud.assistant.contract.document import (
    AtLeast0,
    AtLeast1,
    Awg,
    Document,
    Millilitres,
    Number,
    SignedVolume,
    Volume,
)
from boxaloud.assistant.dialogue.divided_box import Standing
from boxaloud.assistant.dialogue.nlg.sentences import marked, plain, volume
from boxaloud.assistant.dialogue.nlg.volume_units import in3
from boxaloud.rules import counted_under, provisional
from boxaloud.rules.worksheet import Line, Unit, Verdict, VolumeLine, Worksheet, WorksheetItem
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
    each_ml: Millilitres | None
    subtotal_ml: Millilitres | None

    @classmethod
    def of(cls, line: Line, unit: Unit) -> WorksheetLine:
        """A line of the rules as it leaves, from a worksheet in `unit`."""
        metric = unit == "mL"
        return cls(
            item=line.item,
            what=line.what,
            awg=line.awg,
            count=line.count,
            allowances=plain(line.allowances),
            each_in3=volume(in3(line.each, unit)),
            subtotal_in3=volume(in3(line.subtotal, unit)),
            section=line.section,
            each_ml=volume(line.each) if metric else None,
            subtotal_ml=volume(line.subtotal) if metric else None,
        )


class CapacityLine(Document):
    """A part of the box, and the volume that it gives or takes."""

    what: str
    in3: Annotated[
        SignedVolume, Field(description="Cubic inches; less than nothing for a barrier.")
    ]
    section: str

    @classmethod
    def of(cls, part: VolumeLine, unit: Unit) -> CapacityLine:
        """A line of the capacity as it leaves, from a worksheet in `unit`."""
        return cls(what=part.what, in3=marked(in3(part.volume, unit)), section=part.section)


class SheetDocument(Document):
    """A worksheet without its verdict."""

    edition: str
    counted_under: Annotated[
        str, Field(description="The section or rule, and the code and edition, it stands under.")
    ]
    provisional: Annotated[
        str | None, Field(description="What is to be said of an edition that was not read.")
    ]
    unit: Annotated[Unit, Field(description="What it was worked out in.")]
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
    total_ml: Millilitres | None
    capacity_ml: Millilitres | None
    margin_ml: Millilitres | None


def _fields(sheet: Worksheet, low: Decimal, high: Decimal) -> dict[str, Any]:
    """A worksheet as the fields of a `SheetDocument`. `low` and `high` are in its unit."""
    unit, room, left = sheet.unit, sheet.capacity, sheet.margin
    metric = unit == "mL"
    said = provisional(sheet.edition)
    return {
        "edition": sheet.edition,
        "counted_under": counted_under(sheet.edition),
        "provisional": None if said is None else said.says,
        "unit": unit,
        "worksheet": tuple(WorksheetLine.of(line, unit) for line in sheet.lines),
        "capacity_lines": tuple(CapacityLine.of(part, unit) for part in sheet.volumes),
        "total_in3": volume(in3(sheet.total, unit)),
        "capacity_in3": None if room is None else marked(in3(room, unit)),
        "margin_in3": None if left is None else volume(in3(left, unit)),
        "least_total_in3": volume(in3(low, unit)),
        "greatest_total_in3": volume(in3(high, unit)),
        "total_ml": volume(sheet.total) if metric else None,
        "capacity_ml": marked(room) if metric and room is not None else None,
        "margin_ml": volume(left) if metric and left is not None else None,
    }


class SpaceDocument(SheetDocument):
    """One space of a divided box, with its own worksheet."""

    space: Annotated[AtLeast1, Field(description="Which space, counted from one.")]

    @classmethod
    def of(cls, space: Standing) -> SpaceDocument:
        """A space as it leaves."""
        return cls(**_fields(space.sheet, space.low, space.high), space=space.number)


class WorksheetDocument(SheetDocument):
    """A box worked out from what is known."""

    model_config = ConfigDict(title="A worksheet")

    verdict: Verdict
    spaces: Annotated[
        tuple[SpaceDocument, ...],
        Strict(False),
        Field(
            description="The spaces of a divided box, each with its own worksheet; the worksheet "
            "beside them is the one that governs."
        ),
    ]

    @classmethod
    def of_sheet(
        cls,
        sheet: Worksheet,
        verdict: Verdict,
        low: Decimal,
        high: Decimal,
        spaces: Sequence[Standing] = (),
    ) -> WorksheetDocument:
        """A worksheet as it leaves. `low` and `high`, in its unit, are over everything open."""
        return WorksheetDocument(
            **_fields(sheet, low, high),
            verdict=verdict,
            spaces=tuple(map(SpaceDocument.of, spaces)),
        )
