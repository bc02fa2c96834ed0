"""The answers to the open question, to choose from by sign, arrow or click."""

from __future__ import annotations

from typing import ClassVar

from boxaloud.assistant.tui.presenters.answer_choices import Choice, answer_rows, signed
from rich.style import Style
from rich.text import Text
from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.reactive import reactive
from textual.widgets import Static


class Answers(Static, can_focus=True):
    """The answers in one line: "1 inside  2 outside  3 none"."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "move(-1)", show=False),
        Binding("right", "move(1)", show=False),
        Binding("enter", "choose", show=False),
    ]

    pointed: reactive[int] = reactive(0)

    class Chosen(Message):
        """An answer was chosen."""

        def __init__(self, choice: Choice) -> None:
            super().__init__()
            self.choice = choice

    def __init__(self, id: str | None = None) -> None:
        super().__init__(id=id)
        self.choices: tuple[Choice, ...] = ()
        self.display = False

    def show(self, choices: tuple[Choice, ...]) -> None:
        """Show other answers."""
        choices = signed(choices)
        if choices != self.choices:
            self.choices = choices
            self.pointed = 0
            self.display = bool(choices)
            self._draw()

    def action_move(self, by: int) -> None:
        """Point at another answer."""
        self.pointed = max(0, min(self.pointed + by, len(self.choices) - 1))

    def action_choose(self) -> None:
        """Choose the one pointed at."""
        if self.pointed < len(self.choices):
            self.post_message(self.Chosen(self.choices[self.pointed]))

    def take(self, sign: str) -> bool:
        """Choose the answer with this sign; False where there is none."""
        found = [choice for choice in self.choices if choice.sign == sign.strip().lower()]
        if found and sign.strip():
            self.post_message(self.Chosen(found[0]))
        return bool(found and sign.strip())

    def on_key(self, event: events.Key) -> None:
        """A sign chooses while the answers have the focus."""
        if event.character and self.take(event.character):
            event.stop()

    def watch_pointed(self) -> None:
        """Mark the one pointed at."""
        self._draw()

    def on_focus(self) -> None:
        """The pointer shows only in focus."""
        self._draw()

    def on_blur(self) -> None:
        """The pointer shows only in focus."""
        self._draw()

    def on_click(self, event: events.Click) -> None:
        """Choose the answer clicked on."""
        number = event.style.meta.get("answer")
        if number is not None:
            self.post_message(self.Chosen(self.choices[number]))

    def on_resize(self) -> None:
        """The line breaks at other places."""
        self._draw()

    def _draw(self) -> None:
        """An answer is never broken across rows; where rows lack, those around the pointer show."""
        lines = answer_rows(self.choices, self.size.width)
        auto = self.styles.height is not None and self.styles.height.is_auto
        height = len(lines) if auto else max(self.size.height, 1)
        here = next((at for at, line in enumerate(lines) if self.pointed in line), 0)
        first = max(0, here - height + 1)
        rows = [self._row(line) for line in lines[first : first + height]]
        if first + height < len(lines) and rows:
            rows[-1].append("…")
        self.update(Text("\n", no_wrap=True).join(rows), layout=auto)

    def _row(self, numbers: list[int]) -> Text:
        row = Text()
        for number in numbers:
            here = self.has_focus and number == self.pointed
            words = f"{'▸' if here else ' '}{self.choices[number].shown} "
            row.append(words, Style(meta={"answer": number}, reverse=here))
            row.append(" ")
        return row
