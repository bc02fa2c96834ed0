"""Live listening: frames and keys in, what was heard out. Every live front end stands on this."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TypeAlias

from boxaloud.assistant.ears.attention import Attention, attend
from boxaloud.assistant.ears.completeness import complete
from boxaloud.assistant.ears.devices import RATE, Frame
from boxaloud.assistant.ears.hearing import Ear, Hearing, Sound
from boxaloud.assistant.ears.listening import Event, Listening
from boxaloud.assistant.ears.wake import WakePhrase

#: After an answer was asked for, or after the name alone, no name is needed for so long.
AWAKE_SECONDS = 12.0


@dataclass(frozen=True, slots=True)
class Partial:
    """The words so far; not final, and nothing is entered by them."""

    words: str


@dataclass(frozen=True, slots=True)
class Heard:
    """A whole statement."""

    hearings: tuple[Hearing, ...]


@dataclass(frozen=True, slots=True)
class Called:
    """The name was said and nothing after it: it listens to what comes."""


#: `Event.OPENED`, `CLOSED`, `NOTHING` and `HUSH` come as they are.
Outcome: TypeAlias = Partial | Heard | Called | Event


class LiveEars:
    """An ear at a live device. `expect` is asked, as each statement begins, what is open."""

    def __init__(
        self,
        ear: Ear,
        listening: Listening,
        expect: Callable[[], str | None],
        wake: WakePhrase | None = None,
    ) -> None:
        self.listening = listening
        self._ear = ear
        self._expect = expect
        self._wake = wake
        self._attention: Attention | None = None
        self._asked: str | None = None
        self._sound = bytearray()
        self._partials: list[str] = []
        self._awake_until = 0.0
        self._heeded = True
        self._now = 0.0

    def frame(self, frame: Frame) -> Iterator[Outcome]:
        """What a frame brings about."""
        self._now = frame.now
        yield from self._act(self.listening.frame(frame))

    def key(self) -> Iterator[Outcome]:
        """The talk key."""
        self._awake_until = self._now + AWAKE_SECONDS
        yield from self._act(self.listening.key(self._now))

    def quiet_key(self) -> Iterator[Outcome]:
        """Any other key: the voice is silenced."""
        yield from self._act(self.listening.quiet_key(self._now))

    def voice(self, speaks: bool) -> None:
        """Our own voice speaks, or has stopped."""
        if not speaks and self._expect() is not None:
            self._stay_awake()
        self.listening.voice(speaks, self._now)

    def _act(self, events: list[Event]) -> Iterator[Outcome]:
        for event in events:
            if event is Event.BEGAN:
                self._begin()
            elif event is Event.MORE:
                self._feed()
            elif event in (Event.LULL, Event.RESUMED):
                self._weigh(event)
            elif event is Event.PAUSED:
                yield from self._act(self.listening.judge(self._complete()))
            elif event is Event.ENDED:
                yield from self._end()
            else:
                yield event
        yield from (Partial(words) for words in self._partials)
        self._partials.clear()

    def _begin(self) -> None:
        self._asked = self._expect()
        self._heeded = self._wake is None or self._now <= self._awake_until
        self._sound.clear()
        self._attention = attend(self._ear, self._asked, self._partials.append)
        self._feed()

    def _feed(self) -> None:
        samples = self.listening.take()
        if self._heeded and self._attention is not None:
            self._attention.feed(samples)
        self._sound += samples

    def _weigh(self, event: Event) -> None:
        """In a lull there is time to hear what was said; where more is said, it did not count."""
        if self._attention is not None and self._heeded:
            if event is Event.LULL:
                self._attention.lull()
            else:
                self._attention.resume()

    def _complete(self) -> bool:
        if not self._heeded or self._attention is None:
            return True
        return complete(self._attention.so_far(), self._asked)

    def _end(self) -> Iterator[Outcome]:
        attention, self._attention = self._attention, None
        self._partials.clear()
        if attention is None:
            return
        if self._wake is not None:
            rest = self._wake.after(Sound(bytes(self._sound), RATE))
            if rest is not None or not self._heeded:
                yield from self._called(rest)
                return
        yield Heard(attention.finish())

    def _called(self, rest: Sound | None) -> Iterator[Outcome]:
        if rest is None:
            return
        self._stay_awake()
        hearings = self._ear.hear(rest, self._asked) if rest.samples else ()
        if any(hearing.words for hearing in hearings):
            yield Heard(hearings)
        else:
            yield Called()

    def _stay_awake(self) -> None:
        self._awake_until = self._now + AWAKE_SECONDS
