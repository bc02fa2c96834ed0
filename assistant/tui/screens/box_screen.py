"""The card: everything about the box at hand on one screen, and the input line."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.tui.presenters.answer_choices import choices_for
from boxaloud.assistant.tui.presenters.list_rows import BoxRows, content_rows, worksheet_rows
from boxaloud.assistant.tui.presenters.prompt import prompt, without_question
from boxaloud.assistant.tui.presenters.verdict_view import glance
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.assistant.tui.widgets.answer_bar import Answers
from boxaloud.assistant.tui.widgets.contents_list import ContentsList
from boxaloud.assistant.tui.widgets.fill_bar import FillBar
from boxaloud.assistant.tui.widgets.input_line import EntryLine
from boxaloud.assistant.tui.widgets.row_list import RowList
from boxaloud.assistant.tui.widgets.verdict_panel import GlancePanel
from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.message import Message
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

PANELS = ("contents", "worksheet", "boxes")
ALT_SIGNS = "0123456789yns"
"""Signs of answers that Alt takes from wherever the focus is."""
BREAKS_ACROSS = [(0, "-slim"), (60, "-narrow"), (110, "-wide")]
BREAKS_DOWN = [(0, "-flat"), (14, "-short"), (24, "-middling"), (30, "-tall"), (42, "-huge")]


class Card(Screen[None]):
    """Shows where the box stands. What it is told to show, it shows; it decides nothing."""

    HORIZONTAL_BREAKPOINTS = BREAKS_ACROSS
    VERTICAL_BREAKPOINTS = BREAKS_DOWN
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f3", "panel('contents')", show=False, priority=True),
        Binding("f4", "panel('worksheet')", show=False, priority=True),
        Binding("f5", "panel('boxes')", show=False, priority=True),
        Binding("escape", "line", show=False),
        *(
            Binding(f"alt+{sign}", f"answer('{sign}')", show=False, priority=True)
            for sign in ALT_SIGNS
        ),
    ]

    class Ready(Message):
        """Everything is in its place and can be filled."""

    def compose(self) -> ComposeResult:
        """From the top: place, glance, question, what was heard, lists, input line, keys."""
        with Horizontal(id="head"):
            yield Static(id="place", markup=False)
            yield Static(id="ears", markup=False)
        yield GlancePanel(id="glance")
        yield Static(id="caption", markup=False)
        yield FillBar(id="fill")
        yield Static(text("caution.line"), id="caution", markup=False)
        with Vertical(id="ask"):
            yield Static(id="prompt", markup=False)
            yield Answers(id="answers")
        yield Static(id="heard", markup=False)
        yield Static(id="said", markup=False)
        yield from self._lists()
        with Horizontal(id="line"):
            yield Static("› ", id="prompt-sign", markup=False)
            yield EntryLine(text("entry.placeholder"), id="entry")
        yield Static(text("foot.keys"), id="foot", markup=False)

    def _lists(self) -> Iterable[Widget]:
        yield Static(id="tabs", markup=False)
        panels = []
        for number, name in enumerate(PANELS, 3):
            rows = ContentsList(id=name) if name == "contents" else RowList(id=name)
            title = f"F{number} {text(f'panel.{name}')}: {text(f'panel.{name}_keys')}"
            panels.append(
                Vertical(
                    Static(title, classes="title", markup=False),
                    rows,
                    id=f"panel-{name}",
                    classes="panel",
                )
            )
        yield Horizontal(*panels, id="panels")

    def on_mount(self) -> None:
        """Ready to type."""
        self.action_panel("worksheet")
        self.action_line()
        self.post_message(self.Ready())

    # -- showing ---------------------------------------------------------------------------

    def show_box(self, conversation: Conversation, label: str) -> None:
        """Show the box at hand."""
        talk = conversation.talk
        found = talk.assessment
        shown = glance(found)
        self.query_one(GlancePanel).show(shown)
        self._put("caption", shown.caption)
        self._put("place", f" {text('head.place', job=label, box=talk.name)}")
        self.query_one(FillBar).show(found)
        question = found.question
        self._put("prompt", prompt(talk))
        self.query_one(Answers).show(choices_for(question.slot if question else None, talk.state))
        boxes = BoxRows(conversation)
        self.query_one("#contents", RowList).show_rows(content_rows(talk.state))
        self.query_one("#worksheet", RowList).show_rows(worksheet_rows(found))
        self.query_one("#boxes", RowList).show_rows(boxes, boxes.place)

    def show_reply(self, talk: Talk, reply: Reply) -> None:
        """Show what was heard, what of it was not used, and what is said back."""
        heard = text("heard.heard", words=reply.heard)
        if reply.left_over:
            left = text("heard.left_over", words=", ".join(reply.left_over))
            heard = f"{left} · {heard}"
        self._put("heard", heard)
        self._put("prompt", prompt(talk, reply))
        self._say(without_question(reply))

    def show_partial(self, words: str) -> None:
        """Show the words that are being heard."""
        self._put("heard", text("heard.partial", words=words))

    def show_trouble(self, sentence: str) -> None:
        """Show what went wrong, in place of the reply."""
        self._say(sentence, trouble=True)

    def show_note(self, sentence: str) -> None:
        """Show something that is neither a reply nor trouble."""
        self._say(sentence)

    def show_ears(self, label: str) -> None:
        """Show the state of the microphone."""
        self._put("ears", f"{label} ")

    def _say(self, words: str, trouble: bool = False) -> None:
        said = self.query_one("#said", Static)
        said.set_class(trouble, "-trouble")
        said.update(f"! {words}" if trouble else words)

    def _put(self, name: str, words: str) -> None:
        place = self.query_one(f"#{name}", Static)
        if place.content != words:
            place.update(words)

    def _tabs(self, chosen: str) -> None:
        marks = [
            f"[F{n} {text(f'panel.{name}')}]" if name == chosen else f"F{n} {text(f'panel.{name}')}"
            for n, name in enumerate(PANELS, 3)
        ]
        self._put("tabs", f"{'  '.join(marks)}  {text(f'panel.{chosen}_keys')}")

    # -- keys ------------------------------------------------------------------------------

    def action_panel(self, name: str) -> None:
        """Go to a list; in a narrow terminal, show it in place of the others."""
        for other in PANELS:
            styles = self.query_one(f"#panel-{other}").styles
            if other == name:
                styles.display = "block"
            else:
                styles.clear_rule("display")
        self._tabs(name)
        self.set_focus(self.query_one(f"#{name}", RowList))

    def action_line(self) -> None:
        """Back to the input line."""
        self.set_focus(self.query_one(EntryLine))

    def action_answer(self, sign: str) -> None:
        """Answer the open question by the sign of an answer, from wherever the focus is."""
        self.query_one(Answers).take(sign)

    def answered(self, typed: str) -> bool:
        """Take the answer whose sign was typed; False where it is none's."""
        return self.query_one(Answers).take(typed)

    def on_key(self, event: events.Key) -> None:
        """What is typed anywhere goes to the input line, unless it is a key of the list there."""
        entry = self.query_one(EntryLine)
        taken = entry.has_focus or event.key in self.active_bindings
        if event.is_printable and event.character and not taken:
            event.stop()
            self.set_focus(entry)
            entry.insert_text_at_cursor(event.character)

    def on_paste(self, event: events.Paste) -> None:
        """What is pasted anywhere goes to the input line."""
        entry = self.query_one(EntryLine)
        self.set_focus(entry)
        entry.on_paste(event)
