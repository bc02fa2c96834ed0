"""The learnt ear on a phone: the decoder and the decision of the laptop's, and a network that the
page works in a runtime of its own.

What was said comes in; which stretches the network is to hear goes out; what letters it heard in
each comes in; and words with their doubts go on to the engine.
"""

from __future__ import annotations

import io
import zipfile
from array import array
from collections.abc import Sequence

from boxaloud.assistant.asr.asr_types import Sound
from boxaloud.assistant.asr.audio.speech_spans import Span, speech_spans
from boxaloud.assistant.asr.engines.ctc.alphabet import ALPHABET, STRIDE_SAMPLES
from boxaloud.assistant.asr.engines.ctc.ctc_recogniser import (
    MAX_SEGMENT_SECONDS,
    CtcRecogniser,
    samples_heard,
)
from boxaloud.assistant.asr.engines.ctc.prefix_beam_search import Letters
from boxaloud.assistant.asr.lm.given_models import GivenModels
from boxaloud.assistant.asr.streaming import RecognitionStream
from boxaloud.grammar import vocabulary

OUTPUTS = 1 + len(ALPHABET)


class _HandedLetters:
    """The network: what it heard in each stretch is handed in before it is asked for."""

    name = "letters"

    def __init__(self) -> None:
        self.held: dict[Span, Letters] = {}

    def letters(self, sound: Sound, span: Span) -> Letters:
        """What was handed in for the stretch."""
        return self.held[span]


class PocketEar:
    """The ear, and the sound that it is at."""

    def __init__(self, models: bytes) -> None:
        """`models` is an archive of language models, as `ear_files.language_archive` makes it."""
        language = GivenModels(zipfile.Path(io.BytesIO(models)), vocabulary())
        self._network = _HandedLetters()
        self._ear = CtcRecogniser(self._network, language)
        self._ear.prepare()
        self._sound = Sound(b"")
        self._spans: list[Span] = []

    def listen(self, samples: bytes) -> list[tuple[int, int]]:
        """The stretches of 16 kHz mono 16-bit sound that the network is to hear, in samples from
        its begin. They may lie before it and behind its end, where it is silent."""
        self._sound = Sound(samples[: len(samples) // 2 * 2])
        self._spans = speech_spans(self._sound, MAX_SEGMENT_SECONDS)
        heard = (samples_heard(span) for span in self._spans)
        return [(at, at + (end - at) // STRIDE_SAMPLES * STRIDE_SAMPLES) for at, end in heard]

    def attend(self, letters: Sequence[bytes], expect: str | None) -> RecognitionStream:
        """The statement in that sound, by the letters of each stretch: 32-bit numbers, places by
        letters. `expect` is the open question."""
        self._network.held = dict(zip(self._spans, map(_rows, letters), strict=True))
        stream = self._ear.attend(expect, lambda words: None)
        stream.feed(self._sound.samples)
        return stream


def _rows(raw: bytes) -> Letters:
    values = array("f", raw).tolist()
    return [values[at : at + OUTPUTS] for at in range(0, len(values), OUTPUTS)]
