"""When to listen, and when a statement has ended: a state machine over frames, keys and a clock.

It opens no device, runs no engine and reads no clock. Each frame comes with the time it ended;
what is to be done comes back as events, which `live_recognition` acts on.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from enum import Enum
from typing import Literal, TypeAlias

from boxaloud.assistant.asr.audio.audio_devices import FRAME_SECONDS, AudioFrame
from boxaloud.assistant.asr.vad import SpeechClassifier

ListeningMode: TypeAlias = Literal["key", "open", "wake"]
LISTENING_MODES: tuple[ListeningMode, ...] = ("key", "open", "wake")


@dataclass(frozen=True, slots=True)
class Timeouts:
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


class EndpointEvent(Enum):
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


class Endpointer:
    """Push to talk, an open microphone, or one that waits for its name (`wake`).

    `headset`: the voice is not heard by the microphone, so speaking over it silences it.
    """

    def __init__(
        self,
        is_speech: SpeechClassifier,
        mode: ListeningMode = "key",
        headset: bool = False,
        waits: Timeouts | None = None,
    ) -> None:
        self.mode = mode
        self.headset = headset
        self.waits = waits or Timeouts()
        self._is_speech = is_speech
        self._state = _State.CLOSED if mode == "key" else _State.OPEN
        self._own_speech = False
        self._ignore_until = 0.0
        self._since = 0.0
        self._last_speech = 0.0
        self._asked = False
        self._lull = False
        self._new: list[bytes] = []
        self._preroll: deque[bytes] = deque(maxlen=int(self.waits.before / FRAME_SECONDS))
        self._recent: deque[bool] = deque(maxlen=int(self.waits.window / FRAME_SECONDS))

    @property
    def is_open(self) -> bool:
        """True while what is said is listened to."""
        return self._state is not _State.CLOSED and not self._own_speech

    @property
    def in_statement(self) -> bool:
        """True while a statement has begun and not ended."""
        return self._state in (_State.SPEECH, _State.PAUSE)

    def take(self) -> bytes:
        """The sound of the statement since it was last taken."""
        taken = b"".join(self._new)
        self._new.clear()
        return taken

    def key(self, now: float) -> list[EndpointEvent]:
        """The talk key: silences the voice, opens the microphone; again, ends the statement."""
        events = []
        self._ignore_until = 0.0
        if self._own_speech:
            events.append(EndpointEvent.HUSH)
            self._voice_stops(now, deaf=0.0)
        elif self.in_statement:
            return self._end()
        elif self._state is _State.OPEN and self.mode == "key":
            return self._close([EndpointEvent.NOTHING])
        if self._state is _State.CLOSED:
            events.append(EndpointEvent.OPENED)
        self._open(now)
        return events

    def quiet_key(self, now: float) -> list[EndpointEvent]:
        """Any other key: silences the voice and no more."""
        if not self._own_speech:
            return []
        self._voice_stops(now, deaf=0.0)
        return [EndpointEvent.HUSH]

    def voice(self, speaks: bool, now: float) -> None:
        """Our own voice began or stopped speaking. While it does, nothing else is heard."""
        if speaks and not self._own_speech:
            self._own_speech = True
            self._reset()
        elif not speaks and self._own_speech:
            self._voice_stops(now, deaf=0.0 if self.headset else self.waits.echo)

    def frame(self, frame: AudioFrame) -> list[EndpointEvent]:
        """One more frame of the microphone."""
        if frame.now <= self._ignore_until or (self._own_speech and not self.headset):
            return []
        speech = self._is_speech(frame.samples)
        self._recent.append(speech)
        if self.in_statement:
            return self._in_utterance(frame, speech)
        self._preroll.append(frame.samples)
        if self._own_speech:
            return self._barge_in(frame.now)
        if self._state is _State.OPEN:
            return self._await_speech(frame.now)
        return []

    def judge(self, complete: bool) -> list[EndpointEvent]:
        """The answer to PAUSED: whether what was said so far can stand as it is."""
        return self._end() if complete and self._state is _State.PAUSE else []

    def _in_utterance(self, frame: AudioFrame, speech: bool) -> list[EndpointEvent]:
        self._new.append(frame.samples)
        if speech:
            return self._speech_goes_on(frame.now)
        silent = frame.now - self._last_speech
        if silent >= self.waits.unfinished:
            return [EndpointEvent.MORE, *self._end()]
        if silent >= self.waits.complete and not self._asked:
            self._state, self._asked = _State.PAUSE, True
            return [EndpointEvent.MORE, EndpointEvent.PAUSED]
        if silent >= self.waits.lull and not self._lull:
            self._lull = True
            return [EndpointEvent.MORE, EndpointEvent.LULL]
        return [EndpointEvent.MORE]

    def _speech_goes_on(self, now: float) -> list[EndpointEvent]:
        resumed = [EndpointEvent.RESUMED] if self._lull else []
        self._last_speech = now
        self._state, self._asked, self._lull = _State.SPEECH, False, False
        if now - self._since >= self.waits.longest:
            return [*resumed, EndpointEvent.MORE, *self._end()]
        return [*resumed, EndpointEvent.MORE]

    def _await_speech(self, now: float) -> list[EndpointEvent]:
        if self._onset():
            return self._begin(now)
        if self.mode == "key" and now - self._since >= self.waits.nothing:
            return self._close([EndpointEvent.NOTHING])
        return []

    def _barge_in(self, now: float) -> list[EndpointEvent]:
        """With a headset: speaking over the voice silences it and begins a statement."""
        if not self._onset():
            return []
        self._own_speech = False
        return [EndpointEvent.HUSH, *self._begin(now)]

    def _onset(self) -> bool:
        return sum(self._recent) * 2 > (self._recent.maxlen or 0)

    def _begin(self, now: float) -> list[EndpointEvent]:
        self._state, self._asked, self._lull = _State.SPEECH, False, False
        self._since = self._last_speech = now
        self._new = list(self._preroll)
        self._reset(sound=False)
        return [EndpointEvent.BEGAN]

    def _end(self) -> list[EndpointEvent]:
        return self._close([EndpointEvent.ENDED]) if self.mode == "key" else self._reopen()

    def _reopen(self) -> list[EndpointEvent]:
        self._state = _State.OPEN
        self._reset(sound=False)
        return [EndpointEvent.ENDED]

    def _close(self, events: list[EndpointEvent]) -> list[EndpointEvent]:
        self._state = _State.CLOSED
        self._reset(sound=False)
        return [*events, EndpointEvent.CLOSED]

    def _open(self, now: float) -> None:
        self._state = _State.OPEN
        self._since = now

    def _voice_stops(self, now: float, deaf: float) -> None:
        self._own_speech = False
        self._ignore_until = now + deaf
        self._since = now
        self._reset()

    def _reset(self, sound: bool = True) -> None:
        """Forget what led up to now; with `sound`, a statement being spoken too."""
        self._preroll.clear()
        self._recent.clear()
        if sound:
            self._new.clear()
            if self.in_statement:
                self._state = _State.CLOSED if self.mode == "key" else _State.OPEN
