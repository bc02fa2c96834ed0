"""Any WAV file becomes 16 kHz mono; any other file becomes one plain sentence."""

from __future__ import annotations

import os
import struct
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_types import Sound
from boxaloud.assistant.asr.audio import wav
from boxaloud.assistant.asr.audio.wav import at_rate, decode_wav, read_wav, write_wav
from hypothesis import given, settings
from hypothesis import strategies as st
from recordings import samples_of

LAYOUTS = {
    "u8": (1, 8),
    "s16": (1, 16),
    "s24": (1, 24),
    "s32": (1, 32),
    "f32": (3, 32),
    "f64": (3, 64),
}


def coded(values: np.ndarray, layout: str) -> bytes:
    coding, bits = LAYOUTS[layout]
    if coding == 3:
        return bytes(values.astype(f"<f{bits // 8}").tobytes())
    if bits == 8:
        return bytes(np.rint(values * 127 + 128).astype(np.uint8).tobytes())
    whole = np.rint(values * (2 ** (bits - 1) - 1)).astype("<i8")
    return bytes(whole.view(np.uint8).reshape(-1, 8)[:, : bits // 8].tobytes())


def wav_file(
    values: np.ndarray, rate: int = 16000, layout: str = "s16", extensible: bool = False
) -> bytes:
    """A WAV file of our own making: `values` is frames by channels, from -1 to 1."""
    frames = values[:, None] if values.ndim == 1 else values
    coding, bits = LAYOUTS[layout]
    width = frames.shape[1] * bits // 8
    format_chunk = struct.pack(
        "<HHIIHH",
        0xFFFE if extensible else coding,
        frames.shape[1],
        rate,
        rate * width,
        width,
        bits,
    )
    if extensible:
        format_chunk += struct.pack("<HHIH", 22, bits, 0, coding) + bytes(14)
    data = coded(frames.reshape(-1), layout)
    note = b"LIST" + struct.pack("<I", 3) + b"abc\0"  # an odd chunk is padded to even
    body = b"WAVEfmt " + struct.pack("<I", len(format_chunk)) + format_chunk + note
    body += b"data" + struct.pack("<I", len(data)) + data
    return b"RIFF" + struct.pack("<I", len(body)) + body


def tone(rate: int, seconds: float = 1.0, hertz: float = 440.0) -> np.ndarray:
    return 0.5 * np.sin(2 * np.pi * hertz * np.arange(round(rate * seconds)) / rate)


@settings(max_examples=60, deadline=None)
@given(
    rate=st.integers(4000, 192_000),
    channels=st.integers(1, 8),
    layout=st.sampled_from(sorted(LAYOUTS)),
    extensible=st.booleans(),
    milliseconds=st.integers(10, 300),
)
def test_rate_channels_and_coding_do_not_change_how_long_it_lasts(
    rate: int, channels: int, layout: str, extensible: bool, milliseconds: int
) -> None:
    values = tone(rate, milliseconds / 1000)
    file = wav_file(np.repeat(values[:, None], channels, axis=1), rate, layout, extensible)
    sound = decode_wav(file)
    assert sound.rate == 16000
    assert len(sound.samples) == 2 * max(1, (len(values) * 16000 + rate // 2) // rate)


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("channels", [1, 2, 6])
@pytest.mark.parametrize("rate", [8000, 11025, 22050, 44100, 48000, 96000])
def test_what_is_heard_is_the_same_whatever_the_coding(
    rate: int, channels: int, layout: str
) -> None:
    file = wav_file(np.repeat(tone(rate)[:, None], channels, axis=1), rate, layout)
    heard = samples_of(decode_wav(file))[800:-800]
    expected = tone(16000)[800:-800]
    assert np.abs(heard - expected).max() < (0.02 if layout == "u8" else 0.005)


def test_what_is_too_high_for_16_khz_is_filtered_and_not_folded_down() -> None:
    heard = samples_of(decode_wav(wav_file(tone(48000, hertz=11_000), 48000)))
    assert np.sqrt((heard[800:-800] ** 2).mean()) < 0.001


def test_two_channels_are_averaged() -> None:
    left = tone(16000)
    heard = samples_of(decode_wav(wav_file(np.stack([left, np.zeros_like(left)], axis=1))))
    assert np.abs(heard - left / 2).max() < 0.001


@pytest.mark.parametrize("length", [0xFFFFFFFF, 0x7FFFF000])
def test_a_length_that_a_pipe_could_not_know_means_everything(length: int) -> None:
    file = wav_file(tone(16000))
    at = file.index(b"data") + 4
    streamed = file[:at] + struct.pack("<I", length) + file[at + 4 :]
    assert decode_wav(streamed) == decode_wav(file)


def test_values_that_are_no_numbers_and_beyond_full_scale_are_contained() -> None:
    wild = np.array([np.nan, np.inf, -np.inf, 7.0, -7.0, 0.0])
    assert samples_of(decode_wav(wav_file(wild, layout="f32"))).tolist() == pytest.approx(
        [0, 1, -1, 1, -1, 0], abs=0.001
    )


GOOD = wav_file(tone(16000))


def retold(coding: int = 1, channels: int = 1, rate: int = 16000) -> bytes:
    """The good file with something else in its format chunk."""
    return GOOD.replace(
        struct.pack("<HHI", 1, 1, 16000), struct.pack("<HHI", coding, channels, rate)
    )


SOUND_FIRST = b"RIFF\0\0\0\0WAVEdata\4\0\0\0abcdfmt "
BAD = {
    "empty": (b"", "empty file"),
    "text": (b"two 14-2 cables\n" * 9, "not a WAV recording"),
    "another container": (b"fLaC" + bytes(99), "not a WAV recording"),
    "cut off in the name": (GOOD[:7], "not a WAV recording"),
    "cut off in the format": (GOOD[:30], "cut off before its sound begins"),
    "cut off before the sound": (GOOD[: GOOD.index(b"data")], "cut off before its sound begins"),
    "cut off in the sound": (GOOD[:-4000], "is cut off: 28000 of its 32000 bytes"),
    "no sound": (wav_file(np.zeros(0)), "holds no sound"),
    "compressed": (retold(coding=85), "of a kind that is not read"),
    "no channels": (retold(channels=0), "0 channels"),
    "no rate": (retold(rate=0), "0 samples a second"),
    "the sound before its format": (SOUND_FIRST, "cut off before its sound begins"),
    "eleven minutes": (wav_file(np.zeros(4000 * 660), 4000, "u8"), "660 seconds"),
}


def is_one_plain_sentence(text: str) -> bool:
    return text.endswith(".") and "\n" not in text and ". " not in text and "Error" not in text


@pytest.mark.parametrize("name", BAD)
def test_a_file_that_cannot_be_heard_gets_one_plain_sentence(name: str, tmp_path: Path) -> None:
    content, expected = BAD[name]
    path = tmp_path / "site.wav"
    path.write_bytes(content)
    with pytest.raises(AsrError, match=expected) as caught:
        read_wav(path)
    assert "site.wav" in str(caught.value)
    assert is_one_plain_sentence(str(caught.value))


def test_a_missing_file_and_a_folder_are_told_apart(tmp_path: Path) -> None:
    with pytest.raises(AsrError, match="no recording at") as missing:
        read_wav(tmp_path / "none.wav")
    with pytest.raises(AsrError, match="is a folder") as folder:
        read_wav(tmp_path)
    assert is_one_plain_sentence(str(missing.value))
    assert is_one_plain_sentence(str(folder.value))


def test_a_pipe_is_refused_rather_than_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.wav")
    with pytest.raises(AsrError, match="is not a file"):
        read_wav(tmp_path / "pipe.wav")


def sparse(path: Path, seconds: int, rate: int = 48000) -> Path:
    """A stereo recording of silence in 32 bits that takes no room on the disk."""
    size = seconds * rate * 8
    layout = struct.pack("<HHIIHH", 1, 2, rate, rate * 8, 8, 32)
    with path.open("wb") as file:
        file.write(b"RIFF" + struct.pack("<I", size + 36) + b"WAVEfmt " + struct.pack("<I", 16))
        file.write(layout + b"data" + struct.pack("<I", size))
        file.truncate(44 + size)
    return path


def test_a_recording_over_ten_minutes_is_refused_before_it_is_read(tmp_path: Path) -> None:
    path = sparse(tmp_path / "long.wav", 11_000)  # 4.2 GB
    with pytest.raises(AsrError, match="lasts 11000 seconds, more than the 600"):
        read_wav(path)


# the kernel's own count of this program: what `getrusage` gives has that of whoever started it
PEAK = """
import sys
from boxaloud.assistant.asr.audio.wav import read_wav
sound = read_wav(sys.argv[1])
lines = open("/proc/self/status").read().splitlines()
(peak,) = [line.split()[1] for line in lines if line.startswith("VmHWM")]
print(round(sound.seconds), int(peak) // 1024)
"""


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="measures as Linux counts")
def test_a_long_recording_is_never_held_whole(tmp_path: Path) -> None:
    path = sparse(tmp_path / "long.wav", 590)
    assert path.stat().st_size > 220_000_000
    done = subprocess.run([sys.executable, "-c", PEAK, path], capture_output=True, check=True)
    seconds, megabytes = map(int, done.stdout.split())
    assert seconds == 590
    assert megabytes < 180


@pytest.mark.parametrize("rate", [16000, 44100, 8000])
def test_piece_by_piece_is_the_same_sound(rate: int, monkeypatch: pytest.MonkeyPatch) -> None:
    time = np.arange(rate * 3) / rate
    file = wav_file(0.5 * np.sin(2 * np.pi * 440 * time), rate)
    whole = decode_wav(file)
    monkeypatch.setattr(wav, "AT_ONCE_SECONDS", 0)
    monkeypatch.setattr(wav, "PIECE_BYTES", 9000)
    pieces = decode_wav(file)
    assert len(pieces.samples) == len(whole.samples)
    apart = np.frombuffer(pieces.samples, "<i2").astype(int) - np.frombuffer(whole.samples, "<i2")
    assert np.abs(apart).max() <= 1


@settings(max_examples=200, deadline=None)
@given(cut=st.integers(0, len(GOOD)), at=st.integers(0, 60), value=st.integers(0, 255))
def test_a_damaged_file_is_heard_or_refused_and_never_breaks(cut: int, at: int, value: int) -> None:
    damaged = bytearray(GOOD[:cut])
    if at < len(damaged):
        damaged[at] = value
    refusal = ""
    try:
        decode_wav(bytes(damaged))
    except AsrError as error:
        refusal = str(error)
    assert not refusal or is_one_plain_sentence(refusal)


def test_a_sound_written_is_read_back_the_same(tmp_path: Path) -> None:
    sound = decode_wav(GOOD)
    write_wav(sound, tmp_path / "copy.wav")
    assert read_wav(tmp_path / "copy.wav") == sound
    with pytest.raises(AsrError, match="cannot be written"):
        write_wav(sound, tmp_path / "no such folder" / "copy.wav")


def test_another_rate_lasts_as_long() -> None:
    sound = Sound(decode_wav(GOOD).samples, 16000)
    assert at_rate(at_rate(sound, 48000), 16000).seconds == sound.seconds
    assert at_rate(sound) is sound
