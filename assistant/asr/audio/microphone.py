"""The microphone, through PortAudio. The sound library is imported here, when it is opened.

Whatever is missing is said in one sentence with the one thing that mends it (`AsrError`).
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from queue import Empty, SimpleQueue
from typing import Any

from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_messages import say
from boxaloud.assistant.asr.audio.audio_devices import (
    FRAME_BYTES,
    FRAME_SAMPLES,
    SAMPLE_RATE,
    AudioFrame,
)

#: A stream that gives nothing for so long is gone.
PATIENCE_SECONDS = 3.0


class Microphone:
    """The system's microphone, or the one whose name holds `name`. Open until closed.

    Raises EarsError where there is none, or where it cannot be opened.
    """

    def __init__(self, name: str = "") -> None:
        self._library = sound_library()
        self._blocks: SimpleQueue[tuple[bytes, float]] = SimpleQueue()
        self._open = True
        self._rate = SAMPLE_RATE
        self._stream = self._open_stream(name)

    def frames(self) -> Iterator[AudioFrame]:
        """20 ms frames as they come. Raises EarsError where they stop coming."""
        kept = bytearray()
        converter = _Resampler(self._rate)
        while self._open:
            try:
                samples, now = self._blocks.get(timeout=PATIENCE_SECONDS)
            except Empty:
                raise AsrError(say("microphone.stopped")) from None
            kept += converter(samples)
            while len(kept) >= FRAME_BYTES:
                yield AudioFrame(bytes(kept[:FRAME_BYTES]), now)
                del kept[:FRAME_BYTES]

    def close(self) -> None:
        """Close the device."""
        self._open = False
        self._stream.abort(ignore_errors=True)
        self._stream.close(ignore_errors=True)

    def _open_stream(self, name: str) -> Any:
        device = _device(self._library, name)
        self._rate = SAMPLE_RATE
        try:
            self._library.check_input_settings(
                device=device["index"], channels=1, dtype="int16", samplerate=SAMPLE_RATE
            )
        except self._library.PortAudioError:
            self._rate = int(device["default_samplerate"])
        try:
            stream = self._library.RawInputStream(
                samplerate=self._rate,
                blocksize=FRAME_SAMPLES * self._rate // SAMPLE_RATE,
                device=device["index"],
                channels=1,
                dtype="int16",
                latency="low",
                callback=self._on_block,
            )
            stream.start()
        except self._library.PortAudioError as error:
            raise AsrError(
                say("microphone.refused", name=device["name"], why=_short(error))
            ) from error
        return stream

    def _on_block(self, samples: Any, frames: int, time: Any, status: Any) -> None:
        """Called by PortAudio, in a thread of its own, for every block."""
        self._blocks.put((bytes(samples), float(time.currentTime)))


class _Resampler:
    """Any rate to 16 kHz, block by block without seams."""

    def __init__(self, rate: int) -> None:
        self._stream: Any = None
        if rate != SAMPLE_RATE:
            import soxr

            self._stream = soxr.ResampleStream(rate, SAMPLE_RATE, 1, dtype="int16")

    def __call__(self, samples: bytes) -> bytes:
        if self._stream is None:
            return samples
        import numpy as np

        converted: bytes = self._stream.resample_chunk(np.frombuffer(samples, "<i2")).tobytes()
        return converted


def sound_library() -> Any:
    """The module sounddevice. Raises EarsError with what mends its absence."""
    try:
        import sounddevice
    except ImportError as error:
        raise AsrError(say("microphone.no_library")) from error
    except OSError as error:
        system = "linux" if sys.platform.startswith("linux") else "other"
        raise AsrError(say(f"microphone.no_portaudio_{system}")) from error
    return sounddevice


def microphone_name(name: str = "") -> str:
    """What the system calls the microphone that would be used. Raises EarsError."""
    return str(_device(sound_library(), name)["name"])


def _device(library: Any, name: str) -> Any:
    try:
        return library.query_devices(name or None, kind="input")
    except (ValueError, library.PortAudioError) as error:
        raise AsrError(say("microphone.none")) from error


def _short(error: Exception) -> str:
    """PortAudio's reason without its number."""
    return str(error.args[0]).split(" [")[0] if error.args else "no reason given"
