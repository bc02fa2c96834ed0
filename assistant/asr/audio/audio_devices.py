"""What the ears listen to: a stream of frames, each with the time it came."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple, Protocol

SAMPLE_RATE = 16000
FRAME_SECONDS = 0.02
#: Samples and bytes of a frame: mono, 16-bit signed little-endian.
FRAME_SAMPLES = int(SAMPLE_RATE * FRAME_SECONDS)
FRAME_BYTES = FRAME_SAMPLES * 2


class AudioFrame(NamedTuple):
    """20 ms of sound, and when it ended, in seconds of any clock that runs steadily."""

    samples: bytes
    now: float


class AudioDevice(Protocol):
    """A microphone, or what stands in for one."""

    def frames(self) -> Iterator[AudioFrame]:
        """Frames as they come, until the device ends or is closed. Raises EarsError."""
        ...

    def close(self) -> None:
        """Let go of it."""
        ...
