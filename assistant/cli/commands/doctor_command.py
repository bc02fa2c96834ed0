"""`boxaloud doctor`: is everything here that talking needs? A line for each thing, with its mend.

Nothing needs to be installed for it to run: what is missing is what it is there to say.
"""

from __future__ import annotations

import itertools
import math
import sys
import tempfile
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from importlib.resources import as_file, files
from pathlib import Path
from threading import Event
from typing import TypeAlias

from boxaloud.assistant.asr import AsrError, Recogniser, Sound, read_wav, write_wav
from boxaloud.assistant.asr.audio.audio_devices import FRAME_SECONDS, SAMPLE_RATE, AudioDevice
from boxaloud.assistant.asr.audio.silenced_stderr import quiet
from boxaloud.assistant.asr.engines.vosk.model_registry import VoskModelRegistry
from boxaloud.assistant.asr.hypotheses.meaning_representation import meaning
from boxaloud.assistant.asr.vad import decibels
from boxaloud.assistant.cli.cli_messages import say
from boxaloud.assistant.cli.output import put
from boxaloud.assistant.text import printing
from boxaloud.assistant.tts import Speech, TtsError, Voice, the_player
from boxaloud.assistant.tts.file_sink import FileSink
from boxaloud.assistant.tts.synthesiser import SystemSynthesiser

PHRASE = "two fourteen two cables and one switch"
METER_SECONDS = 2.0
#: Levels, in decibels under full scale, between which a room with a person in it lies.
NO_SOUND_DB, QUIET_DB, LOUD_DB = -90.0, -50.0, -6.0
SOME = 4
MEND, WELL = 2, 0


@dataclass(frozen=True, slots=True)
class Line:
    """What was found of one thing; not `well`: it is in the way, and the text says its mend."""

    text: str
    well: bool = True

    def __str__(self) -> str:
        return say("doctor.ok" if self.well else "doctor.bad", what=self.text)


Check: TypeAlias = Callable[[], Line]


def run(microphone: str, save_speech: Path | None, recordings: list[Path]) -> int:
    """Look at each thing in turn. Gives 0 where all is well, 2 where something is to be mended."""
    listening = [_embedded, _whisper, _vosk, _heard_back]
    talking: list[Check] = [lambda: _microphone(microphone, recordings)]
    if save_speech is None:
        talking.append(_loudspeaker)
    talking.append(lambda: _voice(save_speech))
    able_to_hear = _all_well(listening)
    able_to_talk = _all_well(talking)
    if able_to_hear and able_to_talk:
        put(say("doctor.all_well"))
        return WELL
    put(say("doctor.ears_only" if able_to_hear else "doctor.no_ears"))
    return MEND


def _all_well(checks: list[Check]) -> bool:
    """Show a line for each check. A check that fails unforeseen is a line as well."""
    lines = []
    for check in checks:
        try:
            with quiet():
                line = check()
        except (AsrError, TtsError) as trouble:
            line = Line(str(trouble), False)
        except Exception as fault:  # whatever a sound library raises, the others are looked at
            line = Line(f"{type(fault).__name__}: {fault}", False)
        put(str(line))
        lines.append(line)
    return all(line.well for line in lines)


def _microphone(name: str, recordings: list[Path]) -> Line:
    """The microphone's name and how loud the room is through it."""
    if recordings:
        from boxaloud.assistant.asr.audio.recorded_device import RecordedDevice

        return _level(RecordedDevice([read_wav(path) for path in recordings]))
    from boxaloud.assistant.asr.audio.microphone import Microphone, microphone_name

    put(str(Line(say("doctor.microphone", name=microphone_name(name)))))
    device = Microphone(name)
    try:
        return _level(device)
    finally:
        device.close()


