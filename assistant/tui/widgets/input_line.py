"""The input line: always there, without a blinking cursor, and wary of very large pastes."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from boxaloud.assistant.tui.presenters.input_history import InputHistory
from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.suggester import Suggester
from textual.widgets import Input

MOST = 2000
"""Characters taken at a time."""


class Completer(Suggester):
    """Offers the rest of a line."""

    def __init__(self, complete: Callable[[str], str | None]) -> None:
        super().__init__(use_cache=False, case_sensitive=True)
        self._complete = complete

    async def get_suggestion(self, value: str) -> str | None:
        """The line as it would be, or None."""
        return self._complete(value)


class EntryLine(Input):
    """Where words are typed. Up and down bring back what was typed; Tab takes what is offered."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "older", show=False),
        Binding("down", "newer", show=False),
        Binding("tab", "complete", show=False),
    ]

    class TooLong(Message):
        """More was pasted than is taken at a time; nothing of it was entered."""

        def __init__(self, count: int) -> None:
            super().__init__()
            self.count = count

    def __init__(self, placeholder: str, id: str | None = None) -> None:
        super().__init__(
            placeholder=placeholder, id=id, compact=True, max_length=MOST, select_on_focus=False
        )
        self.cursor_blink = False
        self.history = InputHistory()

    def begin(self, typed: str) -> None:
        """Take what was typed elsewhere, and all that follows it."""
        self.focus()
        self.insert_text_at_cursor(typed)

    def on_paste(self, event: events.Paste) -> None:
        """Take a paste of several lines as one; refuse one that is too long."""
        event.prevent_default()
        event.stop()
        words = " ".join(event.text.split())
        if len(words) + len(self.value) > MOST:
            self.post_message(self.TooLong(len(event.text)))
        else:
            self.insert_text_at_cursor(words)

    def action_older(self) -> None:
        """What was typed before."""
        self._bring(self.history.older(self.value))

    def action_newer(self) -> None:
        """What was typed after that."""
        self._bring(self.history.newer())

    def action_complete(self) -> None:
        """Take the rest that is offered; where nothing is, go on to what comes next."""
        if self._suggestion and self.cursor_position == len(self.value):
            self._bring(self._suggestion)
        else:
            self.screen.focus_next()

    def _bring(self, words: str | None) -> None:
        if words is not None:
            self.value = words
            self.cursor_position = len(words)

    def take(self) -> str:
        """What was typed; the line is empty again."""
        words = self.value.strip()
        self.history.keep(words)
        self.clear()
        return words
