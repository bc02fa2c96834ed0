"""Talking at the screen: what a microphone and a voice must do, and the state they are in.

The engines live elsewhere and run in threads of their own. They report through `Report`
objects handed to a callback; the app takes those to its own thread.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal, Protocol, TypeAlias

from boxaloud.assistant.tui.tui_messages import text
from boxaloud.grammar.lexer.heard_words import Word

State: TypeAlias = Literal["listening", "thinking", "speaking", "muted", "none"]

QUIET, LOUD = 0.05, 0.9
"""Levels below and above which the meter says so, of a full scale of one."""

METER = " ▁▂▃▄▅▆▇█"
DOUBTED = 0.6
"""A word with less confidence than this is marked as doubtful. Only a mark: what is asked back
is decided by the conversation."""


@dataclass(frozen=True, slots=True)
class Level:
    """How loud it is, 0 to 1."""

    value: float


@dataclass(frozen=True, slots=True)
class Partial:
    """The words so far, not final."""

    words: tuple[Word, ...]


@dataclass(frozen=True, slots=True)
class Final:
    """The words of one utterance. With `more`, the microphone is still open."""

    words: tuple[Word, ...]
    more: bool = False


@dataclass(frozen=True, slots=True)
class Trouble:
    """The microphone or the engine failed; `why` is one sentence."""

    why: str
    opening: bool = False
    """True where the microphone did not open at all."""


@dataclass(frozen=True, slots=True)
class Spoken:
    """The voice has finished."""


@dataclass(frozen=True, slots=True)
class Silenced:
    """The voice cannot speak; `why` is one sentence. It is not asked to again."""

    why: str


Report: TypeAlias = Level | Partial | Final | Trouble | Spoken | Silenced
Tell: TypeAlias = Callable[[Report], None]


class Listener(Protocol):
    """Push to talk. `start` may raise OSError or an ears' error: one sentence."""

    def start(self, expect: str | None, tell: Tell) -> None:
        """Open the microphone; `expect` is the slot of the open question."""
        ...

    def stop(self) -> None:
        """Close it; a last `Final` follows."""
        ...


class Speaker(Protocol):
    """The voice. `say` returns at once and calls `done` when it has spoken or was hushed."""

    def say(self, words: str, done: Callable[[], None]) -> None:
        """Begin to speak."""
        ...

    def hush(self) -> None:
        """Stop speaking, at once."""
        ...


def meter(level: float, steady: bool) -> str:
    """The level as a bar that moves, or as a word that hardly does."""
    if steady:
        word = "quiet" if level < QUIET else "loud" if level > LOUD else "good"
        return text(f"ears.steady_{word}")
    filled = min(max(level, 0.0), 1.0) * 5
    cells = (min(max(filled - place, 0.0), 1.0) for place in range(5))
    return "".join(METER[round(cell * (len(METER) - 1))] for cell in cells)


def marked_words(words: Sequence[Word]) -> str:
    """The words with the doubtful ones marked by a sign, not by a colour."""
    return " ".join(
        text("heard.doubtful", word=word.text)
        if word.confidence is not None and word.confidence < DOUBTED
        else word.text
        for word in words
    )
