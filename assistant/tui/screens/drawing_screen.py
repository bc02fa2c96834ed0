"""The pull box at hand from the front, to scale, as large as the terminal allows."""

from __future__ import annotations

from collections.abc import Iterable

from boxaloud.assistant.dialogue.assessment import Assessment
from boxaloud.assistant.tui.presenters.enclosure_view import picture
from boxaloud.assistant.tui.screens.overlay import Sheet
from boxaloud.assistant.tui.tui_messages import text
from rich.text import Text
from textual.widget import Widget
from textual.widgets import Static


class Drawing(Sheet):
    """Escape leads back to the card."""

    title_words = text("pull.title")
    keys_words = text("pull.close")

    def __init__(self, found: Assessment) -> None:
        super().__init__()
        self._found = found

    def body(self) -> Iterable[Widget]:
        """The drawing, and what it shows in words."""
        yield Static(id="drawing", markup=False)

    def on_resize(self) -> None:
        """Draw to the new size."""
        self.call_after_refresh(self._draw)

    def _draw(self) -> None:
        place = self.query_one("#drawing", Static)
        if place.size.width:
            rows = picture(self._found, place.size.width - 2, place.size.height)
            place.update(Text("\n".join(rows), no_wrap=True), layout=False)
