"""The app: takes words, keys and clicks to the conversation and shows what comes back."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Sequence
from functools import partial
from typing import ClassVar

from textual import events
from textual.app import App, SystemCommand
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.screen import Screen

from assistant.conversation import Reply
from assistant.screen import saying_by_key as by_key
from assistant.screen.card import Card
from assistant.screen.choices import Choice, choices_for
from assistant.screen.contents import ContentsList
from assistant.screen.desk import Desk
from assistant.screen.entry import MOST, EntryLine
from assistant.screen.explaining import explained
from assistant.screen.helping import cautions_of, help_lines
from assistant.screen.listening import Listener, Report, Speaker
from assistant.screen.picker import Picker
from assistant.screen.question import Answers
from assistant.screen.row_list import RowList
from assistant.screen.sheet import ChoiceSheet, TextSheet
from assistant.screen.supposing import supposed_in
from assistant.screen.talking import Talking
from assistant.screen.themes import NAMES, PLAIN, all_themes, theme_name
from assistant.screen.trying import Change, TrySheet
from assistant.screen.welcome import Welcome
from assistant.screen.wording import text, texts
from grammar.statements import Statement
from grammar.words import Word
from rules.worksheet import Line, VolumeLine

ACTIONS = {
    "contents": "screen.panel('contents')",
    "worksheet": "screen.panel('worksheet')",
    "boxes": "screen.panel('boxes')",
    "undo": "statement('undo')",
    "redo": "statement('redo')",
    "next_box": "statement('next_box')",
    "repeat": "statement('read_back')",
    "leave": "quit",
}
"""Commands of the palette whose action is not named as they are."""


class Told(Message):
    """A report of the microphone, brought to the app's own thread."""

    def __init__(self, report: Report) -> None:
        super().__init__()
        self.report = report


