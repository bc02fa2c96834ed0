"""A statement heard by the embedded ear while it is spoken: its noise is taken away as it comes.

The engine hears whole utterances best, which takes it a tenth of a second; a denoiser takes
longer, and so must keep up with the speaker.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from boxaloud.assistant.asr.asr_types import RecognitionResult, Sound
from boxaloud.assistant.asr.audio.speech_enhancement import (
    CLEAN_SNR_DB,
    SpeechEnhancer,
    estimate_snr_db,
    mix_denoised,
    values,
)
from boxaloud.assistant.asr.streaming import PartialCallback, WholeStatement

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


class UtteranceRecogniser(Protocol):
    """An ear that takes a statement already freed of noise, and as it was."""

    def hear_statement(
        self, clean: Sound, raw: Sound, expect: str | None
    ) -> tuple[RecognitionResult, ...]:
        """What was said in it; pauses in which the speaker only thought do not part it."""
        ...


class DenoisedStream(WholeStatement):
    """One statement being listened to."""

    def __init__(
        self,
        ear: UtteranceRecogniser,
        cleaner: SpeechEnhancer,
        expect: str | None,
        tell: PartialCallback,
    ) -> None:
        super().__init__(expect, tell)
        self._ear = ear
        self._stream = cleaner.begin()
        self._clean: list[NDArray[np.float32]] = []

    def feed(self, samples: bytes) -> None:
        """More of its sound: 16 kHz mono, 16-bit."""
        super().feed(samples)
        if self._stream is not None:
            self._stream.feed(values(samples))

    def _hear(self) -> tuple[RecognitionResult, ...]:
        raw = Sound(bytes(self._samples))
        clean = self._enhanced(raw, estimate_snr_db(raw))
        return self._ear.hear_statement(clean, raw, self._expect)

    def _enhanced(self, raw: Sound, above: float) -> Sound:
        if self._stream is None:
            return raw
        import numpy as np

        self._clean.append(self._stream.finish())
        return (
            raw if above >= CLEAN_SNR_DB else mix_denoised(raw, np.concatenate(self._clean), above)
        )
