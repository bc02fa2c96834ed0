"""Reports that a talk asks for, written beside the talk: the screen goes on, and a bar tells how
far they are."""

from __future__ import annotations

from collections.abc import Callable
from queue import Empty, SimpleQueue
from threading import Lock, Thread
from typing import NamedTuple

from boxaloud.assistant.dialogue import Reply
from boxaloud.assistant.dialogue.reply import SystemAct
from boxaloud.assistant.text.progress import bar
from boxaloud.assistant.tui.session_adapter import Order
from boxaloud.assistant.tui.tui_messages import text

BAR = 10
"""Characters of the bar, which shares a row with the job's name."""


class Progress(NamedTuple):
    """How far the report is that is being written; at its end what is said of it."""

    shown: str
    """The bar, empty at the end."""
    told: str = ""
    aloud: str = ""
    """What is spoken, of a report that was asked for aloud."""
    fault: str = ""


class ReportWriting:
    """Writes one report after the other in a thread. `tell` takes its progress from there."""

    def __init__(self, tell: Callable[[Progress], object]) -> None:
        self._tell = tell
        self._waiting: SimpleQueue[tuple[Order, bool]] = SimpleQueue()
        self._lock = Lock()
        self._thread: Thread | None = None

    def begin(self, reply: Reply, order: Order, aloud: bool) -> Reply:
        """Have a report written; the reply says so meanwhile."""
        self._tell(Progress(_bar(0, order.steps)))
        with self._lock:
            self._waiting.put((order, aloud))
            if self._thread is None:
                self._thread = Thread(target=self._write_all, name="report")
                self._thread.start()
        writing = SystemAct("report", text("report.writing"))
        return reply.saying([writing if act.act == "report" else act for act in reply.acts])

    def finish(self) -> None:
        """Wait until all is written."""
        if (thread := self._thread) is not None:
            thread.join()

    def _write_all(self) -> None:
        while True:
            with self._lock:
                try:
                    order, aloud = self._waiting.get_nowait()
                except Empty:
                    self._thread = None
                    return
            self._tell(self._written(order, aloud))

    def _written(self, order: Order, aloud: bool) -> Progress:
        done = 0

        def step() -> None:
            nonlocal done
            done += 1
            self._tell(Progress(_bar(done, order.steps)))

        try:
            told = [act for act in order.write(step).acts if act.act == "report"]
        except Exception as fault:  # nothing may close the screen on someone up a ladder
            return Progress("", fault=f"{type(fault).__name__}: {fault}")
        spoken = " ".join(act.spoken for act in told) if aloud else ""
        return Progress("", " ".join(act.says for act in told), spoken)


def _bar(done: int, whole: int) -> str:
    return bar(text("report.bar"), done, max(whole, 1), BAR)
