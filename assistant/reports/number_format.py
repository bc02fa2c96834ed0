"""The numbers of a report as text, in one way for every form of it."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.assistant.dialogue.nlg.sentences import in_unit, marked, plain, volume
from boxaloud.assistant.reports.box_figures import Amount, figures
from boxaloud.assistant.reports.pull_lines import pull_verdict
from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import BoxReport, JobReport, Picture
from boxaloud.rules import counted_under, is_canadian, shown_cm3
from boxaloud.rules.worksheet import Line, Unit


def unit(box: BoxReport) -> str:
    """The unit of every volume of a box: in³, or mL in Canada."""
    return in_unit(box.sheet.unit)


def under(box: BoxReport) -> str:
    """The section and edition that a verdict stands under."""
    return counted_under(box.edition, "edition ")


def codes(report: JobReport) -> str:
    """Every code and edition of a job, in one line."""
    named = []
    for edition in report.editions:
        of = counted_under(edition, "edition ")
        named.append(of if is_canadian(edition) else f"NEC {of}")
    return "; ".join(named) or say("fact.no_edition")


def amount(shown: Amount, unit: Unit = "in3") -> str:
    """An amount with what it bounds: "14.00", "at least 2.50"; millilitres with their unit."""
    return say(f"amount.{shown.bound.replace(' ', '_')}", in3=volume(shown.value, unit))


def total(box: BoxReport) -> str:
    """The total that goes with the verdict; empty where no volume counts."""
    return amount(figures(box).total, box.sheet.unit) if box.by_volume else ""


def lines_total(box: BoxReport) -> str:
    """The sum of the worksheet's lines."""
    return volume(box.sheet.total)


def total_name(box: BoxReport) -> str:
    """What the sum of the lines is: the total, or so much of it as was described."""
    settled = figures(box).total.bound == "exactly"
    return say("table.total" if settled else "table.total_so_far")


def capacity(box: BoxReport) -> str:
    """The capacity, or that it is unknown; empty where no volume counts."""
    if not box.by_volume:
        return ""
    room = box.sheet.capacity
    return say("table.unknown") if room is None else marked(room, box.sheet.unit)


def margin(box: BoxReport) -> str:
    """The margin, by how much it is over, or that this is open. Never a negative number.

    Empty where no volume counts.
    """
    if not box.by_volume:
        return ""
    found = figures(box)
    if found.over_by is not None:
        return say("table.over_by", margin=amount(found.over_by, box.sheet.unit))
    return say("table.open") if found.margin is None else amount(found.margin, box.sheet.unit)


def with_cm3(text: str, value: Decimal | None, units: str) -> str:
    """The text with cubic centimetres beside it, where the job shows those."""
    if value is None or units != "cm3":
        return text
    return f"{text} ({shown_cm3(abs(value))} cm³)"


def counted(box: BoxReport, units: str) -> str:
    """The fill against the capacity, in a sentence; only cubic inches have others beside them."""
    units = units if box.sheet.unit == "in3" else ""
    filled = with_cm3(lines_total(box), box.sheet.total, units)
    if box.sheet.capacity is None:
        return say("gauge.text_none", total=filled, unit=unit(box))
    room = with_cm3(marked(box.sheet.capacity), box.sheet.capacity, units)
    return say("gauge.text", total=filled, capacity=room, unit=unit(box))


def verdict(box: BoxReport) -> str:
    """The verdict in a word; of a pull box whether it is large enough, once that is known."""
    key = "incomplete" if box.small_alone else box.verdict
    word = say("verdict.pull_box" if box.pull_alone else f"verdict.{key}")
    if box.pull_alone and box.verdict == "fits":
        return say("verdict.enough", verdict=word)
    return say("verdict.too_small", verdict=word) if box.too_small else word


def verdict_line(box: BoxReport) -> str:
    """The verdict in a sentence with its numbers, edition and section.

    For a pull box its least sides, or the box at hand held against them.
    """
    if box.pull is not None and (box.pull_alone or box.small_alone):
        return pull_verdict(box.pull, under(box))
    if box.body is not None and box.body.governs:
        told = box.body.told or say("verdict_line.body_open")
        return say("verdict_line.body", told=told, edition=box.sheet.edition)
    found, room = figures(box), box.sheet.capacity
    if box.spaces:
        return _by_side(box)
    left = found.margin or found.over_by
    key = f"{box.verdict}_least" if left and left.bound != "exactly" else box.verdict
    return say(
        f"verdict_line.{key if room is not None else 'incomplete_none'}",
        total=amount(found.total),
        described=lines_total(box),
        capacity=say("table.unknown") if room is None else marked(room),
        margin=amount(left) if left else "",
        unit=unit(box),
        under=under(box),
    )


def _by_side(box: BoxReport) -> str:
    """A divided box, side by side."""
    sides = "; ".join(
        say(
            "space.side",
            number=space.number,
            total=volume(space.sheet.total),
            capacity=marked(space.sheet.capacity or space.low),
            unit=unit(box),
        )
        for space in box.spaces
    )
    return say(f"space.{box.verdict}", sides=sides, under=under(box))


def pictured(box: BoxReport, picture: Picture, number: int) -> str:
    """What stands under a picture: the box, and what it shows where that was told."""
    key = "picture.told" if picture.says else "picture.bare"
    return say(key, box=capital(box.name), number=number, says=picture.says)


def allowances(line: Line) -> str:
    """How many allowances, and of which size; "none" for what takes none."""
    if not line.allowances:
        return say("table.counts_nothing")
    if line.awg is None:
        return plain(line.allowances)
    return say("table.size", allowances=plain(line.allowances), awg=line.awg)


def each(line: Line) -> str:
    """The volume of one allowance, empty for what takes none."""
    return volume(line.each) if line.allowances else ""


def capital(text: str) -> str:
    """The text with a capital."""
    return text[:1].upper() + text[1:]