def _level(device: AudioDevice) -> Line:
    """The loudest of two seconds, with a meter that moves meanwhile at a terminal."""
    loudest = -120.0
    for frame in itertools.islice(device.frames(), int(METER_SECONDS / FRAME_SECONDS)):
        level = decibels(frame.samples)
        loudest = max(loudest, level)
        if sys.stdout.isatty():
            printing.draw("\r\x1b[K", "#" * max(0, round((level + 60) / 2)))
    if sys.stdout.isatty():
        printing.draw("\r\x1b[K")
    if loudest < NO_SOUND_DB:
        return Line(say("doctor.level_none"), False)
    word = "quiet" if loudest < QUIET_DB else "loud" if loudest > LOUD_DB else "good"
    return Line(say("doctor.level", level=loudest, word=say(f"doctor.level_{word}")))


def _loudspeaker() -> Line:
    """A short low tone is played: only then does a system say that it cannot."""
    player = the_player()
    with tempfile.TemporaryDirectory() as folder:
        player.play(Speech("", _tone(Path(folder) / "tone.wav")), Event())
    name = getattr(player, "command", (say("doctor.loudspeaker_system"),))[0]
    return Line(say("doctor.loudspeaker", name=name))


def _tone(path: Path) -> Path:
    samples = (
        round(3000 * math.sin(2 * math.pi * 440 * n / SAMPLE_RATE)) for n in range(SAMPLE_RATE // 5)
    )
    write_wav(Sound(b"".join(n.to_bytes(2, "little", signed=True) for n in samples)), path)
    return path


def _voice(save_speech: Path | None) -> Line:
    """The voices there are; the test phrase is said with ours, aloud or into the folder."""
    voice = SystemSynthesiser(Voice())
    try:
        names = voice.voices()
        if not names:
            return Line(say("doctor.voice_none"), False)
        with tempfile.TemporaryDirectory() as folder:
            speech = voice.render(PHRASE, Path(folder) / "phrase.wav")
            if save_speech is not None:
                FileSink(save_speech).play(speech, Event())
            else:
                with suppress(TtsError):  # a loudspeaker's trouble has its own line
                    the_player().play(speech, Event())
    finally:
        voice.close()
    english = [name for name in names if "english" in name.lower()] or list(names)
    return Line(say("doctor.voice", count=len(names), names=", ".join(english[:SOME])))


def _embedded() -> Line:
    from boxaloud.assistant.asr.engines.pocketsphinx.pocketsphinx_recogniser import (
        PocketsphinxRecogniser,
    )

    language = PocketsphinxRecogniser().language
    if language.missing:
        words = ", ".join(language.missing[:SOME])
        count = len(language.missing)
        return Line(say("doctor.embedded_missing", count=count, words=words), False)
    return Line(say("doctor.embedded", words=len(language.speech.words)))


def _whisper() -> Line:
    from boxaloud.assistant.asr.engines.whisper import model_folder

    folder = model_folder()
    if folder is None:
        return Line(say("doctor.whisper_none"))
    from boxaloud.assistant.asr.engines.whisper.whisper_recogniser import WhisperRecogniser

    ear = WhisperRecogniser(folder)
    return Line(say("doctor.whisper", name=ear.name, words=len(ear.words)))


def _vosk() -> Line:
    folder = VoskModelRegistry().in_use()
    if folder is None:
        return Line(say("doctor.vosk_none"))
    from boxaloud.assistant.asr.engines.vosk.model_probe import probe_model

    known, every = probe_model(folder)
    return Line(say("doctor.vosk", name=folder.name, known=known, all=every))


def _heard_back() -> Line:
    """A recording of the test phrase, heard by the ear in use."""
    from boxaloud.assistant.asr import default_recogniser

    ear: Recogniser = default_recogniser()
    with as_file(files("boxaloud.assistant.cli") / "data" / "test_phrase.wav") as path:
        sound = read_wav(path)
    began = time.perf_counter()
    heard = " ".join(word.text for hearing in ear.hear(sound) for word in hearing.words)
    seconds = time.perf_counter() - began
    if meaning(heard) != meaning(PHRASE):
        return Line(say("doctor.heard_wrong", said=PHRASE, heard=heard), False)
    return Line(say("doctor.heard_back", said=PHRASE, seconds=seconds))
