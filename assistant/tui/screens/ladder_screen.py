"""Ladder mode: the verdict, the margin and the open question as large as the terminal allows."""

from __future__ import annotations

from typing import ClassVar

from boxaloud.assistant.tui.presenters.ladder_view import ladder
from boxaloud.assistant.tui.presenters.verdict_view import Glance
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.assistant.tui.widgets.input_line import EntryLine
from boxaloud.assistant.tui.widgets.verdict_panel import VERDICTS
from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.screen import Screen
from textual.widgets import Static


class Ladder(Screen[str]):
    """Words are typed and spoken here as on the card; Escape, or “small”, leads back to it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,f10,ctrl+l", "dismiss('')", show=False, priority=True),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._shown: Glance | None = None
        self._question = ""

    def compose(self) -> ComposeResult:
        """The large rows, what always holds, and the line."""
        yield Static(id="ladder", markup=False)
        yield Static(text("caution.line"), id="ladder-caution", markup=False)
        yield EntryLine(text("ladder.keys"), id="ladder-entry")

    def on_mount(self) -> None:
        """Ready to type."""
        self.query_one(EntryLine).focus()

    def show(self, shown: Glance, question: str) -> None:
        """Show where the box stands now."""
        self._shown, self._question = shown, question
        if self.is_mounted:
            self.draw()

    def on_resize(self) -> None:
        """Draw to the new size."""
        self.call_after_refresh(self.draw)

    def draw(self) -> None:
        """Draw as large as there is room."""
        place = self.query_one("#ladder", Static)
        if self._shown is None or not place.size.width:
            return
        for verdict in VERDICTS:
            place.set_class(verdict == self._shown.verdict, f"-{verdict}")
        rows = ladder(self._shown, self._question, place.size.width, place.size.height)
        place.update(Text("\n".join(rows), no_wrap=True), layout=False)
