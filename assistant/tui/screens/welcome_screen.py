"""The first steps: what this is, and three ways on."""

from __future__ import annotations

from collections.abc import Iterable

from boxaloud.assistant.tui.presenters.answer_choices import Choice
from boxaloud.assistant.tui.screens.overlay import Sheet
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.assistant.tui.widgets.answer_bar import Answers
from textual import events
from textual.containers import VerticalScroll
from textual.widget import Widget
from textual.widgets import Static

WAYS = ("mine", "example", "leave")


class Welcome(Sheet):
    """Shown when the job has no word in it yet. Gives the way chosen."""

    typed = ""
    """What was typed in place of a choice: how a sentence begins."""
    title_words = text("welcome.title")
    keys_words = text("welcome.keys")

    def body(self) -> Iterable[Widget]:
        """What this is, in four sentences, and the ways on."""
        lines = [text(f"welcome.{key}") for key in ("lead", "first", "reader", "caution")]
        yield Answers(id="ways")
        yield VerticalScroll(
            Static("\n\n".join(lines), markup=False), classes="sheet-body", can_focus=False
        )

    def on_mount(self) -> None:
        """The answers take the keys."""
        answers = self.query_one(Answers)
        answers.show(tuple(Choice(text(f"welcome.{way}"), opens=way) for way in WAYS))
        answers.focus()

    def on_answers_chosen(self, event: Answers.Chosen) -> None:
        """Go the way chosen."""
        event.stop()
        self.leave(event.choice.opens)

    def on_key(self, event: events.Key) -> None:
        """Whoever types a sentence at once has chosen: nothing typed is lost."""
        if event.is_printable and event.character and (self.typed or event.character.isalpha()):
            event.stop()
            self.typed += event.character  # more keys may come before the sheet is gone
            self.leave("mine")

    def on_paste(self, event: events.Paste) -> None:
        """The same for what is pasted."""
        event.stop()
        self.typed += " ".join(event.text.split())
        self.leave("mine")
