"""The microphone without one: a sound library made here, and what is said where one is missing."""

from __future__ import annotations

import builtins
import importlib.util
import subprocess
import sys
from types import ModuleType, SimpleNamespace
from typing import Any

import pytest
from boxaloud.assistant.asr import AsrError
from boxaloud.assistant.asr.audio import microphone as module
from boxaloud.assistant.asr.audio.audio_devices import FRAME_BYTES
from boxaloud.assistant.asr.audio.microphone import Microphone


class Library(ModuleType):
    """As much of the sound library as is used. Blocks are given as soon as it is started."""

    class PortAudioError(Exception):
        pass

    def __init__(self, blocks: list[bytes], rate: int = 16000) -> None:
        super().__init__("sounddevice")
        self.blocks = blocks
        self.rate = rate
        self.opened: dict[str, Any] = {}
        self.closed = False

    def query_devices(self, name: str | None, kind: str) -> dict[str, Any]:
        if name == "nobody":
            raise ValueError("No input device matching 'nobody'")
        return {"index": 3, "name": name or "built in", "default_samplerate": float(self.rate)}

    def check_input_settings(self, samplerate: int, **_: object) -> None:
        if samplerate != self.rate:
            raise self.PortAudioError("Invalid sample rate [PaErrorCode -9997]")

    def RawInputStream(self, callback: Any, **settings: Any) -> Any:
        self.opened = settings
        return SimpleNamespace(start=lambda: self.give(callback), abort=self.end, close=self.end)

    def give(self, callback: Any) -> None:
        for number, block in enumerate(self.blocks):
            callback(block, len(block) // 2, SimpleNamespace(currentTime=float(number)), None)

    def end(self, ignore_errors: bool) -> None:
        self.closed = ignore_errors


def opened(library: Library, monkeypatch: pytest.MonkeyPatch, name: str = "") -> Microphone:
    monkeypatch.setitem(sys.modules, "sounddevice", library)
    monkeypatch.setattr(module, "PATIENCE_SECONDS", 0.05)
    return Microphone(name)


def heard(microphone: Microphone) -> tuple[bytes, list[float], str]:
    """All frames until the stream dries up, their times, and what was said of it then."""
    samples, times, why = b"", [], ""
    try:
        for frame in microphone.frames():
            assert len(frame.samples) == FRAME_BYTES
            samples += frame.samples
            times.append(frame.now)
    except AsrError as trouble:
        why = str(trouble)
    return samples, times, why


def test_frames_come_as_given_with_the_devices_clock(monkeypatch: pytest.MonkeyPatch) -> None:
    blocks = [bytes([number]) * FRAME_BYTES for number in range(5)]
    library = Library(blocks)
    samples, times, why = heard(opened(library, monkeypatch))
    assert samples == b"".join(blocks)
    assert times == [0.0, 1.0, 2.0, 3.0, 4.0]
    assert "microphone stopped giving sound" in why
    assert library.opened["device"] == 3


def test_blocks_of_any_size_become_frames(monkeypatch: pytest.MonkeyPatch) -> None:
    samples, _, _ = heard(opened(Library([b"ab" * 500, b"cd" * 500]), monkeypatch))
    assert samples == (b"ab" * 500 + b"cd" * 500)[: 3 * FRAME_BYTES]


def test_a_device_of_another_rate_is_converted(monkeypatch: pytest.MonkeyPatch) -> None:
    library = Library([bytes(1920)] * 100, rate=48000)
    samples, _, _ = heard(opened(library, monkeypatch))
    assert library.opened["samplerate"] == 48000
    assert library.opened["blocksize"] == 960
    assert len(samples) == pytest.approx(100 * FRAME_BYTES, abs=2 * FRAME_BYTES)


def test_a_closed_microphone_gives_no_more(monkeypatch: pytest.MonkeyPatch) -> None:
    library = Library([bytes(FRAME_BYTES)] * 5)
    microphone = opened(library, monkeypatch)
    frames = microphone.frames()
    next(frames)
    microphone.close()
    assert list(frames) == []
    assert library.closed


def test_no_microphone_is_one_sentence_with_its_mend(monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(AsrError, match="plug one in"):
        opened(Library([]), monkeypatch, "nobody")


def test_one_that_is_taken_is_named_with_the_reason(monkeypatch: pytest.MonkeyPatch) -> None:
    library = Library([])

    def refuse(**_: object) -> None:
        raise library.PortAudioError("Device unavailable [PaErrorCode -9985]")

    monkeypatch.setattr(library, "RawInputStream", refuse)
    with pytest.raises(AsrError, match=r"“built in” cannot be opened \(Device unavailable\)"):
        opened(library, monkeypatch)


@pytest.mark.parametrize(
    ("fault", "system", "mend"),
    [
        (ImportError("no module"), "linux", "pip install sounddevice"),
        (OSError("PortAudio library not found"), "linux", "sudo apt install libportaudio2"),
        (OSError("PortAudio library not found"), "darwin", "--force-reinstall sounddevice"),
    ],
    ids=["no library", "no PortAudio on Linux", "no PortAudio elsewhere"],
)
def test_what_is_missing_is_one_sentence_with_the_command_that_mends_it(
    fault: Exception, system: str, mend: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = builtins.__import__

    def without(name: str, *rest: Any) -> Any:
        if name == "sounddevice":
            raise fault
        return real(name, *rest)

    monkeypatch.delitem(sys.modules, "sounddevice", raising=False)
    monkeypatch.setattr(builtins, "__import__", without)
    monkeypatch.setattr(sys, "platform", system)
    with pytest.raises(AsrError, match=mend) as trouble:
        module.sound_library()
    assert len(str(trouble.value).splitlines()) == 1


def test_the_sound_library_is_imported_only_when_a_microphone_is_opened() -> None:
    code = (
        "import sys\n"
        "from boxaloud.assistant.cli.commands import doctor_command, talk_command\n"
        "print('sounddevice' in sys.modules)"
    )
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert out.stdout.strip() == "False"


def test_the_real_library_without_a_microphone_says_what_to_do() -> None:
    if importlib.util.find_spec("sounddevice") is None:
        pytest.skip("sounddevice is not installed")
    try:
        library = module.sound_library()
        library.query_devices(kind="input")
    except AsrError as trouble:
        pytest.skip(f"PortAudio is not installed: {trouble}")
    except (ValueError, library.PortAudioError):
        with pytest.raises(AsrError, match="No microphone was found"):
            Microphone()
        return
    pytest.skip("this machine has a microphone")
