"""Worksheets and replies as plain lines: for a terminal, a pipe and a screen reader alike.

No column carries meaning by its place alone, nothing is said by colour, and each worksheet
line reads as a sentence does.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Literal, TypeAlias

from boxaloud.assistant.cli import enclosure_text
from boxaloud.assistant.cli.cli_messages import say
from boxaloud.assistant.dialogue.nlg.sentences import in_unit, marked, plain, volume
from boxaloud.assistant.dialogue.reply import Reply
from boxaloud.rules import counted_under, is_canadian, shown_cm3
from boxaloud.rules.units import VolumeUnit
from boxaloud.rules.worksheet import Line

_Units: TypeAlias = VolumeUnit | Literal["mL"]


def worksheet_lines(reply: Reply, units: _Units = "in3") -> Iterator[str]:
    """The worksheet: capacity, each item with its section, total, margin, verdict.

    Volumes are cubic inches, millilitres in Canada; with `units` of "cm3" cubic centimetres stand
    beside cubic inches.
    """
    if enclosure_text.governs(reply):
        yield from enclosure_text.worksheet_lines(reply)
        return
    sheet = reply.sheet
    yield f"Worksheet, {_under(sheet.edition)}"
    unit = f" {in_unit(sheet.unit)}"
    if sheet.unit == "mL":
        units = "mL"
    for part in sheet.volumes:
        room = _in(units, marked(part.volume), part.volume)
        yield f"  {room} capacity: {part.what}, {part.section}"
    for line in sheet.lines:
        yield "  " + _line(line, units)
    total = volume(sheet.total)
    if sheet.capacity is None:
        yield f"  Total {_in(units, total, sheet.total)}, capacity unknown"
    else:
        of = f"{total} of {_in(units, marked(sheet.capacity), sheet.capacity)}"
        yield _total_line(reply, of, sheet.capacity - sheet.total, units)
    if reply.low != reply.high:
        yield f"  Still open: between {volume(reply.low)} and {volume(reply.high)}{unit}"
    for assumed in reply.assumed:
        yield f"  Assumed: {assumed}"
    yield from enclosure_text.beside_volume(reply)


def _total_line(reply: Reply, of: str, margin: Decimal, units: _Units) -> str:
    """The total and the verdict; a margin only where nothing is open that would move it."""
    verdict = _by_volume(reply)
    if not reply.low == reply.high == reply.sheet.total:
        whatever = "" if verdict == "INCOMPLETE" else ", whatever is still open"
        return f"  Total so far {of}: {verdict}{whatever}"
    word = "margin" if margin >= 0 else "over by"
    left = _in(units, volume(abs(margin)), abs(margin), bare=True)
    return f"  Total {of}, {word} {left}: {verdict}"


def _by_volume(reply: Reply) -> str:
    """The verdict as it stands beside a total: that of the volume, of a box that is too small for
    its pulls alone."""
    small = bool(enclosure_text.too_small_line(reply))
    return (reply.sheet.verdict if small else reply.verdict).upper()


def _in(units: _Units, text: str, value: Decimal, bare: bool = False) -> str:
    """A volume with its unit unless `bare`, and the same in cubic centimetres beside it where
    asked for. Millilitres stand alone."""
    unit = "" if bare else " mL" if units == "mL" else " in³"
    beside = f" ({shown_cm3(value)} cm³)" if units == "cm3" else ""
    return f"{text}{unit}{beside}"


def _line(line: Line, units: _Units) -> str:
    if line.allowances == 0:
        return f"{_in(units, '0.00', line.subtotal)}: {line.what}, not counted, {line.section}"
    if line.awg is None:
        counted = _in(units, volume(line.subtotal), line.subtotal)
        return f"{counted}: {line.what}, {line.section}"
    noun = "allowance" if line.allowances == 1 else "allowances"
    subtotal = _in(units, volume(line.subtotal), line.subtotal)
    return (
        f"{subtotal}: {line.what}, {plain(line.allowances)} {noun} of "
        f"{volume(line.each)} ({line.awg} AWG), {line.section}"
    )


def _under(edition: str) -> str:
    """The section or rule, its code and its edition."""
    of = counted_under(edition, "edition ")
    return of if is_canadian(edition) else f"NEC {of}"


def verdict_line(reply: Reply) -> str:
    """Verdict and margin in one line, with unit and code: what is read first."""
    if enclosure_text.governs(reply):
        return enclosure_text.verdict_line(reply)
    if small := enclosure_text.too_small_line(reply):
        return small
    sheet, capacity = reply.sheet, reply.sheet.capacity
    values = {
        "total": volume(sheet.total),
        "under": _under(sheet.edition),
        "unit": in_unit(sheet.unit),
    }
    if capacity is None:
        return say("verdict.no_box", **values)
    values["capacity"] = marked(capacity)
    if reply.verdict == "incomplete":
        return say("verdict.incomplete", **values)
    fits = reply.verdict == "fits"
    margin = capacity - reply.high if fits else reply.low - capacity
    early = "" if reply.low == reply.high == sheet.total else "_early"
    return say(
        f"verdict.{reply.verdict}{early}",
        margin=volume(margin),
        low=volume(reply.low),
        high=volume(reply.high),
        **values,
    )


def cautions_line(cautions: Sequence[str]) -> str:
    """Cautions in one line, each a sentence; empty where there are none."""
    sentences = (caution if caution.endswith(".") else f"{caution}." for caution in cautions)
    return f"{say('caution')} {' '.join(sentences)}" if cautions else ""


class Showing:
    """What one session shows of each reply: one line, and the worksheet where it is due."""

    def __init__(self, units: VolumeUnit = "in3") -> None:
        self._units = units
        self._cautioned: set[str] = set()
        self._last: Reply | None = None
        """The last reply whose worksheet was not shown."""

    def shown(self, reply: Reply) -> tuple[str, list[str]]:
        """The reply in one line, and the worksheet where it was asked for.

        Each whole caution stands once, in the line of the first verdict that calls for it, in
        place of the short one.
        """
        cautions = self._new_cautions(reply)
        says = [act.says for act in reply.acts if act.act not in ("caution", "question")]
        if cautions:
            says.append(cautions_line(cautions))
        else:
            says += [act.says for act in reply.acts if act.act == "caution"]
        says += [act.says for act in reply.acts if act.act == "question"]
        self._last = None if reply.shows_sheet else reply
        return " ".join(says), self._sheet(reply) if reply.shows_sheet else []

    def at_the_end(self) -> list[str]:
        """The worksheet, unless it was the last thing shown."""
        return self._sheet(self._last) if self._last is not None else []

    def _sheet(self, reply: Reply) -> list[str]:
        described = reply.sheet.lines or reply.sheet.volumes or enclosure_text.governs(reply)
        return list(worksheet_lines(reply, self._units)) if described else []

    def _new_cautions(self, reply: Reply) -> list[str]:
        """The cautions of a reply that tells a verdict, as far as none was shown before."""
        if reply.verdict == "incomplete" or not reply.changed:
            return []
        new = [caution for caution in reply.cautions if caution not in self._cautioned]
        self._cautioned.update(new)
        return new
