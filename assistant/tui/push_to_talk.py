"""Push to talk with the machine's own microphone, voice detector and ear.

Everything slow (the sound library, the engine) is imported and opened in the listening thread,
so that the key that opens the microphone repaints at once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from threading import Event as Flag
from threading import Thread
from typing import TYPE_CHECKING

from boxaloud.assistant.tui.voice_ports import Final, Level, Partial, Tell, Trouble
from boxaloud.grammar.lexer.heard_words import Word

if TYPE_CHECKING:
    from boxaloud.assistant.asr import Recogniser
    from boxaloud.assistant.asr.audio.audio_devices import AudioDevice, AudioFrame
    from boxaloud.assistant.asr.live_recognition import LiveEvent, LiveRecogniser
    from boxaloud.assistant.asr.vad import SpeechClassifier

QUIETEST_DB = -60.0
"""Where the meter begins; it ends at full scale."""


class LiveListener:
    """One statement at a time: opened by a key, ended by a pause or by the key again."""

    def __init__(
        self,
        open_device: Callable[[], AudioDevice] | None = None,
        find_ear: Callable[[], Recogniser] | None = None,
        find_activity: Callable[[], SpeechClassifier] | None = None,
    ) -> None:
        self._open_device = open_device or _microphone
        self._find_ear = find_ear or _ear
        self._find_activity = find_activity or _activity
        self._ear: Recogniser | None = None
        self._pressed = Flag()
        self._thread: Thread | None = None

    def start(self, expect: str | None, tell: Tell) -> None:
        """Listen, in a thread; trouble is told."""
        self._pressed = Flag()
        self._thread = Thread(
            target=self._work, args=(expect, tell, self._pressed), name="microphone", daemon=True
        )
        self._thread.start()

    def stop(self) -> None:
        """End the statement; what was heard follows."""
        self._pressed.set()

    def _work(self, expect: str | None, tell: Tell, pressed: Flag) -> None:
        try:
            device = self._open_device()
        except Exception as fault:  # whatever a sound library raises, typing goes on
            tell(Trouble(str(fault) or type(fault).__name__, opening=True))
            return
        try:
            self._listen(device, expect, tell, pressed)
        except Exception as fault:  # as above
            tell(Trouble(str(fault) or type(fault).__name__))
        finally:
            device.close()

    def _listen(self, device: AudioDevice, expect: str | None, tell: Tell, pressed: Flag) -> None:
        live = self._live(expect)
        statement = _Statement(tell, expect)
        if statement.take(live.key()):
            return
        told = False
        for frame in device.frames():
            tell(_level(frame))
            if statement.take(live.frame(frame)):
                return
            if pressed.is_set() and not told:
                told = True
                if statement.take(live.key()):
                    return
        tell(Final(()))

    def _live(self, expect: str | None) -> LiveRecogniser:
        from boxaloud.assistant.asr.endpointer import Endpointer
        from boxaloud.assistant.asr.live_recognition import LiveRecogniser

        if self._ear is None:
            self._ear = self._find_ear()
        return LiveRecogniser(self._ear, Endpointer(self._find_activity()), lambda: expect)


class _Statement:
    """What the live ears bring about, told to the screen."""

    def __init__(self, tell: Tell, expect: str | None) -> None:
        self._tell = tell
        self._expect = expect
        self._heard: list[tuple[Word, ...]] = []

    def take(self, outcomes: Iterator[LiveEvent]) -> bool:
        """Tell the outcomes; True when the microphone has closed."""
        from boxaloud.assistant.asr.endpointer import EndpointEvent
        from boxaloud.assistant.asr.hypotheses.rescoring import choose
        from boxaloud.assistant.asr.live_recognition import FinalResult, PartialResult

        closed = False
        for outcome in outcomes:
            if isinstance(outcome, PartialResult):
                self._tell(Partial(tuple(Word(word) for word in outcome.words.split())))
            elif isinstance(outcome, FinalResult):
                self._heard += [choose(hearing, self._expect) for hearing in outcome.hearings]
            elif outcome is EndpointEvent.CLOSED:
                closed = True
        if closed:
            self._finish()
        return closed

    def _finish(self) -> None:
        """Every utterance in turn; the last one, or nothing at all, closes."""
        for words in self._heard[:-1]:
            self._tell(Final(words, more=True))
        self._tell(Final(self._heard[-1] if self._heard else ()))


def _level(frame: AudioFrame) -> Level:
    from boxaloud.assistant.asr.vad import decibels

    return Level(1 - max(decibels(frame.samples), QUIETEST_DB) / QUIETEST_DB)


def _microphone() -> AudioDevice:
    from boxaloud.assistant.asr.audio.microphone import Microphone

    return Microphone()


def _ear() -> Recogniser:
    from boxaloud.assistant.asr import default_recogniser

    return default_recogniser()


def _activity() -> SpeechClassifier:
    from boxaloud.assistant.asr.vad import VoiceActivityDetector

    return VoiceActivityDetector()
