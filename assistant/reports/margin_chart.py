"""The boxes of a job by margin: a bar each, and the one line that none may pass.

A bar is the fill as a share of the box's own capacity, so that the line stands at one place for
all of them. The box that is furthest over stands first, those without a verdict last.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from boxaloud.assistant.dialogue.nlg.volume_units import in3
from boxaloud.assistant.reports import number_format
from boxaloud.assistant.reports.box_figures import figures
from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import BoxReport, JobReport

WIDTH = Decimal(640)
_MOST = Decimal(2)
"""A fill of more than twice the capacity is drawn as twice."""
_HUNDREDTH = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Strip:
    """A box's bar, in units of WIDTH: how far it is filled at least and at most, and `limit`,
    where its capacity is. All None for a box whose capacity is not known."""

    box: BoxReport
    number: int
    """Its place in the report, from 1."""
    told: str
    limit: Decimal | None = None
    least: Decimal | None = None
    most: Decimal | None = None


def margin_chart(report: JobReport) -> tuple[Strip, ...]:
    """The strips of a job, by margin; none where there are not two boxes to compare."""
    numbered = [(n, box) for n, box in enumerate(report.boxes, 1) if box.by_volume]
    if len(numbered) < 2:
        return ()
    longest = max((_share(box, box.high) for _, box in numbered), default=Decimal(1))
    limit = WIDTH / max(longest, Decimal(1)) / Decimal("1.04")
    return tuple(
        _strip(number, box, limit)
        for number, box in sorted(numbered, key=lambda one: _order(one[1]))
    )


def _strip(number: int, box: BoxReport, limit: Decimal) -> Strip:
    told = _told(box)
    if not box.sheet.capacity:
        return Strip(box, number, told)
    least, most = (_round(_share(box, volume) * limit) for volume in (box.low, box.high))
    return Strip(box, number, told, _round(limit), least, most)


def _told(box: BoxReport) -> str:
    found = figures(box)
    left = found.margin or found.over_by
    margin = number_format.amount(left, box.sheet.unit) if left else ""
    key = "incomplete" if box.small_alone else box.verdict
    return say(f"chart.{key}", margin=margin)


def _order(box: BoxReport) -> tuple[bool, Decimal]:
    found = figures(box)
    if found.over_by is not None:
        return False, -in3(found.over_by.value, box.sheet.unit)
    if found.margin is not None:
        return False, in3(found.margin.value, box.sheet.unit)
    return True, Decimal(0)


def _share(box: BoxReport, volume: Decimal) -> Decimal:
    """A volume as a share of the capacity; nothing where that is not known."""
    room = box.sheet.capacity
    return min(volume / room, _MOST) if room else Decimal(0)


def _round(value: Decimal) -> Decimal:
    return value.quantize(_HUNDREDTH)
