"""A list that draws only the rows in view, so that 500 boxes cost no more than ten."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from boxaloud.assistant.tui.presenters.list_rows import Row
from rich.segment import Segment
from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Region, Size
from textual.message import Message
from textual.reactive import reactive
from textual.scroll_view import ScrollView
from textual.strip import Strip

POINTER, NO_POINTER = "▸ ", "  "


class RowList(ScrollView, can_focus=True):
    """Rows with a pointer. The row pointed at is marked by a sign and, in focus, reversed."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", show=False),
        Binding("down", "move(1)", show=False),
        Binding("pageup", "page(-1)", show=False),
        Binding("pagedown", "page(1)", show=False),
        Binding("home", "end(0)", show=False),
        Binding("end", "end(1)", show=False),
        Binding("enter", "choose", show=False),
    ]
    COMPONENT_CLASSES: ClassVar[set[str]] = {"row-list--row", "row-list--pointed"}

    pointed: reactive[int] = reactive(0)

    class Chosen(Message):
        """Enter or a click on a row."""

        def __init__(self, rows: RowList, row: Row) -> None:
            super().__init__()
            self.rows = rows
            self.row = row

        @property
        def control(self) -> RowList:
            """The list it came from."""
            return self.rows

    def __init__(self, id: str | None = None) -> None:
        super().__init__(id=id)
        self._rows: Sequence[Row] = ()

    @property
    def row(self) -> Row | None:
        """The row pointed at."""
        return self._rows[self.pointed] if self.pointed < len(self._rows) else None

    def show_rows(self, rows: Sequence[Row], pointed: int | None = None) -> None:
        """Show other rows; the pointer stays where it is, as far as there are rows."""
        self._rows = rows
        self.virtual_size = Size(self.size.width, len(rows))
        wanted = self.pointed if pointed is None else pointed
        self.pointed = max(0, min(wanted, len(rows) - 1))
        self._in_view()
        self.refresh()

    def render_line(self, y: int) -> Strip:
        """One row, cut to the width: its left part gives way to its right."""
        width = self.scrollable_content_region.width
        index = y + self.scroll_offset.y
        if index >= len(self._rows):
            return Strip.blank(width, self.rich_style)
        row = self._rows[index]
        here = index == self.pointed
        name = "row-list--pointed" if here and self.has_focus else "row-list--row"
        style = self.get_component_rich_style(name)
        line = self._line(row, POINTER if here else NO_POINTER, width)
        return Strip([Segment(line, style)]).adjust_cell_length(width, style)

    @staticmethod
    def _line(row: Row, pointer: str, width: int) -> str:
        right = f"  {row.right}" if row.right else ""
        room = width - len(pointer) - len(right)
        if right and room < len(row.left):
            section = row.right.rsplit("  ", 1)[-1]
            right = f"  {section}"
            room = width - len(pointer) - len(right)
        if right and room < len(row.left) and not isinstance(row.about, str | None):
            right, room = "", width - len(pointer)  # Enter shows what stands at the right
        left = row.left if len(row.left) <= room else row.left[: max(room - 1, 0)] + "…"
        return (pointer + left.ljust(max(room, 0)) + right)[:width]

    def action_move(self, by: int) -> None:
        """Move the pointer."""
        self.pointed = max(0, min(self.pointed + by, len(self._rows) - 1))

    def action_page(self, by: int) -> None:
        """Move the pointer by a view."""
        self.action_move(by * max(1, self.size.height - 1))

    def action_end(self, last: int) -> None:
        """Move the pointer to the first or the last row."""
        self.pointed = max(0, len(self._rows) - 1) if last else 0

    def action_choose(self) -> None:
        """Choose the row pointed at."""
        if (row := self.row) is not None:
            self.post_message(self.Chosen(self, row))

    def watch_pointed(self) -> None:
        """Keep the pointer in view."""
        self._in_view()
        self.refresh()

    def on_resize(self, event: events.Resize) -> None:
        """The rows have another width."""
        self.virtual_size = Size(event.size.width, len(self._rows))
        self._in_view()

    def on_click(self, event: events.Click) -> None:
        """A click points and chooses."""
        index = event.y + self.scroll_offset.y
        if index < len(self._rows):
            self.pointed = index
            self.action_choose()

    def _in_view(self) -> None:
        if self.size.height:
            region = Region(0, self.pointed, max(self.size.width, 1), 1)
            self.scroll_to_region(region, animate=False, force=True)
