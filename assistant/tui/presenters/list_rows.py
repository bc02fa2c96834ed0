"""What the three lists of the screen show, row by row: contents, worksheet, boxes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.dialogue.assessment import Assessment
from boxaloud.assistant.dialogue.enclosures import pull_telling
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import marked, plain, say, volume
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.tui.presenters import enclosure_view
from boxaloud.assistant.tui.presenters.trade_writing import sizes_written
from boxaloud.assistant.tui.presenters.verdict_view import glance
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.rules.worksheet import Line, VolumeLine


@dataclass(frozen=True, slots=True)
class Row:
    """One row: what stands left and right, and what it is about.

    `about` is an item's key, `box`, `clamps`, a worksheet line, or a box's name.
    """

    left: str
    right: str = ""
    about: int | str | Line | VolumeLine | None = None


def content_rows(state: State) -> list[Row]:
    """What is in the box, as entered, then the box itself and its clamps."""
    rows = [Row(item_names.shown(item.content), "", item.key) for item in state.items]
    if state.pulls is not None:
        rows += [Row(pull_telling.pulled(one)) for one in state.pulls.pulls]
    if not rows:
        rows = [Row(text("contents.nothing"))]
    rows += [
        Row(text("contents.box", what=sizes_written(item_names.part(part))), "", "box")
        for part in state.box
    ] or [Row(text("contents.box_unknown"), "", "box")]
    rows += [
        Row(text("contents.extra", what=sizes_written(item_names.part(part))))
        for part in state.extras
    ]
    clamps = say(f"clamps.{state.clamps}")
    rows.append(Row(text("contents.clamps", what=clamps), "", "clamps"))
    return rows


def worksheet_rows(found: Assessment) -> list[Row]:
    """Capacity, each line with its section, the total."""
    if not found.by_volume and (rows := [Row(*row) for row in enclosure_view.rows(found)]):
        return rows
    sheet = found.sheet
    rows = [
        Row(
            text(
                "worksheet.capacity",
                volume=figures(marked(v.volume)),
                what=sizes_written(v.what),
            ),
            v.section,
            v,
        )
        for v in sheet.volumes
    ]
    rows += [_line_row(line) for line in sheet.lines]
    if sheet.lines:
        rows.append(Row(text("worksheet.total", total=figures(volume(sheet.total)))))
    return rows or [Row(text("worksheet.nothing"))]


def _line_row(line: Line) -> Row:
    if not line.allowances:
        left = text("worksheet.zero", subtotal=figures(volume(line.subtotal)), what=line.what)
        return Row(left, line.section, line)
    detail = text("worksheet.detail", allowances=plain(line.allowances), each=volume(line.each))
    left = text("worksheet.line", subtotal=figures(volume(line.subtotal)), what=line.what)
    return Row(left, f"{detail}  {line.section}", line)


def figures(volume: str) -> str:
    """A volume set so that its figures stand under each other."""
    whole, _, part = volume.partition(".")
    return f"{whole:>3}.{part:<2}"


class BoxRows(Sequence[Row]):
    """The boxes of the job. A box is worked out when its row is first shown, not before."""

    def __init__(self, conversation: Conversation) -> None:
        self.conversation = conversation
        self.names = conversation.boxes.names

    def __len__(self) -> int:
        return len(self.names)

    def __getitem__(self, index: int) -> Row:  # type: ignore[override]
        name = self.names[index]
        talk = self.conversation.boxes.talk(name)
        shown = glance(talk.assessment)
        here = text("boxes.here") if talk is self.conversation.talk else " "
        mark = text(f"verdict.mark.{shown.mark}")
        left = text("boxes.name", here=here, mark=mark, name=name)
        margin = f"{shown.margin}{'+' if shown.at_least else ''}"
        if shown.unit != "in³":
            margin = f"{margin} {shown.unit}"
        return Row(left, shown.coded(text(f"boxes.{shown.mark}", margin=margin)), name)

    @property
    def place(self) -> int:
        """The row of the box at hand."""
        return self.names.index(self.conversation.talk.name)
