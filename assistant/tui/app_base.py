"""The shell of the app: words and acts go to the desk, and what comes back is shown."""

from __future__ import annotations

import gc
import os
from collections.abc import Callable, Sequence
from contextlib import suppress
from threading import Thread

from boxaloud.assistant.dialogue import Reply
from boxaloud.assistant.tui.presenters.box_comparison import supposed_in
from boxaloud.assistant.tui.presenters.prompt import short_prompt
from boxaloud.assistant.tui.presenters.transcript import Transcript
from boxaloud.assistant.tui.presenters.verdict_view import glance
from boxaloud.assistant.tui.presenters.word_completion import completed, trade_words
from boxaloud.assistant.tui.report_writing import Progress, ReportWriting
from boxaloud.assistant.tui.screens.box_screen import Card
from boxaloud.assistant.tui.screens.ladder_screen import Ladder
from boxaloud.assistant.tui.session_adapter import Desk
from boxaloud.assistant.tui.theme import NAMES, PLAIN, all_themes, theme_name
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.assistant.tui.voice_controller import Talking
from boxaloud.assistant.tui.voice_ports import Listener, Report, Speaker
from boxaloud.assistant.tui.widgets.input_line import Completer, EntryLine
from boxaloud.grammar import recognise
from boxaloud.grammar.acts import Act
from boxaloud.grammar.lexer.heard_words import Word
from textual import events
from textual.app import App
from textual.message import Message
from textual.screen import Screen

SOON = 0.3
"""Seconds after the first picture: nobody has typed a sentence by then."""


def warm(shell: Shell) -> None:
    """Build the grammar before the first words; keep the collector off what is there to stay.

    Without this, going through all the objects of a large job stops a key for 70 ms now and then.
    """
    recognise("")
    shell.trade_words = trade_words()
    gc.collect()
    gc.freeze()


class Told(Message):
    """A report of the microphone, brought to the app's own thread."""

    def __init__(self, report: Report) -> None:
        super().__init__()
        self.report = report


class Written(Message):
    """How far a report is, brought to the app's own thread."""

    def __init__(self, progress: Progress) -> None:
        super().__init__()
        self.progress = progress


class Shell(App[None]):
    """Holds the desk, the card and the microphone. It holds no box of its own."""

    CSS_PATH = "boxaloud.tcss"

    def __init__(
        self,
        desk: Desk,
        listener: Listener | None = None,
        speaker: Speaker | None = None,
        colours: str = NAMES[0],
        steady: bool = False,
    ) -> None:
        super().__init__(ansi_color=True if "NO_COLOR" in os.environ else None)
        self.animation_level = "none"
        self.fault: Exception | None = None
        self.desk = desk
        self.card = Card()
        self.ladder = Ladder()
        self.transcript = Transcript()
        self.reports = ReportWriting(self._report_is)
        self.trade_words: tuple[str, ...] = ()
        """What is completed; empty until they are there, so that no key waits for them."""
        self.talking = Talking(
            listener,
            speaker,
            self.tell,
            self._hear_aloud,
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
        """Show the box at hand, and the first steps where nothing was said yet.

        What is slow once is done behind the first picture.
        """
        self.card.query_one(EntryLine).suggester = Completer(self.complete)
        self._show_box()
        self._show_ears()
        talk = self.desk.conversation.talk
        self.transcript.before(talk)
        self.card.show_reply(talk, self.desk.first())
        if not talk.journal and len(self.desk.conversation.boxes.names) == 1:
            self.first_steps()
        self.set_timer(SOON, Thread(target=warm, args=(self,), daemon=True).start)

    def complete(self, typed: str) -> str | None:
        """The line with what is being typed completed, or None."""
        return completed(typed, self.desk.conversation.boxes.names, self.trade_words)

    def _handle_exception(self, error: Exception) -> None:
        """Keep the fault for one plain sentence; no traceback reaches the user."""
        self.fault = error
        super()._handle_exception(error)
        if not self.is_headless and not os.environ.get("BOXALOUD_TRACEBACK"):
            self._exit_renderables.clear()

    # -- to the conversation and back ------------------------------------------------------

    def hear(self, words: str) -> None:
        """Words that were typed."""
        if not self.told_to_screen(words):
            self._answer(lambda: self.desk.hear(words))

    def _hear_aloud(self, words: Sequence[Word]) -> None:
        """Words that were spoken: their reply is spoken too."""
        if self.told_to_screen(" ".join(word.text for word in words)):
            return
        if (reply := self._answer(lambda: self.desk.hear(words), aloud=True)) is not None:
            self.talking.speak(reply.spoken)

    def enter(self, told: Sequence[Act], heard: str) -> None:
        """Acts made by a key or a click."""
        self._answer(lambda: self.desk.enter(told, heard))

    def _answer(self, ask: Callable[[], Reply], aloud: bool = False) -> Reply | None:
        try:
            reply = ask()
            if (order := self.desk.ordered(reply)) is not None:
                reply = self.reports.begin(reply, order, aloud)
        except Exception as fault:  # nothing may close the screen on someone up a ladder
            self.card.show_trouble(text("trouble.fault", why=f"{type(fault).__name__}: {fault}"))
            return None
        self._show_box()
        self.transcript.add(self.desk.conversation.talk.name, reply)
        self.card.show_reply(self.desk.conversation.talk, reply)
        self.show_ladder(reply)
        if change := supposed_in(self.desk.conversation.talk):
            self.side_by_side(change)
        return reply

    def _show_box(self) -> None:
        ears = self.talking.can_listen
        self.card.show_box(self.desk.conversation, self.desk.label, ears)

    def show_ladder(self, reply: Reply | None = None) -> None:
        """Show the box at hand in ladder mode, where that is open."""
        talk = self.desk.conversation.talk
        self.ladder.show(glance(talk.assessment), short_prompt(talk, reply))

    def _show_ears(self) -> None:
        self.card.show_ears(self.talking.label)
        if self.talking.partial:
            self.card.show_partial(self.talking.partial)
        if self.talking.trouble:
            self.card.show_trouble(self.talking.trouble)

    def _report_is(self, progress: Progress) -> None:
        """Take the progress of a report from its thread to ours, unless the screen is closed."""
        with suppress(RuntimeError):
            self.post_message(Written(progress))

    def on_written(self, message: Written) -> None:
        """A report is so far, or is done: where it is, or why it is not."""
        progress = message.progress
        self.card.show_writing(progress.shown)
        if progress.fault:
            self.card.show_trouble(text("trouble.fault", why=progress.fault))
        elif progress.told:
            self.transcript.note(self.desk.conversation.talk.name, progress.told)
            self.card.show_note(progress.told)
            if progress.aloud:
                self.talking.speak(progress.aloud)

    def tell(self, report: Report) -> None:
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

    def told_to_screen(self, words: str) -> bool:
        """Words that are about the screen itself; False where they are about the box."""
        raise NotImplementedError

    # -- what the app adds ----------------------------------------------------------------

    def first_steps(self) -> None:
        """Welcome someone who has said nothing yet."""
        raise NotImplementedError

    def side_by_side(self, change: Sequence[Act]) -> None:
        """Show a supposition beside the box as it stands."""
        raise NotImplementedError
