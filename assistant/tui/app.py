"""The app: keys, clicks and commands, each made into words or acts for the shell."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import partial
from typing import ClassVar

from boxaloud.assistant.tui.app_base import Shell
from boxaloud.assistant.tui.presenters import key_acts as by_key
from boxaloud.assistant.tui.presenters.answer_choices import Choice, choices_for
from boxaloud.assistant.tui.presenters.box_search import filled_by
from boxaloud.assistant.tui.presenters.enclosure_view import front_of
from boxaloud.assistant.tui.presenters.footer import ACTIONS
from boxaloud.assistant.tui.presenters.help_text import cautions_of, help_lines
from boxaloud.assistant.tui.presenters.rule_explanation import explained
from boxaloud.assistant.tui.screens.box_picker import Picker
from boxaloud.assistant.tui.screens.chart_screen import Chart
from boxaloud.assistant.tui.screens.comparison_screen import Change, TrySheet
from boxaloud.assistant.tui.screens.drawing_screen import Drawing
from boxaloud.assistant.tui.screens.overlay import ChoiceSheet, TextSheet
from boxaloud.assistant.tui.screens.welcome_screen import Welcome
from boxaloud.assistant.tui.theme import NAMES, theme_name
from boxaloud.assistant.tui.tui_messages import text, texts
from boxaloud.assistant.tui.widgets.answer_bar import Answers
from boxaloud.assistant.tui.widgets.contents_list import ContentsList
from boxaloud.assistant.tui.widgets.input_line import MOST, EntryLine
from boxaloud.assistant.tui.widgets.key_bar import KeyBar
from boxaloud.assistant.tui.widgets.row_list import RowList
from boxaloud.grammar.acts import Act, SetClamps
from boxaloud.rules.worksheet import Line, VolumeLine
from textual.app import SystemCommand
from textual.binding import Binding, BindingType
from textual.screen import Screen


class BoxaloudApp(Shell):
    """One job on the screen."""

    ENABLE_COMMAND_PALETTE = True
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f1", "help", show=False),
        Binding("f2,ctrl+t", "talk", show=False, priority=True),
        Binding("f6", "what_if", show=False),
        Binding("f7", "pick_box", show=False),
        Binding("f8", "colours", show=False),
        Binding("f9", "talk_so_far", show=False),
        Binding("f10,ctrl+l", "big", show=False),
        Binding("ctrl+o", "overview", show=False),
        Binding("ctrl+g", "drawing", show=False, priority=True),
        Binding("ctrl+z", "say('undo')", show=False, priority=True),
        Binding("ctrl+y", "say('redo')", show=False, priority=True),
        Binding("ctrl+n", "say('next_box')", show=False, priority=True),
        Binding("ctrl+q", "quit", show=False, priority=True),
    ]

    def first_steps(self) -> None:
        """What this is, and three ways on."""
        self.action_welcome()

    def side_by_side(self, change: Sequence[Act]) -> None:
        """A supposition that was spoken or typed, shown as if it were tried by key."""
        self._try(change)

    # -- what the widgets report -----------------------------------------------------------

    def on_input_submitted(self, event: EntryLine.Submitted) -> None:
        """Words were typed."""
        if not isinstance(event.input, EntryLine):
            return
        sign, words = self.card.parted(event.input.take())
        if sign and self.card.answered(sign):
            self.call_later(self.hear, words)
        elif words and not self.card.answered(words):
            self.hear(words)

    def on_entry_line_too_long(self, event: EntryLine.TooLong) -> None:
        """Too much was pasted."""
        self.card.show_trouble(text("entry.too_long", count=event.count, most=MOST))

    def on_key_bar_wanted(self, event: KeyBar.Wanted) -> None:
        """A key of the footer was clicked."""
        self.call_later(self.run_action, event.action)

    def on_answers_chosen(self, event: Answers.Chosen) -> None:
        """An answer was chosen."""
        self._choose(event.choice)

    def _choose(self, choice: Choice) -> None:
        if choice.opens:
            self.call_later(self.run_action, choice.opens)
        else:
            self.enter(choice.acts, choice.label)

    def on_contents_list_recount(self, event: ContentsList.Recount) -> None:
        """Another count for a line."""
        saying = by_key.recount(self.desk.conversation, event.key, event.count, event.by)
        if saying is not None:
            self.enter(saying.acts, saying.heard)

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
            saying = by_key.opened(name)
            self.enter(saying.acts, saying.heard)

    def _ask_clamps(self) -> None:
        known = choices_for("clamps", self.desk.conversation.talk.state)
        # "skip" and "I don't know" would answer whatever question is open
        ways = {way.sign: way for way in known if isinstance(way.acts[0], SetClamps)}

        def chosen(sign: str | None) -> None:
            if sign:
                self._choose(ways[sign])

        self.push_screen(ChoiceSheet(text("contents.clamps_title"), tuple(ways.values())), chosen)

    def _try(self, change: Change = "") -> None:
        self.push_screen(TrySheet(self.desk.conversation, self._take_over, change))

    def _take_over(self, change: Change) -> None:
        if isinstance(change, str):
            self.hear(change)
        else:
            self.enter(change, " ".join(act.words for act in change))

    def told_to_screen(self, words: str) -> bool:
        """“Big” and “small” change the letters, and say nothing of the box."""
        wanted = words.strip().lower().rstrip(".!") in texts("ladder.words")
        if wanted:
            self.action_big()
        return wanted

    # -- keys and commands -----------------------------------------------------------------

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """Every command by name, in the palette."""
        for action, (title, about) in texts("command").items():
            yield SystemCommand(title, about, partial(self.run_action, ACTIONS.get(action, action)))

    def action_talk(self) -> None:
        """Open the microphone, or close it."""
        if self.screen is self.card:
            self.talking.toggle(self.desk.conversation.asks)

    def action_say(self, kind: str) -> None:
        """A single thing: undo, redo, next box, read back."""
        saying = by_key.plain(kind)
        self.enter(saying.acts, saying.heard)

    def action_help(self) -> None:
        """What can be said, and the keys."""
        self.push_screen(TextSheet(text("help.keys_title"), help_lines()))

    def action_talk_so_far(self) -> None:
        """Everything that was said, both ways, the last at the foot."""
        title = text("transcript.title")
        self.push_screen(TextSheet(title, self.transcript.lines(), from_foot=True))

    def action_big(self) -> None:
        """Ladder mode, or back to the card."""
        if self.screen is self.ladder:
            self.ladder.dismiss("")
        elif self.screen is self.card:
            self.push_screen(self.ladder)
            self.show_ladder()

    def action_overview(self) -> None:
        """The boxes of the job by margin."""
        self.push_screen(Chart(self.desk.conversation, self._open))

    def action_drawing(self) -> None:
        """The pull box at hand on the whole screen; nothing where there is none to draw."""
        found = self.desk.conversation.talk.assessment
        if self.screen is self.card and front_of(found) is not None:
            self.push_screen(Drawing(found))

    def action_cautions(self) -> None:
        """What to look out for with this box."""
        self.push_screen(TextSheet(text("cautions.title"), cautions_of(self.desk.conversation)))

    def action_what_if(self) -> None:
        """The box as it stands, beside a change."""
        self._try()

    def action_pick_box(self) -> None:
        """The list of standard boxes."""
        filled = filled_by(self.desk.conversation.talk.state)
        self.push_screen(Picker(lambda pick: self.enter((pick.act,), pick.words), filled))

    def action_welcome(self) -> None:
        """The first steps."""
        welcome = Welcome()

        def welcomed(way: str | None) -> None:
            if way == "leave":
                self.exit()
            elif way == "example":
                self.hear(text("welcome.example_words"))
            elif welcome.typed:
                self.card.query_one(EntryLine).begin(welcome.typed)

        self.push_screen(welcome, welcomed)

    def action_colours(self) -> None:
        """The next palette; without colours there is none."""
        if self.no_color:
            return
        at = NAMES.index(self.theme.removeprefix(theme_name("")))
        name = NAMES[(at + 1) % len(NAMES)]
        self.theme = theme_name(name)
        self.card.show_note(text("theme.changed", name=text(f"theme.{name}")))
