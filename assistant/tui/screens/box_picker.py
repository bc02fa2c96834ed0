"""The list of standard boxes: type to search, Enter takes one."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import ClassVar

from boxaloud.assistant.tui.presenters.box_search import Filled, Pick, search
from boxaloud.assistant.tui.presenters.list_rows import Row
from boxaloud.assistant.tui.screens.overlay import Sheet
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.assistant.tui.widgets.input_line import EntryLine
from boxaloud.assistant.tui.widgets.row_list import RowList
from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Static

MOST_GANGS = 6


class Picker(Sheet):
    """Choose the box. The arrows move in the list while the search line keeps the focus."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", show=False, priority=True),
        Binding("down", "move(1)", show=False, priority=True),
        Binding("pageup", "move(-8)", show=False, priority=True),
        Binding("pagedown", "move(8)", show=False, priority=True),
        Binding("ctrl+right", "gang(1)", show=False, priority=True),
        Binding("ctrl+left", "gang(-1)", show=False, priority=True),
    ]

    title_words = text("picker.title")
    keys_words = text("picker.keys")

    def __init__(self, take: Callable[[Pick], None], filled: Filled | None = None) -> None:
        super().__init__()
        self._filled = filled
        self._take = take
        self._gangs = 1
        self._picks: list[Pick] = []

    def body(self) -> Iterable[Widget]:
        """The search line and the list."""
        yield EntryLine(text("picker.placeholder"), id="search")
        yield RowList(id="picks")
        yield Static(text("picker.none"), id="no-picks", markup=False)

    def on_mount(self) -> None:
        """All of them, to begin with."""
        self.query_one(EntryLine).focus()
        self._search()

    def on_input_changed(self) -> None:
        """Search as it is typed."""
        self._search(0)

    def _search(self, pointed: int | None = None) -> None:
        self._picks = search(self.query_one(EntryLine).value, self._gangs, self._filled)
        rows = self.query_one(RowList)
        rows.show_rows([pick.shown for pick in self._picks], pointed)
        rows.display = bool(self._picks)
        self.query_one("#no-picks").display = not self._picks

    def action_move(self, by: int) -> None:
        """Point at another box."""
        self.query_one(RowList).action_move(by)

    def action_gang(self, by: int) -> None:
        """More or fewer gangs, for boxes that can be ganged."""
        self._gangs = max(1, min(self._gangs + by, MOST_GANGS))
        self._search()

    def on_input_submitted(self, event: EntryLine.Submitted) -> None:
        """Take the box pointed at."""
        event.stop()
        self._choose(self.query_one(RowList).row)

    def on_row_list_chosen(self, event: RowList.Chosen) -> None:
        """Take the box clicked on."""
        event.stop()
        self._choose(event.row)

    def _choose(self, row: Row | None) -> None:
        pick = next((pick for pick in self._picks if pick.shown == row), None)
        if pick is not None and self.leave(""):
            self._take(pick)
