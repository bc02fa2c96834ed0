"""`boxaloud talk`: microphone to loudspeaker, and the job kept in between."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from boxaloud.assistant.ears import EarsError, read_sound, the_ear
from boxaloud.assistant.ears.activity import Activity
from boxaloud.assistant.ears.devices import Device
from boxaloud.assistant.ears.listening import MODES, Listening, Mode
from boxaloud.assistant.ears.live import LiveEars
from boxaloud.assistant.ears.quiet import quiet
from boxaloud.assistant.ears.wake import PHRASE, WakePhrase
from boxaloud.assistant.front import put
from boxaloud.assistant.jobs import Session
from boxaloud.assistant.jobs.shelf import places
from boxaloud.assistant.keys import Keys, ScriptedKeys, terminal_keys
from boxaloud.assistant.mouth import Mouth, Voice, silent_mouth, the_mouth
from boxaloud.assistant.problems import Problem
from boxaloud.assistant.sound_wording import say
from boxaloud.assistant.talking import Talking

TALK_KEY = " "


@dataclass(frozen=True, slots=True)
class Wishes:
    """How to talk: what the command line said."""

    job: str = ""
    edition: str = ""
    listen: str = "key"
    headset: bool = False
    microphone: str = ""
    voice: Voice = field(default_factory=Voice)
    silent: bool = False
    save_speech: Path | None = None
    recordings: tuple[Path, ...] = ()
    """Heard in place of a microphone, each spoken after the talk key where that is the way."""


def run(wishes: Wishes) -> int:
    """Talk until the person leaves, or the recordings end. Gives 0."""
    mode = _mode(wishes)
    try:
        with quiet(), _mouth(wishes) as mouth:
            ear = the_ear()
            wake = WakePhrase() if mode == "wake" else None
            listening = Listening(Activity(), mode, wishes.headset)
            with _input(wishes, mouth) as (device, keys), _session(wishes) as session:
                live = LiveEars(ear, listening, lambda: session.asks, wake)
                put(say(f"talk.{'keys' if mode == 'key' else mode}", phrase=PHRASE))
                Talking(session, live, mouth, keys, live_line=sys.stdout.isatty()).go_on(device)
                put(say("talk.left", job=session.name))
    except EarsError as trouble:
        raise Problem(f"{trouble} {say('talk.type_instead')}") from None
    return 0


def _mode(wishes: Wishes) -> Mode:
    if wishes.listen not in MODES:
        raise Problem(say("talk.no_mode", mode=wishes.listen))
    if wishes.listen == "key" and not wishes.recordings and not sys.stdin.isatty():
        raise Problem(say("talk.no_keyboard"))
    return wishes.listen


@contextmanager
def _mouth(wishes: Wishes) -> Iterator[Mouth]:
    mouth = silent_mouth() if wishes.silent else the_mouth(put, wishes.voice, wishes.save_speech)
    try:
        yield mouth
    finally:
        mouth.close()


@contextmanager
def _input(wishes: Wishes, mouth: Mouth) -> Iterator[tuple[Device, Keys]]:
    """The microphone and the terminal's keys; or recordings, and the key pressed before each."""
    if wishes.recordings:
        from boxaloud.assistant.ears.recorded import RecordedDevice

        keys = ScriptedKeys()
        press = (lambda: keys.press(TALK_KEY)) if wishes.listen == "key" else (lambda: None)
        sounds = [read_sound(path) for path in wishes.recordings]
        yield RecordedDevice(sounds, press, mouth.wait), keys
        return
    from boxaloud.assistant.ears.microphone import Microphone

    microphone = Microphone(wishes.microphone)
    try:
        with terminal_keys() as pressed:
            yield microphone, pressed
    finally:
        microphone.close()


@contextmanager
def _session(wishes: Wishes) -> Iterator[Session]:
    """The job named, begun where there is none; else the one last spoken to, or the first."""
    if wishes.job:
        session = Session.open_or_start(wishes.job, wishes.edition)
    elif places():
        session = Session.open()
    else:
        session = Session.start(say("talk.first_job"), wishes.edition)
    try:
        yield session
    finally:
        session.close()
