"""Live listening: frames and keys in, what was heard out. Every live front end stands on this."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TypeAlias

from boxaloud.assistant.asr.asr_types import Recogniser, RecognitionResult, Sound
from boxaloud.assistant.asr.audio.audio_devices import SAMPLE_RATE, AudioFrame
from boxaloud.assistant.asr.endpointer import Endpointer, EndpointEvent
from boxaloud.assistant.asr.semantic_endpointing import complete
from boxaloud.assistant.asr.streaming import RecognitionStream, attend
from boxaloud.assistant.asr.wake_word import WakeWordDetector

#: After an answer was asked for, or after the name alone, no name is needed for so long.
WAKE_TIMEOUT_SECONDS = 12.0


@dataclass(frozen=True, slots=True)
class PartialResult:
    """The words so far; not final, and nothing is entered by them."""

    words: str


@dataclass(frozen=True, slots=True)
class FinalResult:
    """A whole statement."""

    hearings: tuple[RecognitionResult, ...]


@dataclass(frozen=True, slots=True)
class WakeWordOnly:
    """The name was said and nothing after it: it listens to what comes."""


#: `Event.OPENED`, `CLOSED`, `NOTHING` and `HUSH` come as they are.
LiveEvent: TypeAlias = PartialResult | FinalResult | WakeWordOnly | EndpointEvent


class LiveRecogniser:
    """An ear at a live device. `expect` is asked, as each statement begins, what is open."""

    def __init__(
        self,
        ear: Recogniser,
        listening: Endpointer,
        expect: Callable[[], str | None],
        wake: WakeWordDetector | None = None,
    ) -> None:
        self.listening = listening
        self._ear = ear
        self._expect = expect
        self._wake = wake
        self._stream: RecognitionStream | None = None
        self._asked: str | None = None
        self._sound = bytearray()
        self._partials: list[str] = []
        self._awake_until = 0.0
        self._active = True
        self._now = 0.0

    def frame(self, frame: AudioFrame) -> Iterator[LiveEvent]:
        """What a frame brings about."""
        self._now = frame.now
        yield from self._dispatch(self.listening.frame(frame))

    def key(self) -> Iterator[LiveEvent]:
        """The talk key."""
        self._awake_until = self._now + WAKE_TIMEOUT_SECONDS
        yield from self._dispatch(self.listening.key(self._now))

    def quiet_key(self) -> Iterator[LiveEvent]:
        """Any other key: the voice is silenced."""
        yield from self._dispatch(self.listening.quiet_key(self._now))

    def voice(self, speaks: bool) -> None:
        """Our own voice speaks, or has stopped."""
        if not speaks and self._expect() is not None:
            self._extend_wake()
        self.listening.voice(speaks, self._now)

    def _dispatch(self, events: list[EndpointEvent]) -> Iterator[LiveEvent]:
        for event in events:
            if event is EndpointEvent.BEGAN:
                self._begin()
            elif event is EndpointEvent.MORE:
                self._feed()
            elif event in (EndpointEvent.LULL, EndpointEvent.RESUMED):
                self._on_pause(event)
            elif event is EndpointEvent.PAUSED:
                yield from self._dispatch(self.listening.judge(self._complete()))
            elif event is EndpointEvent.ENDED:
                yield from self._end()
            else:
                yield event
        yield from (PartialResult(words) for words in self._partials)
        self._partials.clear()

    def _begin(self) -> None:
        self._asked = self._expect()
        self._active = self._wake is None or self._now <= self._awake_until
        self._sound.clear()
        self._stream = attend(self._ear, self._asked, self._partials.append)
        self._feed()

    def _feed(self) -> None:
        samples = self.listening.take()
        if self._active and self._stream is not None:
            self._stream.feed(samples)
        self._sound += samples

    def _on_pause(self, event: EndpointEvent) -> None:
        """In a lull there is time to hear what was said; where more is said, it did not count."""
        if self._stream is not None and self._active:
            if event is EndpointEvent.LULL:
                self._stream.lull()
            else:
                self._stream.resume()

    def _complete(self) -> bool:
        if not self._active or self._stream is None:
            return True
        return complete(self._stream.so_far(), self._asked)

    def _end(self) -> Iterator[LiveEvent]:
        attention, self._stream = self._stream, None
        self._partials.clear()
        if attention is None:
            return
        if self._wake is not None:
            rest = self._wake.after(Sound(bytes(self._sound), SAMPLE_RATE))
            if rest is not None or not self._active:
                yield from self._after_wake_word(rest)
                return
        yield FinalResult(attention.finish())

    def _after_wake_word(self, rest: Sound | None) -> Iterator[LiveEvent]:
        if rest is None:
            return
        self._extend_wake()
        hearings = self._ear.hear(rest, self._asked) if rest.samples else ()
        if any(hearing.words for hearing in hearings):
            yield FinalResult(hearings)
        else:
            yield WakeWordOnly()

    def _extend_wake(self) -> None:
        self._awake_until = self._now + WAKE_TIMEOUT_SECONDS
