"""The footer: what can be done now, by its key or by a click."""

from __future__ import annotations

from boxaloud.assistant.tui.presenters.footer import Offer, fitting
from rich.style import Style
from rich.text import Text
from textual import events
from textual.message import Message
from textual.widgets import Static


class KeyBar(Static):
    """Keys and what they do, in one row. A click does what the key does."""

    class Wanted(Message):
        """An action was clicked."""

        def __init__(self, action: str) -> None:
            super().__init__()
            self.action = action

    def __init__(self, id: str | None = None) -> None:
        super().__init__(id=id)
        self._offers: tuple[Offer, ...] = ()

    def show(self, offers: tuple[Offer, ...]) -> None:
        """Offer other things."""
        if offers != self._offers:
            self._offers = offers
            self._draw()

    def on_resize(self) -> None:
        """More or fewer of them fit."""
        self._draw()

    def on_click(self, event: events.Click) -> None:
        """Do what was clicked on."""
        if action := event.style.meta.get("action"):
            self.post_message(self.Wanted(action))

    def _draw(self) -> None:
        row = Text(no_wrap=True)
        for offer in fitting(self._offers, self.size.width):
            row.append(offer.shown, Style(meta={"action": offer.action}))
            row.append("  ")
        self.update(row, layout=False)
