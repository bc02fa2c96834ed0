"""The what-if screen: both boxes side by side, and the difference."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import ClassVar, TypeAlias

from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.tui.presenters.box_comparison import (
    Compared,
    compared,
    difference,
    suppose,
    table_rows,
)
from boxaloud.assistant.tui.screens.overlay import Sheet
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.assistant.tui.widgets.input_line import MOST, EntryLine
from boxaloud.grammar.acts import Act
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.widget import Widget
from textual.widgets import Static

Change: TypeAlias = str | Sequence[Act]


class TrySheet(Sheet):
    """Type a change, see both totals; Ctrl+S takes it over into the box."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "take_over", show=False, priority=True)
    ]

    title_words = text("try.title")
    keys_words = text("try.keys")

    def __init__(
        self, conversation: Conversation, take: Callable[[Change], None], change: Change = ""
    ) -> None:
        super().__init__()
        self._conversation = conversation
        self._take = take
        self._change = change
        self._lines: list[Compared] = []

    def body(self) -> Iterable[Widget]:
        """The line for the change, the difference, both boxes line by line."""
        yield EntryLine(text("try.prompt"), id="change")
        yield Static(text("try.waiting"), id="difference", markup=False)
        yield VerticalScroll(Static(id="table", markup=False), id="compare", can_focus=True)

    def on_mount(self) -> None:
        """Show the box as it stands, and the change if one was brought along."""
        self.query_one(EntryLine).focus()
        self._lines = compared(self._conversation.talk.assessment, None)
        if self._change:
            self._try(self._change)

    def on_resize(self) -> None:
        """Other columns."""
        self.call_after_refresh(self._draw)

    def _draw(self) -> None:
        width = self.query_one("#compare").size.width - 3
        self.query_one("#table", Static).update("\n".join(table_rows(self._lines, width)))

    def on_input_submitted(self, event: EntryLine.Submitted) -> None:
        """Try what was typed. The line is empty again, so that no words join the next ones."""
        event.stop()
        if words := self.query_one(EntryLine).take():
            self._try(words)

    def on_entry_line_too_long(self, event: EntryLine.TooLong) -> None:
        """Say that nothing of it was taken."""
        event.stop()
        self._say(text("entry.too_long", count=event.count, most=MOST))

    def _try(self, change: Change) -> None:
        tried = suppose(self._conversation, change)
        self._change = change if tried.tried else ""
        self._lines = compared(tried.now, tried.then if tried.tried else None)
        self._draw()
        told = difference(tried.now, tried.then) if tried.tried else [tried.reply.said]
        self._say("\n".join([text("try.tried", change=_words(change)), *told]))

    def _say(self, words: str) -> None:
        self.query_one("#difference", Static).update(words)

    def action_take_over(self) -> None:
        """Enter the change that was tried."""
        if not self._change:
            self._say(text("try.not_tried"))
            return
        if self.leave(""):
            self._take(self._change)


def _words(change: Change) -> str:
    """What was supposed, as it was said."""
    return change if isinstance(change, str) else " ".join(act.words for act in change)
