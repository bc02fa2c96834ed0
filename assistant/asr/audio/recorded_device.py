"""Recordings that stand in for a microphone: the whole way of a live talk, without hardware."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from boxaloud.assistant.asr.asr_types import Sound
from boxaloud.assistant.asr.audio.audio_devices import (
    FRAME_BYTES,
    FRAME_SECONDS,
    SAMPLE_RATE,
    AudioFrame,
)
from boxaloud.assistant.asr.audio.wav import at_rate

#: Quiet after each recording: longer than any wait for the rest of a statement.
TRAILING_SILENCE_SECONDS = 2.0


class RecordedDevice:
    """Gives recordings as frames, with quiet after each; its clock runs with the sound.

    `before_each` is called when a recording begins: who speaks into it presses the key there.
    `hold` is called before every frame: whoever speaks waits for the voice to finish.
    """

    def __init__(
        self,
        sounds: Sequence[Sound],
        before_each: Callable[[], None] = lambda: None,
        hold: Callable[[], object] = lambda: None,
    ) -> None:
        self._sounds = sounds
        self._before_each = before_each
        self._hold = hold
        self._open = True

    def frames(self) -> Iterator[AudioFrame]:
        """The frames of all recordings in order."""
        now = 0.0
        for sound in self._sounds:
            self._hold()
            self._before_each()
            for samples in _split_frames(at_rate(sound, SAMPLE_RATE).samples):
                self._hold()
                if not self._open:
                    return
                now += FRAME_SECONDS
                yield AudioFrame(samples, now)

    def close(self) -> None:
        """End it."""
        self._open = False


def _split_frames(samples: bytes) -> Iterator[bytes]:
    """Whole frames of the samples and of the quiet after them."""
    samples += bytes(int(TRAILING_SILENCE_SECONDS * SAMPLE_RATE) * 2)
    for start in range(0, len(samples) - FRAME_BYTES + 1, FRAME_BYTES):
        yield samples[start : start + FRAME_BYTES]
