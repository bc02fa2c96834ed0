"""What passes between the parts of the mouth: a voice, speech, and who makes and plays it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from threading import Event
from typing import Protocol

#: Words a minute: unhurried, for a listener on a ladder. Common practice of speech engines is 200.
DEFAULT_WORDS_PER_MINUTE = 165
MIN_WORDS_PER_MINUTE, FASTEST = 80, 450


@dataclass(frozen=True, slots=True)
class Voice:
    """How to speak. `rate` in words a minute; `name` a part of a voice's name, empty for ours."""

    rate: int = DEFAULT_WORDS_PER_MINUTE
    name: str = ""


@dataclass(frozen=True, slots=True)
class Speech:
    """Something said: its words, and a WAV file of them."""

    text: str
    path: Path


class Synthesiser(Protocol):
    """Makes speech into files. Owned by one thread."""

    def render(self, text: str, path: Path) -> Speech:
        """Write `text` as a WAV file. Raises MouthError."""
        ...

    def close(self) -> None:
        """Let go of the engine."""
        ...


class Player(Protocol):
    """Makes speech heard."""

    def play(self, speech: Speech, stopped: Event) -> None:
        """Play to the end, or until `stopped` is set: then silence at once. Raises MouthError."""
        ...
