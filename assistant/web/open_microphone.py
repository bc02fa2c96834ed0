"""A page's microphone that stays open: sound in as it comes, statements out as they end."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from boxaloud.grammar.lexer.heard_words import Word

if TYPE_CHECKING:
    from boxaloud.assistant.asr.live_recognition import LiveEvent
    from boxaloud.assistant.web.page_ear import PageLive

IDLE_SECONDS = 300.0
"""An open microphone in which nobody has spoken for so long is closed."""


@dataclass(frozen=True, slots=True)
class Partial:
    """The words so far; nothing is entered by them."""

    words: str


@dataclass(frozen=True, slots=True)
class Statement:
    """A whole statement, each word with how sure the ear was."""

    words: tuple[Word, ...]


@dataclass(frozen=True, slots=True)
class Unclear:
    """Somebody spoke, and it was no statement that could be used."""


Heard: TypeAlias = Partial | Statement | Unclear


class OpenMicrophone:
    """Its clock is the sound itself, so that a slow network moves no pause."""

    def __init__(self, live: PageLive) -> None:
        self._live = live
        self._rest = b""
        self._seconds = 0.0
        self._spoken = 0.0

    @property
    def idle(self) -> bool:
        """Whether nobody has spoken for so long that it is to be closed."""
        return self._seconds - self._spoken > IDLE_SECONDS

    def feed(self, samples: bytes) -> list[Heard]:
        """More sound, 16 kHz mono, 16-bit, in pieces of any length."""
        from boxaloud.assistant.asr.audio.audio_devices import (
            FRAME_BYTES,
            FRAME_SECONDS,
            AudioFrame,
        )

        sound = self._rest + samples
        whole = len(sound) - len(sound) % FRAME_BYTES
        self._rest = sound[whole:]
        heard: list[Heard] = []
        for place in range(0, whole, FRAME_BYTES):
            self._seconds += FRAME_SECONDS
            frame = AudioFrame(sound[place : place + FRAME_BYTES], self._seconds)
            heard += self._heard(self._live.recogniser.frame(frame))
        return heard

    def voice(self, speaks: bool) -> None:
        """The page's own voice speaks, which is not listened to, or has stopped."""
        self._live.recogniser.voice(speaks)

    def end(self) -> list[Heard]:
        """It is closed: a statement that is being spoken ends here."""
        if not self._live.recogniser.listening.is_open:
            return []
        return list(self._heard(self._live.recogniser.key()))

    def _heard(self, events: Iterable[LiveEvent]) -> Iterator[Heard]:
        from boxaloud.assistant.asr.hypotheses.rescoring import choose
        from boxaloud.assistant.asr.live_recognition import FinalResult, PartialResult

        for event in events:
            self._spoken = self._seconds
            if isinstance(event, PartialResult):
                yield Partial(event.words)
            elif isinstance(event, FinalResult):
                for hearing in event.hearings:
                    words = choose(hearing, self._live.expect())
                    yield Statement(tuple(words)) if words else Unclear()
