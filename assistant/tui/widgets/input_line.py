"""The input line: always there, without a blinking cursor, and wary of very large pastes."""

from __future__ import annotations

from textual import events
from textual.message import Message
from textual.widgets import Input

MOST = 2000
"""Characters taken at a time."""


class EntryLine(Input):
    """Where words are typed."""

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

    def on_paste(self, event: events.Paste) -> None:
        """Take a paste of several lines as one; refuse one that is too long."""
        event.prevent_default()
        event.stop()
        words = " ".join(event.text.split())
        if len(words) + len(self.value) > MOST:
            self.post_message(self.TooLong(len(event.text)))
        else:
            self.insert_text_at_cursor(words)

    def take(self) -> str:
        """What was typed; the line is empty again."""
        words = self.value.strip()
        self.clear()
        return words
