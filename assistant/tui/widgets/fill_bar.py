"""The fill to scale, as a widget."""

from __future__ import annotations

from boxaloud.assistant.dialogue.assessment import Assessment
from boxaloud.assistant.tui.presenters.enclosure_view import picture
from boxaloud.assistant.tui.presenters.fill_drawing import rows_of_fill
from rich.text import Text
from textual.widgets import Static


class FillBar(Static):
    """The bar as thick as there is room, then its figures, then what the blocks mean."""

    def __init__(self, id: str | None = None) -> None:
        super().__init__(id=id)
        self._found: Assessment | None = None

    def show(self, found: Assessment) -> None:
        """Show another fill."""
        self._found = found
        self._draw()

    def on_resize(self) -> None:
        """Draw to the new size."""
        self._draw()

    def _draw(self) -> None:
        if self._found is not None and self.size.width and self.size.height:
            drawing = picture(self._found, *self.size)
            rows = drawing or rows_of_fill(self._found, *self.size)
            self.update(Text("\n".join(rows), no_wrap=True), layout=False)
