"""The verdict and the margin in very large characters, with a word and a shape."""

from __future__ import annotations

from boxaloud.assistant.tui.presenters.glyphs import ROWS, beside, large, shape, width_of
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


def drawn(shown: Glance, width: int, height: int) -> list[str]:
    """The rows of the glance in the largest scale that fits."""
    for scale in (3, 2, 1):
        if scale * ROWS > height:
            continue
        parts = [shape(shown.verdict, scale), large(shown.word, scale)]
        if shown.margin:
            parts.append(large(shown.margin + ("+" if shown.at_least else ""), scale))
        rows = beside(*parts, gap=3 * scale)
        if width_of(rows) <= width:
            return rows
    return [shown.tiny]
