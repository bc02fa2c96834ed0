"""When to listen, and when a statement has ended: a state machine over frames, keys and a clock.

It opens no device, runs no engine and reads no clock. Each frame comes with the time it ended;
what is to be done comes back as events, which `assistant/ears/loop.py` acts on.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from enum import Enum
from typing import Literal, TypeAlias

from boxaloud.assistant.ears.activity import IsSpeech
from boxaloud.assistant.ears.devices import FRAME_SECONDS, Frame

Mode: TypeAlias = Literal["key", "open", "wake"]
MODES: tuple[Mode, ...] = ("key", "open", "wake")


@dataclass(frozen=True, slots=True)
class Waits:
    """How long things take, in seconds."""

    lull: float = 0.2
    """Silence after which what was said is worth hearing, in case it was all."""
    complete: float = 0.5
    """Silence after which a statement that can stand alone has ended."""
    unfinished: float = 1.5
    """Silence after which one that cannot (a trailing number, an "and") has ended as well."""
    nothing: float = 8.0
    """A microphone opened by a key is closed again where nobody speaks for so long."""
    longest: float = 30.0
    """A statement is ended here, whatever is heard: a machine may be running."""
    before: float = 0.4
    """Sound kept from before the first frame of speech, which begins softer than it is."""
    window: float = 0.2
    """Speech begins where most of so long a stretch is speech; a knock is shorter."""
    echo: float = 0.25
    """How long after the voice stops the room still answers."""


class Event(Enum):
    """What the machine asks for."""

    OPENED = "opened"
    """The microphone now listens."""
    BEGAN = "began"
    """Somebody speaks; `take` gives the sound so far."""
    MORE = "more"
    """The statement goes on; `take` gives the new sound."""
    LULL = "lull"
    """A short silence, in which an engine may already hear what was said."""
    RESUMED = "resumed"
    """Speech went on after a lull."""
    PAUSED = "paused"
    """Silence: say by `judge` whether the statement can stand as it is."""
    ENDED = "ended"
    """The statement is over."""
    NOTHING = "nothing"
    """The microphone was opened and nobody spoke."""
    CLOSED = "closed"
    """The microphone no longer listens."""
    HUSH = "hush"
    """The voice is to be silent at once."""


class _State(Enum):
    CLOSED = "closed"
    OPEN = "open"
    SPEECH = "speech"
    PAUSE = "pause"
    """Silence after speech, not yet judged or judged unfinished."""


class Listening:
    """Push to talk, an open microphone, or one that waits for its name (`wake`).

    `headset`: the voice is not heard by the microphone, so speaking over it silences it.
    """

    def __init__(
        self,
        is_speech: IsSpeech,
        mode: Mode = "key",
        headset: bool = False,
        waits: Waits | None = None,
    ) -> None:
        self.mode = mode
        self.headset = headset
        self.waits = waits or Waits()
        self._is_speech = is_speech
        self._state = _State.CLOSED if mode == "key" else _State.OPEN
        self._voice_speaks = False
        self._deaf_until = 0.0
        self._since = 0.0
        self._last_speech = 0.0
        self._asked = False
        self._lull = False
        self._new: list[bytes] = []
        self._before: deque[bytes] = deque(maxlen=int(self.waits.before / FRAME_SECONDS))
        self._recent: deque[bool] = deque(maxlen=int(self.waits.window / FRAME_SECONDS))

    @property
    def is_open(self) -> bool:
        """True while what is said is listened to."""
        return self._state is not _State.CLOSED and not self._voice_speaks

    def take(self) -> bytes:
        """The sound of the statement since it was last taken."""
        taken = b"".join(self._new)
        self._new.clear()
        return taken

    def key(self, now: float) -> list[Event]:
        """The talk key: silences the voice, opens the microphone; again, ends the statement."""
        events = []
        self._deaf_until = 0.0
        if self._voice_speaks:
            events.append(Event.HUSH)
            self._voice_stops(now, deaf=0.0)
        elif self._state in (_State.SPEECH, _State.PAUSE):
            return self._end()
        elif self._state is _State.OPEN and self.mode == "key":
            return self._close([Event.NOTHING])
        if self._state is _State.CLOSED:
            events.append(Event.OPENED)
        self._open(now)
        return events

    def quiet_key(self, now: float) -> list[Event]:
        """Any other key: silences the voice and no more."""
        if not self._voice_speaks:
            return []
        self._voice_stops(now, deaf=0.0)
        return [Event.HUSH]

    def voice(self, speaks: bool, now: float) -> None:
        """Our own voice began or stopped speaking. While it does, nothing else is heard."""
        if speaks and not self._voice_speaks:
            self._voice_speaks = True
            self._forget()
        elif not speaks and self._voice_speaks:
            self._voice_stops(now, deaf=0.0 if self.headset else self.waits.echo)

    def frame(self, frame: Frame) -> list[Event]:
        """One more frame of the microphone."""
        if frame.now <= self._deaf_until or (self._voice_speaks and not self.headset):
            return []
        speech = self._is_speech(frame.samples)
        self._recent.append(speech)
        if self._state in (_State.SPEECH, _State.PAUSE):
            return self._in_statement(frame, speech)
        self._before.append(frame.samples)
        if self._voice_speaks:
            return self._over_voice(frame.now)
        if self._state is _State.OPEN:
            return self._waiting(frame.now)
        return []

    def judge(self, complete: bool) -> list[Event]:
        """The answer to PAUSED: whether what was said so far can stand as it is."""
        return self._end() if complete and self._state is _State.PAUSE else []

    def _in_statement(self, frame: Frame, speech: bool) -> list[Event]:
        self._new.append(frame.samples)
        if speech:
            return self._speech_goes_on(frame.now)
        silent = frame.now - self._last_speech
        if silent >= self.waits.unfinished:
            return [Event.MORE, *self._end()]
        if silent >= self.waits.complete and not self._asked:
            self._state, self._asked = _State.PAUSE, True
            return [Event.MORE, Event.PAUSED]
        if silent >= self.waits.lull and not self._lull:
            self._lull = True
            return [Event.MORE, Event.LULL]
        return [Event.MORE]

    def _speech_goes_on(self, now: float) -> list[Event]:
        resumed = [Event.RESUMED] if self._lull else []
        self._last_speech = now
        self._state, self._asked, self._lull = _State.SPEECH, False, False
        if now - self._since >= self.waits.longest:
            return [*resumed, Event.MORE, *self._end()]
        return [*resumed, Event.MORE]

    def _waiting(self, now: float) -> list[Event]:
        if self._begins():
            return self._begin(now)
        if self.mode == "key" and now - self._since >= self.waits.nothing:
            return self._close([Event.NOTHING])
        return []

    def _over_voice(self, now: float) -> list[Event]:
        """With a headset: speaking over the voice silences it and begins a statement."""
        if not self._begins():
            return []
        self._voice_speaks = False
        return [Event.HUSH, *self._begin(now)]

    def _begins(self) -> bool:
        return sum(self._recent) * 2 > (self._recent.maxlen or 0)

    def _begin(self, now: float) -> list[Event]:
        self._state, self._asked, self._lull = _State.SPEECH, False, False
        self._since = self._last_speech = now
        self._new = list(self._before)
        self._forget(sound=False)
        return [Event.BEGAN]

    def _end(self) -> list[Event]:
        return self._close([Event.ENDED]) if self.mode == "key" else self._reopen()

    def _reopen(self) -> list[Event]:
        self._state = _State.OPEN
        self._forget(sound=False)
        return [Event.ENDED]

    def _close(self, events: list[Event]) -> list[Event]:
        self._state = _State.CLOSED
        self._forget(sound=False)
        return [*events, Event.CLOSED]

    def _open(self, now: float) -> None:
        self._state = _State.OPEN
        self._since = now

    def _voice_stops(self, now: float, deaf: float) -> None:
        self._voice_speaks = False
        self._deaf_until = now + deaf
        self._since = now
        self._forget()

    def _forget(self, sound: bool = True) -> None:
        """Forget what led up to now; with `sound`, a statement being spoken too."""
        self._before.clear()
        self._recent.clear()
        if sound:
            self._new.clear()
            if self._state in (_State.SPEECH, _State.PAUSE):
                self._state = _State.CLOSED if self.mode == "key" else _State.OPEN
