"""What is laid over the card: a title, a body, and the keys that leave it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from boxaloud.assistant.tui.presenters.answer_choices import Choice
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.assistant.tui.widgets.answer_bar import Answers
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static


class Sheet(Screen[str]):
    """The base of every screen laid over the card. Escape leaves it with nothing chosen."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", show=False)]

    title_words = ""
    keys_words = text("foot.modal")
    _left = False

    def body(self) -> Iterable[Widget]:
        """What stands between the title and the keys."""
        return ()

    def compose(self) -> ComposeResult:
        """Title, body, keys."""
        yield Static(self.title_words, classes="sheet-title", markup=False)
        yield from self.body()
        yield Static(self.keys_words, classes="sheet-keys", markup=False)

    def leave(self, result: str) -> bool:
        """Back to the card with what was chosen. False where the sheet is being left already:
        keys may come faster than it goes, and the second of two must choose nothing."""
        if self._left or not self.is_current:
            return False
        self._left = True
        self.dismiss(result)
        return True

    def action_leave(self) -> None:
        """Back to the card."""
        self.leave("")


class TextSheet(Sheet):
    """A sheet of plain paragraphs that scrolls by the arrow keys."""

    def __init__(self, title: str, lines: Iterable[str], from_foot: bool = False) -> None:
        super().__init__()
        self._from_foot = from_foot
        self.title_words = title
        self.keys_words = text("help.close")
        self._lines = list(lines)

    def body(self) -> Iterable[Widget]:
        """The paragraphs."""
        words = Static("\n".join(self._lines), markup=False)
        yield VerticalScroll(words, classes="sheet-body", can_focus=True)

    def on_mount(self) -> None:
        """The last lines first, where those are wanted."""
        if self._from_foot:
            body = self.query_one(VerticalScroll)
            self.call_after_refresh(body.scroll_end, animate=False)


class ChoiceSheet(Sheet):
    """A question of the screen's own. Gives the sign of the answer chosen, or nothing."""

    def __init__(self, title: str, choices: tuple[Choice, ...]) -> None:
        super().__init__()
        self.title_words = title
        self.keys_words = text("welcome.keys")
        self._choices = choices

    def body(self) -> Iterable[Widget]:
        """The answers."""
        yield Answers()

    def on_mount(self) -> None:
        """The answers take the keys."""
        answers = self.query_one(Answers)
        answers.show(self._choices)
        answers.focus()

    def on_answers_chosen(self, event: Answers.Chosen) -> None:
        """Leave with the sign."""
        event.stop()
        self.leave(event.choice.sign)
