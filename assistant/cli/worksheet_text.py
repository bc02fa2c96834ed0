"""Worksheets and replies as plain lines: for a terminal, a pipe and a screen reader alike.

No column carries meaning by its place alone, nothing is said by colour, and each worksheet
line reads as a sentence does.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from boxaloud.assistant.dialogue.nlg.sentences import marked, plain, volume
from boxaloud.assistant.dialogue.reply import Reply
from boxaloud.rules import shown_cm3
from boxaloud.rules.units import VolumeUnit
from boxaloud.rules.worksheet import Line


def worksheet_lines(reply: Reply, units: VolumeUnit = "in3") -> Iterator[str]:
    """The worksheet: capacity, each item with its section, total, margin, verdict.

    Volumes are cubic inches; with `units` of "cm3" cubic centimetres stand beside them.
    """
    sheet = reply.sheet
    yield f"Worksheet, NEC 314.16, edition {sheet.edition}"
    for part in sheet.volumes:
        room = _in(units, marked(part.volume), part.volume)
        yield f"  {room} capacity: {part.what}, {part.section}"
    for line in sheet.lines:
        yield "  " + _line(line, units)
    total = volume(sheet.total)
    if sheet.capacity is None:
        yield f"  Total {_in(units, total, sheet.total)}, capacity unknown"
    else:
        margin = sheet.capacity - sheet.total
        word = "margin" if margin >= 0 else "over by"
        yield (
            f"  Total {total} of {_in(units, marked(sheet.capacity), sheet.capacity)}, "
            f"{word} {_in(units, volume(abs(margin)), abs(margin), '')}: {reply.verdict.upper()}"
        )
    if reply.low != reply.high:
        yield f"  Still open: between {volume(reply.low)} and {volume(reply.high)} in³"
    for assumed in reply.assumed:
        yield f"  Assumed: {assumed}"


def _in(units: VolumeUnit, text: str, value: Decimal, unit: str = " in³") -> str:
    """A volume with its unit, and the same in cubic centimetres beside it where asked for."""
    beside = f" ({shown_cm3(value)} cm³)" if units == "cm3" else ""
    return f"{text}{unit}{beside}"


def _line(line: Line, units: VolumeUnit) -> str:
    if line.allowances == 0:
        return f"0.00 in³: {line.what}, not counted, {line.section}"
    noun = "allowance" if line.allowances == 1 else "allowances"
    subtotal = _in(units, volume(line.subtotal), line.subtotal)
    return (
        f"{subtotal}: {line.what}, {plain(line.allowances)} {noun} of "
        f"{volume(line.each)} ({line.awg} AWG), {line.section}"
    )


class Showing:
    """What one session shows of each reply: the worksheet where it is due, each caution once."""

    def __init__(self, units: VolumeUnit = "in3") -> None:
        self._units = units
        self._cautioned: set[str] = set()

    def shown(self, reply: Reply, at_the_end: bool = False) -> tuple[str, list[str]]:
        """The reply's sentences, and the lines under them.

        The whole cautions stand under the first verdict, in place of the short one. The
        worksheet comes where it was asked for, or `at_the_end`.
        """
        cautions = self._new_cautions(reply)
        says = [act.says for act in reply.acts if act.act != "caution" or not cautions]
        lines = [f"  Caution: {caution}" for caution in cautions]
        if (reply.shows_sheet or at_the_end) and (reply.sheet.lines or reply.sheet.volumes):
            lines[:0] = worksheet_lines(reply, self._units)
        return " ".join(says), lines

    def _new_cautions(self, reply: Reply) -> list[str]:
        """The cautions of a reply that tells a verdict, as far as none was shown before."""
        if reply.verdict == "incomplete" or not reply.changed:
            return []
        new = [caution for caution in reply.cautions if caution not in self._cautioned]
        self._cautioned.update(new)
        return new
