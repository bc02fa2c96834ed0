"""The loop of a live talk: what is heard goes to the job, what it answers is shown and spoken."""

from __future__ import annotations

import sys
from collections.abc import Iterable

from boxaloud.assistant.dialogue import Reply
from boxaloud.assistant.ears.choose import choose
from boxaloud.assistant.ears.devices import Device
from boxaloud.assistant.ears.hearing import Hearing
from boxaloud.assistant.ears.listening import Event
from boxaloud.assistant.ears.live import Called, Heard, LiveEars, Outcome, Partial
from boxaloud.assistant.front import put
from boxaloud.assistant.jobs import Session
from boxaloud.assistant.keys import Keys
from boxaloud.assistant.mouth import Mouth
from boxaloud.assistant.showing import Showing
from boxaloud.assistant.sound_wording import say

TALK_KEYS = " \r\n"
LEAVE_KEYS = "qQ\x04"
CLEAR_LINE = "\r\x1b[K"


class Talking:
    """One talk. `live_line`: words are shown on a line of their own while they are spoken."""

    def __init__(
        self, session: Session, live: LiveEars, mouth: Mouth, keys: Keys, live_line: bool = False
    ) -> None:
        self._session = session
        self._live = live
        self._mouth = mouth
        self._keys = keys
        self._live_line = live_line
        self._showing = Showing()
        self._spoke = False
        self._left = False

    def go_on(self, device: Device) -> None:
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

    def _take_all(self, outcomes: Iterable[Outcome]) -> None:
        for outcome in outcomes:
            self._take(outcome)

    def _take(self, outcome: Outcome) -> None:
        match outcome:
            case Partial(words):
                self._show_partial(words)
            case Heard(hearings):
                self._clear_line()
                for hearing in hearings:
                    self._hear(hearing)
            case Called():
                self._tell(say("talk.called"))
            case Event.HUSH:
                self._mouth.hush()
            case Event.OPENED:
                put(say("talk.listening"))
            case Event.NOTHING:
                put(say("talk.nothing"))

    def _hear(self, hearing: Hearing) -> None:
        """A statement: to the job. What was no statement is told, aloud only if asked for."""
        if words := choose(hearing, self._session.asks):
            reply = self._session.hear(words)
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
            sys.stdout.write(f"{CLEAR_LINE}… {words}")
            sys.stdout.flush()

    def _clear_line(self) -> None:
        if self._live_line:
            sys.stdout.write(CLEAR_LINE)
