"""The write-ahead log beside a job's file, read as its published form says, to see what is lost.

The engine plays a log up to the first frame that is not what was written, and is silent about
those after it: statements that were acknowledged would be gone without a word. A frame belongs
to the log if it carries the two salts of the log's head; those of an earlier round do not.

Form: SQLite, "Database File Format", section 4, the write-ahead log.
"""

from __future__ import annotations

import contextlib
import struct
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

HEAD, FRAME_HEAD = 32, 24
LITTLE, BIG = 0x377F0682, 0x377F0683
LOOKS, BETWEEN_SECONDS = 4, 0.02
"""A log that is just being written ends in the middle of a frame, for a moment."""


@dataclass(frozen=True, slots=True)
class Frame:
    """One page as the log has it. `sound`: the engine plays it; `pages`: of a commit, the size
    of the file after it, else 0."""

    page: int
    pages: int
    content: bytes
    sound: bool


def log_of(path: Path) -> Path:
    """The file beside a job's that its last rows are in while it is open."""
    return path.with_name(path.name + "-wal")


def unplayed(path: Path) -> int:
    """How many whole frames of a job's log belong to it and are not played."""
    before = -1
    for _ in range(LOOKS):
        count = sum(not frame.sound for frame in frames_of(path))
        if not count or count == before:
            return count
        before = count
        time.sleep(BETWEEN_SECONDS)
    return before


def frames_of(path: Path) -> list[Frame]:
    """The frames of a job's log that belong to it; none where there is no log."""
    raw = b""
    with contextlib.suppress(OSError):
        raw = log_of(path).read_bytes()
    return list(_frames(raw)) if len(raw) >= HEAD + FRAME_HEAD else []


def _frames(raw: bytes) -> Iterator[Frame]:
    magic, _, size, _, one, two, *sums = struct.unpack_from(">8I", raw)
    order = ">" if magic == BIG else "<"
    sum_ = _sums(raw[:24], (0, 0), order)
    sound = magic in (LITTLE, BIG) and list(sum_) == sums
    if not sound:
        one, two = struct.unpack_from(">2I", raw, HEAD + 8)
    if size < 512 or size & (size - 1) or size > 65536:
        size = 4096
    for at in range(HEAD, len(raw) - FRAME_HEAD - size + 1, FRAME_HEAD + size):
        page, pages, first, second, *sums = struct.unpack_from(">6I", raw, at)
        if ((first ^ one).bit_count() + (second ^ two).bit_count()) > 1:
            return  # of an earlier round; one bit that differs is a flipped bit
        content = raw[at + FRAME_HEAD : at + FRAME_HEAD + size]
        if sound:
            sum_ = _sums(content, _sums(raw[at : at + 8], sum_, order), order)
            sound = list(sum_) == sums and (first, second) == (one, two)
        yield Frame(page, pages, content, sound)


def _sums(raw: bytes, sums: tuple[int, int], order: str) -> tuple[int, int]:
    """The running sums of the form over some bytes, two words at a time."""
    a, b = sums
    for x, y in struct.iter_unpack(f"{order}2I", raw):
        a = (a + x + b) & 0xFFFFFFFF
        b = (b + y + a) & 0xFFFFFFFF
    return a, b


def played(content: bytes, frames: list[Frame]) -> bytes:
    """A file's bytes with frames put in, in their order."""
    if not frames:
        return content
    size = len(frames[0].content)
    whole = bytearray(content)
    for frame in frames:
        if 0 < frame.page <= len(whole) // size + len(frames):
            at = (frame.page - 1) * size
            whole.extend(bytes(max(0, at + size - len(whole))))
            whole[at : at + size] = frame.content
    return bytes(whole)


def committed(frames: list[Frame]) -> list[Frame]:
    """The frames that the engine plays: sound ones, up to the last commit."""
    kept = [frame for frame in frames if frame.sound]
    while kept and not kept[-1].pages:
        kept.pop()
    return kept
