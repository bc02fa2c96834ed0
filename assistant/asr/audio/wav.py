"""Recordings: any WAV file in, 16 kHz mono 16-bit sound out, and back to a file."""

from __future__ import annotations

import io
import os
import wave
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO

from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_types import Sound
from boxaloud.assistant.asr.audio.riff import FLOAT, Riff, parse_riff

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

RATE = 16000
MAX_SECONDS = 600
AT_ONCE_SECONDS = 60
"""A longer recording is converted piece by piece, so that its own size takes no memory."""
PIECE_BYTES = 1 << 21
LOUDEST = 100.0
"""Full scale is 1; floating-point samples beyond this are no sound, and are cut to it."""


def read_wav(path: str | Path) -> Sound:
    """The recording at `path` as 16 kHz mono: channels are averaged, the rate converted.

    Raises:
        EarsError: no file, a folder, not a WAV file, cut off, empty, or over ten minutes.
    """
    path = Path(path)
    _check_file(path)
    try:
        with path.open("rb") as file:
            return _sound_in(file, path.name)
    except OSError as error:
        reason = error.strerror or "the disk refused"
        raise AsrError(f"{path} cannot be read: {reason}.") from error


def decode_wav(content: bytes, name: str = "the recording") -> Sound:
    """A WAV file's bytes as 16 kHz mono. Raises AsrError as `read_wav` does."""
    return _sound_in(io.BytesIO(content), name)


def _sound_in(file: BinaryIO, name: str) -> Sound:
    if not file.read(1):
        raise AsrError(f"{name} is an empty file; record it again.")
    riff = parse_riff(file, name)
    if not riff.frames:
        raise AsrError(f"{name} holds no sound; record it again.")
    seconds = riff.frames // riff.rate
    if riff.frames > MAX_SECONDS * riff.rate:
        raise AsrError(
            f"{name} lasts {seconds} seconds, more than the {MAX_SECONDS} that "
            "are heard at once; cut it into shorter recordings."
        )
    file.seek(riff.start)
    if riff.frames <= AT_ONCE_SECONDS * riff.rate:
        raw = file.read(riff.frames * riff.frame_bytes)
        return Sound(_to_pcm16(_resample(_downmix(riff, raw), riff.rate)), RATE)
    return Sound(_piece_by_piece(file, riff), RATE)


def _piece_by_piece(file: BinaryIO, riff: Riff) -> bytes:
    """The same, without ever holding the file: exactly as long as the input lasted."""
    import soxr

    stream = None
    if riff.rate != RATE:
        stream = soxr.ResampleStream(riff.rate, RATE, 1, dtype="float32", quality="HQ")
    wanted = max(1, (riff.frames * RATE + riff.rate // 2) // riff.rate) * 2
    left, made = riff.frames, bytearray()
    while left:
        count = min(left, PIECE_BYTES // riff.frame_bytes)
        left -= count
        piece = _downmix(riff, file.read(count * riff.frame_bytes))
        if stream is not None:
            piece = stream.resample_chunk(piece, last=not left)
        made += _to_pcm16(piece)
    return bytes(made[:wanted]) + bytes(max(0, wanted - len(made)))


def at_rate(sound: Sound, rate: int = RATE) -> Sound:
    """The same sound at another rate."""
    if sound.rate == rate:
        return sound
    import numpy as np

    values = np.frombuffer(sound.samples, "<i2").astype(np.float32) / np.float32(32768)
    return Sound(_to_pcm16(_resample(values, sound.rate, rate)), rate)


def write_wav(sound: Sound, path: str | Path) -> None:
    """Write a 16-bit mono WAV file.

    Raises:
        EarsError: the file cannot be written.
    """
    try:
        with open(path, "wb") as plain, wave.open(plain, "wb") as file:
            file.setnchannels(1)
            file.setsampwidth(2)
            file.setframerate(sound.rate)
            file.writeframes(sound.samples)
    except OSError as error:
        reason = error.strerror or "the disk refused"
        raise AsrError(f"{path} cannot be written: {reason}.") from error


def _check_file(path: Path) -> None:
    if os.path.isdir(path):
        raise AsrError(f"{path} is a folder, not a recording; name a WAV file in it.")
    if not os.path.exists(path):
        raise AsrError(f"There is no recording at {path}; check its name and folder.")
    if not os.path.isfile(path):
        raise AsrError(f"{path} is not a file; name a WAV recording.")


def _downmix(riff: Riff, raw: bytes) -> NDArray[np.float32]:
    """Samples from -1 to 1, all channels averaged; half a moment at the end is left out."""
    import numpy as np

    raw = raw[: len(raw) // riff.frame_bytes * riff.frame_bytes]
    if riff.coding == FLOAT:
        wide = np.frombuffer(raw, f"<f{riff.bits // 8}")
        wide = np.nan_to_num(wide, nan=0.0, posinf=LOUDEST, neginf=-LOUDEST)
        values = np.clip(wide, -LOUDEST, LOUDEST).astype(np.float32)
    elif riff.bits == 8:
        values = (np.frombuffer(raw, np.uint8).astype(np.float32) - 128) / np.float32(128)
    elif riff.bits == 24:
        padded = np.zeros((len(raw) // 3, 4), np.uint8)
        padded[:, 1:] = np.frombuffer(raw, np.uint8).reshape(-1, 3)
        values = padded.view("<i4")[:, 0].astype(np.float32) / np.float32(2**31)
    else:
        scale = np.float32(2 ** (riff.bits - 1))
        values = np.frombuffer(raw, f"<i{riff.bits // 8}").astype(np.float32) / scale
    mixed: NDArray[np.float32] = values.reshape(-1, riff.channels).mean(axis=1)
    return mixed


def _resample(values: NDArray[np.float32], rate: int, wanted: int = RATE) -> NDArray[np.float32]:
    """To another rate, exactly as long as the input lasted, to the nearest sample."""
    if rate == wanted:
        return values
    import numpy as np
    import soxr

    length = max(1, (len(values) * wanted + rate // 2) // rate)
    converted = soxr.resample(values, rate, wanted, quality="HQ")[:length]
    return np.pad(converted, (0, length - len(converted)))


def _to_pcm16(values: NDArray[np.float32]) -> bytes:
    import numpy as np

    return np.clip(np.rint(values * 32768), -32768, 32767).astype("<i2").tobytes()
