"""The loop of a live talk: what is heard goes to the job, what it answers is shown and spoken."""

from __future__ import annotations

from collections.abc import Iterable

from boxaloud.assistant.asr.asr_types import RecognitionResult
from boxaloud.assistant.asr.audio.audio_devices import AudioDevice
from boxaloud.assistant.asr.endpointer import EndpointEvent
from boxaloud.assistant.asr.hypotheses.rescoring import choose
from boxaloud.assistant.asr.live_recognition import (
    FinalResult,
    LiveEvent,
    LiveRecogniser,
    PartialResult,
    WakeWordOnly,
)
from boxaloud.assistant.cli.cli_messages import say
from boxaloud.assistant.cli.keyboard import Keys
from boxaloud.assistant.cli.output import one_utterance, put, with_report
from boxaloud.assistant.cli.worksheet_text import Showing
from boxaloud.assistant.dialogue import Reply
from boxaloud.assistant.storage import Session
from boxaloud.assistant.text import printing
from boxaloud.assistant.tts import SpeechOutput

TALK_KEYS = " \r\n"
LEAVE_KEYS = "qQ\x04"
CLEAR_LINE = "\r\x1b[K"


class Talking:
    """One talk. `live_line`: words are shown on a line of their own while they are spoken."""

    def __init__(
        self,
        session: Session,
        live: LiveRecogniser,
        mouth: SpeechOutput,
        keys: Keys,
        live_line: bool = False,
    ) -> None:
        self._session = session
        self._live = live
        self._mouth = mouth
        self._keys = keys
        self._live_line = live_line
        self._showing = Showing()
        self._spoke = False
        self._left = False

    def go_on(self, device: AudioDevice) -> None:
        """Talk until the person leaves or the device ends. Raises EarsError where it fails."""
        self._answer(self._session.resume())
        for frame in device.frames():
            self._follow_voice()
            for key in self._keys.pressed():
                self._press(key)
            if self._left:
                break
            self._take_all(self._live.frame(frame))
        if not self._left:
            self._mouth.wait()

    def _press(self, key: str) -> None:
        if key in LEAVE_KEYS:
            self._left = True
        else:
            pressed = self._live.key if key in TALK_KEYS else self._live.quiet_key
            self._take_all(pressed())

    def _follow_voice(self) -> None:
        """Tell the ears when the mouth begins and stops, so that they do not hear it."""
        speaks = self._mouth.speaking
        if speaks != self._spoke:
            self._spoke = speaks
            self._live.voice(speaks)

    def _take_all(self, outcomes: Iterable[LiveEvent]) -> None:
        for outcome in outcomes:
            self._take(outcome)

    def _take(self, outcome: LiveEvent) -> None:
        match outcome:
            case PartialResult(words):
                self._show_partial(words)
            case FinalResult(hearings):
                self._clear_line()
                for hearing in hearings:
                    with one_utterance():
                        self._hear(hearing)
            case WakeWordOnly():
                self._tell(say("talk.called"))
            case EndpointEvent.HUSH:
                self._mouth.hush()
            case EndpointEvent.OPENED:
                put(say("talk.listening"))
            case EndpointEvent.NOTHING:
                put(say("talk.nothing"))

    def _hear(self, hearing: RecognitionResult) -> None:
        """A statement: to the job. What was no statement is told, aloud only if asked for."""
        if words := choose(hearing, self._session.asks):
            reply = with_report(self._session.hear(words), self._session)
            put(say("talk.heard", words=reply.heard))
            self._answer(reply)
            return
        trouble = say(f"trouble.{hearing.trouble or 'unclear'}")
        if self._live.listening.mode == "key":
            self._tell(trouble)
        else:
            put(trouble)

    def _answer(self, reply: Reply) -> None:
        text, lines = self._showing.shown(reply)
        put(say("talk.reply", said=text))
        for line in lines:
            put(line)
        self._speak(reply.spoken or reply.said)

    def _tell(self, sentence: str) -> None:
        put(sentence)
        self._speak(sentence)

    def _speak(self, words: str) -> None:
        self._mouth.say(words)
        self._follow_voice()

    def _show_partial(self, words: str) -> None:
        if self._live_line:
            printing.draw(CLEAR_LINE, f"… {words}")

    def _clear_line(self) -> None:
        if self._live_line:
            printing.draw(CLEAR_LINE)
