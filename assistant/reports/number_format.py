"""The numbers of a report as text, in one way for every form of it."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.assistant.dialogue.nlg.sentences import marked, plain, volume
from boxaloud.assistant.reports.box_figures import Amount, figures
from boxaloud.assistant.reports.pull_lines import pull_sides
from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import BoxReport
from boxaloud.rules import shown_cm3
from boxaloud.rules.worksheet import Line


def amount(shown: Amount) -> str:
    """An amount with what it bounds: "14.00", "at least 2.50"."""
    return say(f"amount.{shown.bound.replace(' ', '_')}", in3=volume(shown.value))


def total(box: BoxReport) -> str:
    """The total that goes with the verdict; empty for a pull box alone."""
    return "" if box.pull_alone else amount(figures(box).total)


def lines_total(box: BoxReport) -> str:
    """The sum of the worksheet's lines."""
    return volume(box.sheet.total)


def total_name(box: BoxReport) -> str:
    """What the sum of the lines is: the total, or so much of it as was described."""
    settled = figures(box).total.bound == "exactly"
    return say("table.total" if settled else "table.total_so_far")


def capacity(box: BoxReport) -> str:
    """The capacity, or that it is unknown; empty for a pull box alone."""
    if box.pull_alone:
        return ""
    return say("table.unknown") if box.sheet.capacity is None else marked(box.sheet.capacity)


def margin(box: BoxReport) -> str:
    """The margin, by how much it is over, or that this is open. Never a negative number.

    Empty for a pull box alone.
    """
    if box.pull_alone:
        return ""
    found = figures(box)
    if found.over_by is not None:
        return say("table.over_by", margin=amount(found.over_by))
    return say("table.open") if found.margin is None else amount(found.margin)


def with_cm3(text: str, value: Decimal | None, units: str) -> str:
    """The text with cubic centimetres beside it, where the job shows those."""
    if value is None or units != "cm3":
        return text
    return f"{text} ({shown_cm3(abs(value))} cm³)"


def counted(box: BoxReport, units: str) -> str:
    """The fill against the capacity, in a sentence."""
    filled = with_cm3(lines_total(box), box.sheet.total, units)
    if box.sheet.capacity is None:
        return say("gauge.text_none", total=filled)
    room = with_cm3(marked(box.sheet.capacity), box.sheet.capacity, units)
    return say("gauge.text", total=filled, capacity=room)


def verdict(box: BoxReport) -> str:
    """The verdict in a word; a pull box alone has none, and one too small for its pulls says so."""
    word = say("verdict.pull_box" if box.pull_alone else f"verdict.{box.verdict}")
    return say("verdict.too_small", verdict=word) if box.too_small else word


def verdict_line(box: BoxReport) -> str:
    """The verdict in a sentence with its numbers, edition and section.

    For a pull box alone, its least sides.
    """
    if box.pull is not None and box.pull_alone:
        return say(
            "verdict_line.pull_box", sides=pull_sides(box.pull.sheet), edition=box.sheet.edition
        )
    found, room = figures(box), box.sheet.capacity
    left = found.margin or found.over_by
    key = f"{box.verdict}_least" if left and left.bound != "exactly" else box.verdict
    return say(
        f"verdict_line.{key if room is not None else 'incomplete_none'}",
        total=amount(found.total),
        described=lines_total(box),
        capacity=capacity(box),
        margin=amount(left) if left else "",
        edition=box.sheet.edition,
    )


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
