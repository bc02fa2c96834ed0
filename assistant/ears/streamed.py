"""A statement heard by the embedded ear while it is spoken: its noise is taken away as it comes.

The engine hears whole utterances best, which takes it a tenth of a second; a denoiser takes
longer, and so must keep up with the speaker.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from assistant.ears.attention import Tell
from assistant.ears.hearing import Hearing, Sound
from assistant.ears.noise import QUIET_DB, Cleaner, above_noise, lessened, parted, values

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy as np
    from numpy.typing import NDArray


class PartsEar(Protocol):
    """An ear that takes sound already parted and freed of noise."""

    def hear_parts(
        self, utterances: Sequence[Sound], raw: Sound, expect: str | None
    ) -> tuple[Hearing, ...]:
        """What was heard in each of the utterances."""
        ...


class Streamed:
    """One statement being listened to."""

    def __init__(self, ear: PartsEar, cleaner: Cleaner, expect: str | None, tell: Tell) -> None:
        self._ear = ear
        self._expect = expect
        self._tell = tell
        self._stream = cleaner.begin()
        self._samples = bytearray()
        self._clean: list[NDArray[np.float32]] = []
        self._heard: tuple[Hearing, ...] | None = None

    def feed(self, samples: bytes) -> None:
        """More of its sound: 16 kHz mono, 16-bit."""
        self._samples += samples
        if self._stream is not None:
            self._stream.feed(values(samples))

    def lull(self) -> None:
        """Silence began: what was said so far is heard, for it may be all."""
        raw = Sound(bytes(self._samples))
        above = above_noise(raw)
        pieces = parted(self._cleaned(raw, above), above)
        self._heard = self._ear.hear_parts(_joined(pieces), raw, self._expect)

    def resume(self) -> None:
        """Speech goes on, so that was not all."""
        self._heard = None

    def so_far(self) -> str:
        """The words heard so far."""
        words = " ".join(word.text for hearing in self.finish() for word in hearing.words)
        if words:
            self._tell(words)
        return words

    def finish(self) -> tuple[Hearing, ...]:
        """What was heard in the whole of it."""
        if self._heard is None:
            self.lull()
        return self._heard or ()

    def _cleaned(self, raw: Sound, above: float) -> Sound:
        import numpy as np

        if self._stream is None:
            return raw
        self._clean.append(self._stream.finish())
        return raw if above >= QUIET_DB else lessened(raw, np.concatenate(self._clean), above)


def _joined(pieces: Sequence[Sound]) -> tuple[Sound, ...]:
    """One utterance: pauses in which the speaker only thought do not part it."""
    return (Sound(b"".join(piece.samples for piece in pieces)),) if pieces else ()
