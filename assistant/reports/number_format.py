"""The numbers of a report as text, in one way for every form of it."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.assistant.dialogue.nlg.sentences import marked, plain, volume
from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import BoxReport
from boxaloud.rules import shown_cm3
from boxaloud.rules.worksheet import Line


def total(box: BoxReport) -> str:
    """The total described so far."""
    return volume(box.sheet.total)


def capacity(box: BoxReport) -> str:
    """The capacity, or that it is unknown."""
    return say("table.unknown") if box.sheet.capacity is None else marked(box.sheet.capacity)


def margin(box: BoxReport) -> str:
    """The margin, or by how much it is over. Never a negative number."""
    if box.sheet.margin is None:
        return say("table.unknown")
    if box.sheet.margin < 0:
        return say("table.over_by", margin=volume(-box.sheet.margin))
    return volume(box.sheet.margin)


def with_cm3(text: str, value: Decimal | None, units: str) -> str:
    """The text with cubic centimetres beside it, where the job shows those."""
    if value is None or units != "cm3":
        return text
    return f"{text} ({shown_cm3(abs(value))} cm³)"


def counted(box: BoxReport, units: str) -> str:
    """The fill against the capacity, in a sentence."""
    filled = with_cm3(total(box), box.sheet.total, units)
    if box.sheet.capacity is None:
        return say("gauge.text_none", total=filled)
    room = with_cm3(marked(box.sheet.capacity), box.sheet.capacity, units)
    return say("gauge.text", total=filled, capacity=room)


def verdict(box: BoxReport) -> str:
    """The verdict in a word."""
    return say(f"verdict.{box.verdict}")


def verdict_line(box: BoxReport) -> str:
    """The verdict in a sentence with its numbers, edition and section."""
    sheet = box.sheet
    if sheet.capacity is None:
        return say("verdict_line.incomplete_none", total=total(box), edition=sheet.edition)
    key, left = _standing(box, sheet.capacity)
    return say(
        f"verdict_line.{key}",
        total=total(box),
        capacity=marked(sheet.capacity),
        margin=volume(abs(left)),
        low=volume(box.low),
        high=volume(box.high),
        edition=sheet.edition,
    )


def _standing(box: BoxReport, room: Decimal) -> tuple[str, Decimal]:
    exact = box.low == box.high == box.sheet.total
    if box.verdict == "fits":
        return ("fits", room - box.high) if exact else ("fits_least", room - box.high)
    if box.verdict == "over":
        return ("over", box.low - room) if exact else ("over_least", box.low - room)
    return "incomplete", room - box.sheet.total


def allowances(line: Line) -> str:
    """How many allowances, and of which size; "none" for what takes none."""
    if not line.allowances:
        return say("table.counts_nothing")
    return say("table.size", allowances=plain(line.allowances), awg=line.awg)


def each(line: Line) -> str:
    """The volume of one allowance, empty for what takes none."""
    return volume(line.each) if line.allowances else ""


def capital(text: str) -> str:
    """The text with a capital."""
    return text[:1].upper() + text[1:]
