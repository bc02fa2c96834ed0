"""The chart of the job: every box by its margin. Enter opens the box pointed at."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from time import monotonic

from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.tui.presenters.job_chart import Bar, bar_of, chart_rows, tally
from boxaloud.assistant.tui.screens.overlay import Sheet
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.assistant.tui.widgets.row_list import RowList
from textual.widget import Widget
from textual.widgets import Static

SLICE = 0.03
"""Seconds of work between two looks at the keys."""


class Chart(Sheet):
    """Boxes are worked out a few at a time, so that a job of thousands stops no key."""

    title_words = text("chart.title")
    keys_words = text("chart.keys")

    def __init__(self, conversation: Conversation, open_box: Callable[[str], None]) -> None:
        super().__init__()
        self._conversation = conversation
        self._open_box = open_box
        self._bars: list[Bar] = []

    def body(self) -> Iterable[Widget]:
        """How many, and the bars."""
        yield Static(id="tally", markup=False)
        yield RowList(id="chart")

    def on_mount(self) -> None:
        """Begin."""
        self.query_one(RowList).focus()
        self._work()

    def _work(self) -> None:
        names, began = self._conversation.boxes.names, monotonic()
        while len(self._bars) < len(names) and monotonic() - began < SLICE:
            self._bars.append(bar_of(self._conversation.boxes.talk(names[len(self._bars)])))
        if len(self._bars) < len(names):
            done = text("chart.working", done=len(self._bars), count=len(names))
            self.query_one("#tally", Static).update(done)
            self.set_timer(0.01, self._work)
        else:
            self.query_one("#tally", Static).update(tally(self._bars))
            self._draw()

    def on_resize(self) -> None:
        """Other columns."""
        self.call_after_refresh(self._draw)

    def _draw(self) -> None:
        rows = self.query_one(RowList)
        if len(self._bars) == len(self._conversation.boxes.names) and rows.size.width:
            rows.show_rows(chart_rows(self._bars, rows.size.width - 3))

    def on_row_list_chosen(self, event: RowList.Chosen) -> None:
        """Open the box."""
        event.stop()
        self.dismiss("")
        self._open_box(str(event.row.about))
