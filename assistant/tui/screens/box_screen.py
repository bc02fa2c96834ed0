"""The card: everything about the box at hand on one screen, and the input line."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import ClassVar

from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.dialogue.assessment import Assessment
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.tui.presenters.answer_choices import answer_rows, choices_for, parted
from boxaloud.assistant.tui.presenters.card_layout import Needs, shared
from boxaloud.assistant.tui.presenters.enclosure_view import front_of
from boxaloud.assistant.tui.presenters.fill_drawing import draw, legend_rows
from boxaloud.assistant.tui.presenters.fitted_text import fitted, wrapped
from boxaloud.assistant.tui.presenters.footer import offers
from boxaloud.assistant.tui.presenters.large_verdict import drawn
from boxaloud.assistant.tui.presenters.list_rows import BoxRows, content_rows, worksheet_rows
from boxaloud.assistant.tui.presenters.prompt import prompt, without_question
from boxaloud.assistant.tui.presenters.verdict_view import Glance, glance
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.assistant.tui.widgets.answer_bar import Answers
from boxaloud.assistant.tui.widgets.contents_list import ContentsList
from boxaloud.assistant.tui.widgets.fill_bar import FillBar
from boxaloud.assistant.tui.widgets.input_line import EntryLine
from boxaloud.assistant.tui.widgets.key_bar import KeyBar
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
ALT_SIGNS = "0123456789ynsldabcefg"
"""Signs of answers that Alt takes from wherever the focus is."""
WIDE = 110
"""Columns from which the three lists stand side by side."""
BREAKS_ACROSS = [(0, "-narrow"), (WIDE, "-wide")]
WORDS = ("caption", "caution", "prompt", "heard", "said", "place")
"""Parts that are words, and are broken into rows as they fit."""


class Card(Screen[None]):
    """Shows where the box stands. What it is told to show, it shows; it decides nothing."""

    HORIZONTAL_BREAKPOINTS = BREAKS_ACROSS
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

    def __init__(self) -> None:
        super().__init__()
        self._words = dict.fromkeys(WORDS, "")
        self._glance: Glance | None = None
        self._found: Assessment | None = None
        self._writing = ""
        self._listed = 1
        self._listing = False

    def compose(self) -> ComposeResult:
        """From the top: place, glance, question, what was heard, lists, input line, keys."""
        with Horizontal(id="head"):
            yield Static(id="place", markup=False)
            yield Static(id="ears", markup=False)
        yield GlancePanel(id="glance")
        yield Static(id="caption", markup=False)
        yield FillBar(id="fill")
        yield Static(id="caution", markup=False)
        with Vertical(id="ask"):
            yield Static(id="prompt", markup=False)
            yield Answers(id="answers")
        yield Static(id="heard", markup=False)
        yield Static(id="said", markup=False)
        yield from self._lists()
        with Horizontal(id="line"):
            yield Static("› ", id="prompt-sign", markup=False)
            yield EntryLine(text("entry.placeholder"), id="entry")
        yield KeyBar(id="foot")

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

    def show_box(self, conversation: Conversation, label: str, ears: bool) -> None:
        """Show the box at hand. `ears` is whether there is a microphone."""
        talk = conversation.talk
        found = talk.assessment
        self._found, self._glance = found, glance(found)
        self.query_one(GlancePanel).show(self._glance)
        question = found.question
        choices = choices_for(question.slot if question else None, talk.state)
        self.query_one(Answers).show(choices)
        boxes = BoxRows(conversation)
        contents, lines = content_rows(talk.state), worksheet_rows(found)
        self._listed = max(len(contents), len(lines))
        self.query_one("#contents", RowList).show_rows(contents)
        self.query_one("#worksheet", RowList).show_rows(lines)
        self.query_one("#boxes", RowList).show_rows(boxes, boxes.place)
        self.query_one(FillBar).show(found)
        self.query_one(KeyBar).show(offers(conversation, ears))
        place = text("head.place", job=label, box=talk.name)
        self._write(
            caption=self._glance.caption,
            place=f" {place}",
            prompt=prompt(talk),
            caution=text("caution.line"),
        )

    def show_reply(self, talk: Talk, reply: Reply) -> None:
        """Show what was heard, what of it was not used, and what is said back."""
        heard = text("heard.heard", words=reply.heard)
        if reply.left_over:
            left = text("heard.left_over", words=", ".join(reply.left_over))
            heard = f"{left} · {heard}"
        self._say(without_question(reply), heard=heard, prompt=prompt(talk, reply))

    def show_partial(self, words: str) -> None:
        """Show the words that are being heard."""
        self._write(heard=text("heard.partial", words=words))

    def show_trouble(self, sentence: str) -> None:
        """Show what went wrong, in place of the reply."""
        self._say(f"! {sentence}", trouble=True)

    def show_note(self, sentence: str) -> None:
        """Show something that is neither a reply nor trouble."""
        self._say(sentence)

    def show_writing(self, bar: str) -> None:
        """Show how far a report is, before the job's name; nothing where none is written."""
        if bar != self._writing:
            self._writing = bar
            self.share_out()

    def show_ears(self, label: str) -> None:
        """Show the state of the microphone."""
        ears = self.query_one("#ears", Static)
        if ears.content != f"{label} ":
            ears.update(f"{label} ")

    def _say(self, words: str, trouble: bool = False, **others: str) -> None:
        self.query_one("#said").set_class(trouble, "-trouble")
        self._write(said=words, **others)

    def _write(self, **words: str) -> None:
        self._words.update(words)
        self.share_out()

    # -- where everything stands -----------------------------------------------------------

    def share_out(self) -> None:
        """Give each part its rows, and break its words to them."""
        if self._found is None or self._glance is None or not self.size.width:
            return
        width = self.size.width - 2
        needs, letters = self._needs(self._found, width), _letters(self._glance, width)
        rows = shared(self.size.height, needs, letters)
        for part in ("head", "glance", "fill", "answers", "tabs", "foot"):
            self._stand(part, rows[part])
        for part in WORDS:
            if part in rows:
                self._stand(part, rows[part])
                self._put(part, fitted(self._words[part], width, rows[part]))
        ears = self.query_one("#ears", Static)
        room = self.size.width - len(str(ears.content)) - 1
        writing = f" {self._writing} " if self._writing else ""
        self._put("place", fitted(writing + self._words["place"], room, 1, "…"))
        panels = self.query_one("#panels")
        panels.display, panels.visible = rows["panels"] > 0, rows["panels"] > 1

    def _needs(self, found: Assessment, width: int) -> Needs:
        taken = {part: len(wrapped(self._words[part], width)) for part in WORDS}
        answers, kinds = self.query_one(Answers), draw(found, width).legend
        wide = self.size.width >= WIDE
        return Needs(
            caption=taken["caption"],
            caution=taken["caution"],
            prompt=taken["prompt"],
            answers=len(answer_rows(answers.choices, width)),
            said=taken["said"] if self._words["said"] else 0,
            legend=len(legend_rows(kinds, width)),
            list=self._listed + (1 if wide else 0),
            tabs=0 if wide else 1,
            list_open=self._listing,
            drawing=front_of(found) is not None,
        )

    def _stand(self, part: str, rows: int) -> None:
        place = self.query_one(f"#{part}")
        place.display = rows > 0
        if rows:
            place.styles.height = rows

    def _put(self, name: str, words: str) -> None:
        place = self.query_one(f"#{name}", Static)
        if place.content != words:
            place.update(words, layout=False)

    def on_resize(self) -> None:
        """Another terminal, other rows."""
        self.share_out()

    def on_descendant_focus(self) -> None:
        """A list that is gone to gets its rows, and gives them back."""
        self._listing = isinstance(self.focused, RowList)
        self.share_out()

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
        self._listing = True
        self.share_out()
        self.set_focus(self.query_one(f"#{name}", RowList))

    def action_line(self) -> None:
        """Back to the input line."""
        self.set_focus(self.query_one(EntryLine))

    def action_answer(self, sign: str) -> None:
        """Answer the open question by the sign of an answer, from wherever the focus is."""
        self.query_one(Answers).take(sign)

    def parted(self, typed: str) -> tuple[str, str]:
        """The sign that a line begins with, where words were typed straight behind it."""
        return parted(typed, self.query_one(Answers).choices)

    def answered(self, typed: str) -> bool:
        """Take the answer whose sign was typed; False where it is none's."""
        return self.query_one(Answers).take(typed)

    def on_key(self, event: events.Key) -> None:
        """What is typed anywhere goes to the input line, unless it is a key of the list there."""
        entry = self.query_one(EntryLine)
        taken = entry.has_focus or event.key in self.active_bindings
        if event.is_printable and event.character and not taken:
            event.stop()
            entry.begin(event.character)

    def on_paste(self, event: events.Paste) -> None:
        """What is pasted anywhere goes to the input line."""
        entry = self.query_one(EntryLine)
        self.set_focus(entry)
        entry.on_paste(event)


def _letters(shown: Glance, width: int) -> Callable[[int], int]:
    """How many rows the large letters take of so many."""
    return lambda height: len(drawn(shown, width, height))