class BoxaloudApp(App[None]):
    """One job on the screen. It holds no box of its own: the desk does."""

    CSS_PATH = "boxaloud.tcss"
    ENABLE_COMMAND_PALETTE = True
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f1", "help", show=False),
        Binding("f2,ctrl+t", "talk", show=False, priority=True),
        Binding("f6", "what_if", show=False),
        Binding("f7", "pick_box", show=False),
        Binding("f8", "colours", show=False),
        Binding("ctrl+z", "statement('undo')", show=False, priority=True),
        Binding("ctrl+y", "statement('redo')", show=False, priority=True),
        Binding("ctrl+n", "statement('next_box')", show=False, priority=True),
        Binding("ctrl+q", "quit", show=False, priority=True),
    ]

    def __init__(
        self,
        desk: Desk,
        listener: Listener | None = None,
        speaker: Speaker | None = None,
        colours: str = NAMES[0],
        steady: bool = False,
    ) -> None:
        super().__init__()
        self.animation_level = "none"
        self.fault: Exception | None = None
        self.desk = desk
        self.card = Card()
        self.talking = Talking(
            listener,
            speaker,
            self._tell,
            self.hear,
            self._show_ears,
            steady,
        )
        for theme in all_themes():
            self.register_theme(theme)
        self.theme = theme_name(PLAIN if self.no_color else colours)

    def get_default_screen(self) -> Screen[None]:
        """The card."""
        return self.card

    def on_card_ready(self) -> None:
        """Show the box at hand, and the first steps where nothing was said yet."""
        self._show_box()
        self._show_ears()
        talk = self.desk.conversation.talk
        if talk.last is not None:
            self.card.show_reply(talk, talk.last)
        elif len(self.desk.conversation.boxes.names) == 1:
            self.action_welcome()

    def _handle_exception(self, error: Exception) -> None:
        """Keep the fault for one plain sentence; no traceback reaches the user."""
        self.fault = error
        super()._handle_exception(error)
        if not self.is_headless and not os.environ.get("BOXALOUD_TRACEBACK"):
            self._exit_renderables.clear()

    # -- to the conversation and back ------------------------------------------------------

    def hear(self, words: str | Sequence[Word]) -> None:
        """Words, typed or heard."""
        self._answer(lambda: self.desk.hear(words))

    def enter(self, statements: Sequence[Statement], heard: str) -> None:
        """Statements made by a key or a click."""
        self._answer(lambda: self.desk.enter(statements, heard))

    def _answer(self, ask: Callable[[], Reply]) -> None:
        try:
            reply = ask()
        except Exception as fault:  # nothing may close the screen on someone up a ladder
            self.card.show_trouble(text("trouble.fault", why=f"{type(fault).__name__}: {fault}"))
            return
        self._show_box()
        self.card.show_reply(self.desk.conversation.talk, reply)
        self.talking.speak(reply.spoken)
        if change := supposed_in(self.desk.conversation.talk.journal[-1:]):
            self._try(change)

    def _show_box(self) -> None:
        self.card.show_box(self.desk.conversation, self.desk.label)

    def _show_ears(self) -> None:
        self.card.show_ears(self.talking.label)
        if self.talking.partial:
            self.card.show_partial(self.talking.partial)
        if self.talking.trouble:
            self.card.show_trouble(self.talking.trouble)

    # -- what the widgets report -----------------------------------------------------------

    def _tell(self, report: Report) -> None:
        """Take a report from the engine's thread to ours."""
        self.post_message(Told(report))

    def on_told(self, message: Told) -> None:
        """The microphone reports."""
        self.talking.told(message.report)

    async def on_event(self, event: events.Event) -> None:
        """Any key stops the voice, whatever else it does."""
        if isinstance(event, events.Key):
            self.talking.hush()
        await super().on_event(event)

    def on_input_submitted(self, event: EntryLine.Submitted) -> None:
        """Words were typed."""
        assert isinstance(event.input, EntryLine)
        if words := event.input.take():
            self.hear(words)

    def on_entry_line_too_long(self, event: EntryLine.TooLong) -> None:
        """Too much was pasted."""
        self.card.show_trouble(text("entry.too_long", count=event.count, most=MOST))

    def on_answers_chosen(self, event: Answers.Chosen) -> None:
        """An answer was chosen."""
        self._choose(event.choice)

    def _choose(self, choice: Choice) -> None:
        if choice.opens:
            self.call_later(self.run_action, choice.opens)
        else:
            self.enter(choice.statements, choice.label)

    def on_contents_list_recount(self, event: ContentsList.Recount) -> None:
        """Another count for a line."""
        saying = by_key.recount(self.desk.conversation, event.key, event.count, event.by)
        if saying is not None:
            self.enter(saying.statements, saying.heard)

    def on_row_list_chosen(self, event: RowList.Chosen) -> None:
        """A row of one of the three lists."""
        about = event.row.about
        if isinstance(about, Line | VolumeLine):
            edition = self.desk.conversation.talk.state.edition
            self.push_screen(TextSheet(about.what, explained(about, edition)))
        elif event.rows.id == "boxes" and isinstance(about, str):
            self._open(about)
        elif about == "box":
            self.action_pick_box()
        elif about == "clamps":
            self._ask_clamps()

    def _open(self, name: str) -> None:
        if name != self.desk.conversation.talk.name:
            self.enter((Statement("open_box", {"name": name}, name),), f"open {name}")

    def _ask_clamps(self) -> None:
        ways = choices_for("clamps", self.desk.conversation.talk.state)

        def chosen(number: str | None) -> None:
            if number:
                self._choose(ways[int(number) - 1])

        self.push_screen(ChoiceSheet(text("contents.clamps_title"), ways), chosen)

    def _try(self, change: Change = "") -> None:
        self.push_screen(TrySheet(self.desk.conversation, self._take_over, change))

    def _take_over(self, change: Change) -> None:
        if isinstance(change, str):
            self.hear(change)
        else:
            self.enter(change, " ".join(statement.words for statement in change))

    # -- keys and commands -----------------------------------------------------------------

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """Every command by name, in the palette."""
        for action, (title, about) in texts("command").items():
            yield SystemCommand(title, about, partial(self.run_action, ACTIONS.get(action, action)))

    def action_talk(self) -> None:
        """Open the microphone, or close it."""
        if self.screen is self.card:
            self.talking.toggle(self.desk.conversation.asks)

    def action_statement(self, kind: str) -> None:
        """A single statement: undo, redo, next box, read back."""
        saying = by_key.plain(kind, kind.replace("_", " "))
        self.enter(saying.statements, saying.heard)

    def action_help(self) -> None:
        """What can be said, and the keys."""
        self.push_screen(TextSheet(text("help.keys_title"), help_lines()))

    def action_cautions(self) -> None:
        """What to look out for with this box."""
        self.push_screen(TextSheet(text("cautions.title"), cautions_of(self.desk.conversation)))

    def action_what_if(self) -> None:
        """The box as it stands, beside a change."""
        self._try()

    def action_pick_box(self) -> None:
        """The list of standard boxes."""
        self.push_screen(Picker(lambda pick: self.enter((pick.statement,), pick.words)))

    def action_welcome(self) -> None:
        """The first steps."""
        self.push_screen(Welcome(), self._welcomed)

    def _welcomed(self, way: str | None) -> None:
        if way == "leave":
            self.exit()
        elif way == "example":
            self.hear(text("welcome.example_words"))

    def action_colours(self) -> None:
        """The next palette; without colours there is none."""
        if self.no_color:
            return
        at = NAMES.index(self.theme.removeprefix(theme_name("")))
        name = NAMES[(at + 1) % len(NAMES)]
        self.theme = theme_name(name)
        self.card.show_note(text("theme.changed", name=text(f"theme.{name}")))
