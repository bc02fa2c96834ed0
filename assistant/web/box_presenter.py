"""The box at hand as the page shows it: verdict, fill, contents, worksheets. Pure."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from boxaloud.assistant.dialogue.assessment import Assessment
from boxaloud.assistant.dialogue.divided_box import Standing
from boxaloud.assistant.dialogue.enclosures import body_telling, pull_telling
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import in_unit, marked, plain, say, volume
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.tui.presenters.rule_explanation import explained
from boxaloud.assistant.tui.presenters.trade_writing import sizes_written
from boxaloud.assistant.tui.presenters.verdict_view import glance
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.assistant.web.page_documents import (
    ContentRow,
    Fill,
    FillPart,
    Sheet,
    SheetRow,
    VerdictCard,
)
from boxaloud.rules.worksheet import Line, Unit, VolumeLine, Worksheet


def verdict_card(found: Assessment) -> VerdictCard:
    """The verdict, the margin and one line under them."""
    seen = glance(found)
    return VerdictCard(
        found.verdict, seen.word, seen.margin, seen.at_least, seen.unit, seen.caption, seen.code
    )


def fill(found: Assessment) -> Fill:
    """What each kind of thing takes, in the order of the worksheet."""
    sheet = found.sheet
    taken: dict[str, list[Line]] = {}
    for line in sheet.lines:
        if line.subtotal:
            taken.setdefault(line.item, []).append(line)
    parts = tuple(
        FillPart(item, text(f"fill.name.{item}"), volume(_taken(lines)))
        for item, lines in taken.items()
    )
    capacity = None if sheet.capacity is None else marked(sheet.capacity)
    return Fill(
        parts, volume(sheet.total), volume(found.low), volume(found.high), capacity,
        in_unit(sheet.unit),
    )  # fmt: skip


def _taken(lines: list[Line]) -> Decimal:
    return sum((line.subtotal for line in lines), Decimal(0))


def contents(state: State) -> tuple[ContentRow, ...]:
    """What was entered, then the box itself and its clamps."""
    return tuple(_contents(state))


def _contents(state: State) -> Iterator[ContentRow]:
    if not state.items:
        yield ContentRow("nothing", text("contents.nothing"))
    for item in state.items:
        yield ContentRow("item", item_names.shown(item.content), item.key, item.content.count)
    for part in state.box:
        yield ContentRow("box", sizes_written(item_names.part(part)))
    for part in state.extras:
        yield ContentRow("part", sizes_written(item_names.part(part)))
    yield ContentRow("clamps", say(f"clamps.{state.clamps}"))


def sheets(found: Assessment) -> tuple[Sheet, ...]:
    """The worksheet; of a divided box one for each space, the one that governs first."""
    if not found.spaces:
        return (_sheet(found.sheet, None),)
    return tuple(
        _sheet(space.sheet, space.number)
        for space in sorted(found.spaces, key=lambda space: _governs(space, found))
    )


def _governs(space: Standing, found: Assessment) -> tuple[bool, int]:
    return space.sheet is not found.sheet, space.number


def _sheet(sheet: Worksheet, space: int | None) -> Sheet:
    lines: tuple[Line | VolumeLine, ...] = (*sheet.volumes, *sheet.lines)
    rows = [_row(line, sheet) for line in lines]
    capacity = None if sheet.capacity is None else marked(sheet.capacity)
    return Sheet(space, tuple(rows), volume(sheet.total), capacity, in_unit(sheet.unit))


def _row(line: Line | VolumeLine, sheet: Worksheet) -> SheetRow:
    paragraphs = tuple(words.strip() for words in explained(line, sheet.edition) if words)
    if isinstance(line, VolumeLine):
        what = sizes_written(line.what)
        return SheetRow("capacity", what, marked(line.volume), "", line.section, paragraphs)
    return SheetRow(
        "line", line.what, volume(line.subtotal), _counted(line, sheet.unit), line.section,
        paragraphs,
    )  # fmt: skip


def _counted(line: Line, unit: Unit) -> str:
    """How a line was counted, in figures; empty where it takes no allowance."""
    if not line.allowances:
        return ""
    figures = text("worksheet.detail", allowances=plain(line.allowances), each=volume(line.each))
    return f"{figures} {in_unit(unit)}"


def enclosure(state: State) -> str:
    """What is told of a pull box or a conduit body; empty for other boxes."""
    return sizes_written(pull_telling.told(state) or body_telling.told(state))
