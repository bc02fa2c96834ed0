"""The container of a WAV file (RIFF, WAVE form): its format chunk and its samples.

The standard library's reader refuses floating-point and extensible files, and takes a truncated
file for a short one; a recording cut off half way must be told, not heard as less than was said.
"""

from __future__ import annotations

import io
import struct
from collections.abc import Iterator
from dataclasses import dataclass
from typing import BinaryIO

from boxaloud.assistant.asr.asr_errors import AsrError

PCM = 1
FLOAT = 3
EXTENSIBLE = 0xFFFE
#: A length that a program writing to a pipe could not know: everything to the end is meant.
UNKNOWN_LENGTH = 0x7FFFF000


@dataclass(frozen=True, slots=True)
class Riff:
    """Where the samples lie in the file, from byte `start`, and how: `bits` is a sample's width,
    `frames` counts the moments."""

    coding: int
    channels: int
    rate: int
    bits: int
    start: int
    frames: int

    @property
    def frame_bytes(self) -> int:
        """Bytes of one moment of all channels."""
        return self.channels * self.bits // 8


def parse_riff(file: BinaryIO, name: str) -> Riff:
    """Take a WAV file apart without reading its sound. `name` is what errors call it.

    Raises:
        EarsError: not a WAV file, cut off, or coded in a way that is not read here.
        OSError: the file cannot be read.
    """
    length = file.seek(0, io.SEEK_END)
    head = _read_at(file, 0, 12)
    if len(head) < 12 or head[:4] != b"RIFF" or head[8:12] != b"WAVE":
        raise AsrError(f"{name} is not a WAV recording; save or convert it as WAV and try again.")
    layout: tuple[int, int, int, int] | None = None
    for kind, declared, start in _chunks(file, length):
        if kind == b"fmt ":
            layout = _parse_format_chunk(_read_at(file, start, min(declared, 64)), name)
        elif kind == b"data":
            if layout is None:
                break
            there = min(declared, length - start)
            if there < declared < UNKNOWN_LENGTH:
                raise AsrError(
                    f"{name} is cut off: {there} of its {declared} bytes of sound are "
                    "there; copy or record it again."
                )
            _, channels, _, bits = layout
            return Riff(*layout, start, there // (channels * bits // 8))
    raise AsrError(f"{name} is cut off before its sound begins; copy or record it again.")


def _read_at(file: BinaryIO, place: int, size: int) -> bytes:
    file.seek(place)
    return file.read(size)


def _chunks(file: BinaryIO, length: int) -> Iterator[tuple[bytes, int, int]]:
    place = 12
    while place + 8 <= length:
        kind, size = struct.unpack("<4sI", _read_at(file, place, 8))
        yield kind, size, place + 8
        place += 8 + size + (size & 1)


def _parse_format_chunk(chunk: bytes, name: str) -> tuple[int, int, int, int]:
    if len(chunk) < 16:
        raise AsrError(f"{name} is cut off before its sound begins; copy or record it again.")
    coding, channels, rate, _, _, bits = struct.unpack_from("<HHIIHH", chunk)
    if coding == EXTENSIBLE and len(chunk) >= 26:
        (coding,) = struct.unpack_from("<H", chunk, 24)
    readable = {PCM: (8, 16, 24, 32), FLOAT: (32, 64)}
    if bits not in readable.get(coding, ()):
        raise AsrError(
            f"{name} is a WAV of a kind that is not read here; save it as plain 16-bit WAV."
        )
    if not 1 <= channels <= 64 or not 4000 <= rate <= 384_000:
        raise AsrError(
            f"{name} says it has {channels} channels at {rate} samples a second, which no "
            "recorder makes; record it again."
        )
    return coding, channels, rate, bits
