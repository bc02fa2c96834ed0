"""Speech made heard: by the sound library, or by the system's own command for playing a file.

The sound library is imported here only when something is to be played.
"""

from __future__ import annotations

import shutil
import subprocess
import wave
from threading import Event
from typing import Any

from boxaloud.assistant.tts.tts_errors import TtsError
from boxaloud.assistant.tts.tts_messages import say
from boxaloud.assistant.tts.tts_types import Player, Speech

#: Commands that play a WAV file and end with it, the first one found.
PLAYER_COMMANDS = (("pw-play",), ("paplay",), ("aplay", "-q"), ("afplay",))
#: How often a player looks whether it was stopped.
POLL_SECONDS = 0.01
BLOCK_SECONDS = 0.02


class DevicePlayer:
    """Plays through PortAudio, in small blocks, so that it can stop between any two."""

    def __init__(self, sounddevice: Any) -> None:
        self._sound = sounddevice

    def play(self, speech: Speech, stopped: Event) -> None:
        """Play to the end or until `stopped`. Raises MouthError."""
        try:
            self._play(speech, stopped)
        except self._sound.PortAudioError as error:
            why = str(error.args[0]).split(" [")[0]
            raise TtsError(say("loudspeaker.failed", why=why)) from error

    def _play(self, speech: Speech, stopped: Event) -> None:
        with wave.open(str(speech.path), "rb") as file:
            rate, channels = file.getframerate(), file.getnchannels()
            samples = file.readframes(file.getnframes())
        samples, rate = self._at_device_rate(samples, rate, channels)
        block = int(BLOCK_SECONDS * rate) * channels * 2
        stream = self._sound.RawOutputStream(
            samplerate=rate, channels=channels, dtype="int16", latency="low"
        )
        with stream:
            for start in range(0, len(samples), block):
                if stopped.is_set():
                    stream.abort()
                    return
                stream.write(samples[start : start + block])

    def _at_device_rate(self, samples: bytes, rate: int, channels: int) -> tuple[bytes, int]:
        """The samples at a rate that the device takes."""
        try:
            self._sound.check_output_settings(channels=channels, dtype="int16", samplerate=rate)
        except self._sound.PortAudioError:
            wanted = int(self._sound.query_devices(kind="output")["default_samplerate"])
            return _resample(samples, rate, wanted, channels), wanted
        return samples, rate


class CommandPlayer:
    """Plays by a command in a process that is ended to make it silent."""

    def __init__(self, command: tuple[str, ...]) -> None:
        self.command = command

    def play(self, speech: Speech, stopped: Event) -> None:
        """Play to the end or until `stopped`. Raises MouthError."""
        process = subprocess.Popen(
            [*self.command, str(speech.path)],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
        )
        while process.poll() is None:
            if stopped.wait(POLL_SECONDS):
                process.kill()
                process.communicate()
                return
        _, complaint = process.communicate()
        if process.returncode:
            why = complaint.strip().splitlines()[-1] if complaint.strip() else self.command[0]
            raise TtsError(say("loudspeaker.failed", why=why))


def the_player() -> Player:
    """What makes speech heard on this machine. Raises MouthError where nothing can."""
    sound = _sound_library()
    if sound is not None:
        try:
            sound.query_devices(kind="output")
            return DevicePlayer(sound)
        except (ValueError, sound.PortAudioError):
            pass  # PortAudio knows no loudspeaker; the system's own command may
    for command in PLAYER_COMMANDS:
        if shutil.which(command[0]):
            return CommandPlayer(command)
    raise TtsError(say("loudspeaker.none"))


def _sound_library() -> Any:
    """The module sounddevice, or None where it or PortAudio is missing."""
    try:
        import sounddevice
    except (ImportError, OSError):
        return None
    return sounddevice


def _resample(samples: bytes, rate: int, wanted: int, channels: int) -> bytes:
    import numpy as np
    import soxr

    values = np.frombuffer(samples, "<i2").reshape(-1, channels)
    converted: bytes = soxr.resample(values, rate, wanted).astype("<i2").tobytes()
    return converted
