"""Players without a loudspeaker: a command and a sound library that stand in for real ones."""

from __future__ import annotations

import shutil
import sys
import wave
from pathlib import Path
from threading import Event, Thread
from types import SimpleNamespace
from typing import Any

import pytest
from boxaloud.assistant.tts import Speech, TtsError
from boxaloud.assistant.tts import audio_playback as module
from boxaloud.assistant.tts.audio_playback import CommandPlayer, DevicePlayer, the_player

RATE = 22050


@pytest.fixture
def speech(tmp_path: Path) -> Speech:
    path = tmp_path / "said.wav"
    with wave.open(str(path), "wb") as file:
        file.setparams((1, 2, RATE, 0, "NONE", ""))
        file.writeframes(bytes(range(250)) * 177)
    return Speech("said", path)


def player_of(code: str) -> CommandPlayer:
    return CommandPlayer((sys.executable, "-c", code))


def test_a_command_plays_the_file_to_its_end(speech: Speech, tmp_path: Path) -> None:
    code = f"import sys; open({str(tmp_path / 'got')!r}, 'w').write(sys.argv[1])"
    player_of(code).play(speech, Event())
    assert (tmp_path / "got").read_text() == str(speech.path)


def test_a_command_is_ended_when_it_is_stopped(speech: Speech) -> None:
    stopped = Event()
    playing = Thread(target=player_of("import time; time.sleep(60)").play, args=(speech, stopped))
    playing.start()
    stopped.set()
    playing.join(timeout=20)
    assert not playing.is_alive()


def test_what_a_command_complains_of_is_in_the_sentence(speech: Speech) -> None:
    with pytest.raises(TtsError, match="no such device"):
        player_of("import sys; sys.exit('no such device')").play(speech, Event())


class Library:
    """As much of the sound library as is used, into memory."""

    class PortAudioError(Exception):
        pass

    def __init__(self, stop_after: int = 10**9, rates: tuple[int, ...] = (RATE,)) -> None:
        self.played = bytearray()
        self.rate = 0
        self.aborted = False
        self.stopped = Event()
        self.stop_after = stop_after
        self.rates = rates

    def query_devices(self, kind: str) -> dict[str, Any]:
        return {"default_samplerate": float(self.rates[0]), "name": "memory", "kind": kind}

    def check_output_settings(self, samplerate: int, **_: object) -> None:
        if samplerate not in self.rates:
            raise self.PortAudioError("Invalid sample rate [PaErrorCode -9997]")

    def RawOutputStream(self, samplerate: int, **_: object) -> Library:
        self.rate = samplerate
        return self

    def __enter__(self) -> Library:
        return self

    def __exit__(self, *_: object) -> None:
        return

    def write(self, samples: bytes) -> None:
        self.played += samples
        if len(self.played) >= self.stop_after:
            self.stopped.set()

    def abort(self) -> None:
        self.aborted = True


def test_the_device_is_given_every_sample(speech: Speech) -> None:
    library = Library()
    DevicePlayer(library).play(speech, library.stopped)
    assert bytes(library.played) == bytes(range(250)) * 177
    assert not library.aborted


def test_the_device_is_stopped_within_a_block(speech: Speech) -> None:
    library = Library(stop_after=5000)
    DevicePlayer(library).play(speech, library.stopped)
    block = int(module.BLOCK_SECONDS * RATE) * 2
    assert library.aborted
    assert len(library.played) < 5000 + block


def test_a_device_of_another_rate_is_given_that_rate(speech: Speech) -> None:
    library = Library(rates=(48000,))
    DevicePlayer(library).play(speech, Event())
    assert library.rate == 48000
    assert len(library.played) == pytest.approx(250 * 177 * 48000 / RATE, rel=0.001)


def test_no_loudspeaker_and_no_command_is_one_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "_sound_library", lambda: None)
    monkeypatch.setattr(shutil, "which", lambda _: None)
    with pytest.raises(TtsError, match="plug one in"):
        the_player()


def test_a_portaudio_without_loudspeaker_gives_way_to_a_command(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    class Deaf(Library):
        def query_devices(self, kind: str) -> dict[str, Any]:
            raise self.PortAudioError("Error querying device -1")

    monkeypatch.setattr(module, "_sound_library", Deaf)
    monkeypatch.setattr(module, "shutil", SimpleNamespace(which=lambda name: name == "aplay"))
    player = the_player()
    assert isinstance(player, CommandPlayer)
    assert player.command[0] == "aplay"
