"""`boxaloud talk`: microphone to loudspeaker, and the job kept in between."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from boxaloud.assistant.asr import AsrError, read_wav
from boxaloud.assistant.asr.audio.audio_devices import AudioDevice
from boxaloud.assistant.asr.audio.silenced_stderr import quiet
from boxaloud.assistant.asr.ear_choice import choice, made
from boxaloud.assistant.asr.endpointer import LISTENING_MODES, Endpointer, ListeningMode
from boxaloud.assistant.asr.live_recognition import LiveRecogniser
from boxaloud.assistant.asr.vad import VoiceActivityDetector
from boxaloud.assistant.asr.wake_word import WAKE_PHRASE, WakeWordDetector
from boxaloud.assistant.cli.cli_messages import say
from boxaloud.assistant.cli.commands.talk_loop import Talking
from boxaloud.assistant.cli.keyboard import Keys, ScriptedKeys, terminal_keys
from boxaloud.assistant.cli.output import put
from boxaloud.assistant.storage import Session
from boxaloud.assistant.storage.repository import places
from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.tts import SpeechOutput, Voice, default_speech_output, muted_speech_output

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
            chosen = choice()
            if chosen.preparing:
                put(chosen.preparing)
            ear = made(chosen)
            put(chosen.sentence)
            wake = WakeWordDetector() if mode == "wake" else None
            listening = Endpointer(VoiceActivityDetector(), mode, wishes.headset)
            with _input(wishes, mouth) as (device, keys), _session(wishes) as session:
                live = LiveRecogniser(ear, listening, lambda: session.asks, wake)
                put(say(f"talk.{'keys' if mode == 'key' else mode}", phrase=WAKE_PHRASE))
                Talking(session, live, mouth, keys, live_line=sys.stdout.isatty()).go_on(device)
                put(say("talk.left", job=session.name))
    except AsrError as trouble:
        raise Problem(f"{trouble} {say('talk.type_instead')}") from None
    return 0


def _mode(wishes: Wishes) -> ListeningMode:
    if wishes.listen not in LISTENING_MODES:
        raise Problem(say("talk.no_mode", mode=wishes.listen))
    if wishes.listen == "key" and not wishes.recordings and not sys.stdin.isatty():
        raise Problem(say("talk.no_keyboard"))
    return wishes.listen


@contextmanager
def _mouth(wishes: Wishes) -> Iterator[SpeechOutput]:
    mouth = (
        muted_speech_output()
        if wishes.silent
        else default_speech_output(put, wishes.voice, wishes.save_speech)
    )
    try:
        yield mouth
    finally:
        mouth.close()


@contextmanager
def _input(wishes: Wishes, mouth: SpeechOutput) -> Iterator[tuple[AudioDevice, Keys]]:
    """The microphone and the terminal's keys; or recordings, and the key pressed before each."""
    if wishes.recordings:
        from boxaloud.assistant.asr.audio.recorded_device import RecordedDevice

        keys = ScriptedKeys()
        press = (lambda: keys.press(TALK_KEY)) if wishes.listen == "key" else (lambda: None)
        sounds = [read_wav(path) for path in wishes.recordings]
        yield RecordedDevice(sounds, press, mouth.wait), keys
        return
    from boxaloud.assistant.asr.audio.microphone import Microphone

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
