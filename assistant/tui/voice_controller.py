"""Push to talk: what a key does to the microphone and the voice, and what they report."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from boxaloud.assistant.tui.tui_messages import text
from boxaloud.assistant.tui.voice_ports import (
    Final,
    Level,
    Listener,
    Partial,
    Report,
    Silenced,
    Speaker,
    Spoken,
    State,
    Tell,
    Trouble,
    marked_words,
    meter,
)
from boxaloud.grammar.lexer.heard_words import Word


class Talking:
    """Holds the state: listening, thinking, speaking, muted, or no microphone at all.

    `tell` takes reports from any thread to the app's own, which hands them to `told`.
    """

    def __init__(
        self,
        listener: Listener | None,
        speaker: Speaker | None,
        tell: Tell,
        hear: Callable[[Sequence[Word]], None],
        show: Callable[[], None],
        steady: bool = False,
    ) -> None:
        self.state: State = "muted" if listener is not None else "none"
        self.partial = ""
        self.trouble = ""
        self._listener = listener
        self.speaker = speaker
        self._tell = tell
        self._hear = hear
        self._show = show
        self._steady = steady
        self._meter = meter(0.0, steady)

    @property
    def can_listen(self) -> bool:
        """Whether there is a microphone to open."""
        return self._listener is not None

    @property
    def label(self) -> str:
        """The state in a word and a sign, with the level while listening."""
        return text(f"ears.{self.state}", level=self._meter)

    def toggle(self, expect: str | None) -> None:
        """Start listening, or stop and think about what was heard."""
        self.hush()
        if self._listener is None:
            self._fail(text("trouble.no_ears"))
        elif self.state == "listening":
            self._stop(self._listener)
        elif self.state == "muted":
            self._start(self._listener, expect)

    def _start(self, listener: Listener, expect: str | None) -> None:
        self.trouble, self.partial = "", ""
        self.state = "listening"
        try:
            listener.start(expect, self._tell)
        except Exception as fault:  # whatever an engine raises, typing goes on
            self._fail(text("trouble.microphone", why=_sentence(fault)))
        self._show()

    def _stop(self, listener: Listener) -> None:
        self.state = "thinking"
        try:
            listener.stop()
        except Exception as fault:  # as above
            self._fail(text("trouble.engine", why=_sentence(fault)))
        self._show()

    def _fail(self, why: str) -> None:
        self.state = "none" if self._listener is None else "muted"
        self.partial, self.trouble = "", why
        self._show()

    def told(self, report: Report) -> None:
        """A report, on the app's own thread."""
        match report:
            case Level(value):
                shown = meter(value, self._steady)
                if self.state != "listening" or shown == self._meter:
                    return
                self._meter = shown
            case Partial(words):
                if self.state not in ("listening", "thinking"):
                    return
                self.partial = marked_words(words)
            case Final(words, more):
                self.partial = ""
                self.state = "listening" if more else "muted"
                self._hear(words)
            case Spoken():
                if self.state == "speaking":
                    self.state = "muted"
            case Silenced(why):
                self._silence(why)
            case Trouble(why, opening):
                self._fail(text(f"trouble.{'microphone' if opening else 'engine'}", why=why))
        self._show()

    def speak(self, words: str) -> None:
        """Say a reply, if there is a voice and nobody is talking."""
        if self.speaker is None or self.state != "muted":
            return
        self.state = "speaking"
        try:
            self.speaker.say(words, lambda: self._tell(Spoken()))
        except Exception as fault:  # as above
            self._silence(_sentence(fault))
        self._show()

    def _silence(self, why: str) -> None:
        self.speaker = None
        self._fail(text("trouble.voice", why=why))

    def hush(self) -> None:
        """Any key stops the voice."""
        if self.state == "speaking" and self.speaker is not None:
            self.state = "muted"
            self.speaker.hush()
            self._show()

    def close(self) -> None:
        """Let go of the microphone."""
        if self._listener is not None and self.state == "listening":
            self._stop(self._listener)


def _sentence(fault: Exception) -> str:
    """What an engine says of itself, as one sentence of at most a line."""
    words = " ".join(str(fault).split())[:120] or type(fault).__name__
    return words if words[-1] in ".!?" else words + "."
