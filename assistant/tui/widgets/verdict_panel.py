"""The verdict and the margin in very large characters, with a word and a shape."""

from __future__ import annotations

from boxaloud.assistant.tui.presenters.large_verdict import drawn
from boxaloud.assistant.tui.presenters.verdict_view import Glance
from rich.text import Text
from textual.widgets import Static

VERDICTS = ("fits", "over", "incomplete")


class GlancePanel(Static):
    """Drawn as large as the room allows; in a tiny terminal, one plain line."""

    def __init__(self, id: str | None = None) -> None:
        super().__init__(id=id)
        self._shown: Glance | None = None

    def show(self, shown: Glance) -> None:
        """Show another verdict."""
        if shown == self._shown:
            return
        self._shown = shown
        for verdict in VERDICTS:
            self.set_class(verdict == shown.verdict, f"-{verdict}")
        self._draw()

    def on_resize(self) -> None:
        """Draw to the new size."""
        self._draw()

    def _draw(self) -> None:
        if self._shown is not None:
            rows = drawn(self._shown, *self.size)
            self.update(Text("\n".join(rows), no_wrap=True), layout=False)
