"""Listening to one statement while it is spoken: what it says so far, and in the end.

An engine that hears as the sound comes gives an attention of its own (`attend`). For one that
hears whole utterances the sound is gathered, and heard at each pause.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol, TypeAlias, runtime_checkable

from boxaloud.assistant.asr.asr_types import Recogniser, RecognitionResult, Sound
from boxaloud.assistant.asr.audio.audio_devices import SAMPLE_RATE
from boxaloud.assistant.asr.audio.pause_segmentation import split
from boxaloud.assistant.asr.hypotheses.meaning_pool import judged

#: Told the words so far, while they come.
PartialCallback: TypeAlias = Callable[[str], None]


class RecognitionStream(Protocol):
    """One statement being listened to."""

    def feed(self, samples: bytes) -> None:
        """More of its sound: 16 kHz mono, 16-bit."""
        ...

    def lull(self) -> None:
        """Silence began: only silence is fed until `resume`, if that comes."""
        ...

    def resume(self) -> None:
        """Speech goes on."""
        ...

    def so_far(self) -> str:
        """The words heard so far."""
        ...

    def finish(self) -> tuple[RecognitionResult, ...]:
        """What was heard in the whole of it."""
        ...


@runtime_checkable
class StreamingRecogniser(Protocol):
    """An ear that hears while the sound comes."""

    def attend(self, expect: str | None, tell: PartialCallback) -> RecognitionStream:
        """Begin to listen to a statement; `tell` is given the words as they come."""
        ...


def attend(ear: Recogniser, expect: str | None, tell: PartialCallback) -> RecognitionStream:
    """Begin to listen to a statement with any ear."""
    if isinstance(ear, StreamingRecogniser):
        return ear.attend(expect, tell)
    return _BufferedStream(ear, expect, tell)


class WholeStatement:
    """The sound of a statement gathered, and what an ear that hears it whole made of it."""

    def __init__(self, expect: str | None, tell: PartialCallback) -> None:
        self._expect = expect
        self._tell = tell
        self._samples = bytearray()
        self._heard: tuple[RecognitionResult, ...] | None = None

    def feed(self, samples: bytes) -> None:
        """More of its sound: 16 kHz mono, 16-bit."""
        self._samples += samples

    def lull(self) -> None:
        """Silence began: what was said so far is heard, for it may be all."""
        self._heard = self._hear()

    def resume(self) -> None:
        """Speech goes on, so that was not all."""
        self._heard = None

    def so_far(self) -> str:
        """The words heard so far."""
        kept = [one for one in self.finish() if not _given_up(one, self._expect)]
        words = " ".join(word.text for hearing in kept for word in hearing.words)
        if words:
            self._tell(words)
        return words

    def finish(self) -> tuple[RecognitionResult, ...]:
        """What was heard in the whole of it."""
        if self._heard is None:
            self.lull()
        return self._heard or ()

    def _hear(self) -> tuple[RecognitionResult, ...]:
        """What an ear makes of the samples gathered."""
        raise NotImplementedError


class _BufferedStream(WholeStatement):
    """A statement for any ear."""

    def __init__(self, ear: Recogniser, expect: str | None, tell: PartialCallback) -> None:
        super().__init__(expect, tell)
        self._ear = ear

    def _hear(self) -> tuple[RecognitionResult, ...]:
        """One utterance: the ear would part it at a pause in which the speaker only thought."""
        whole = Sound(bytes(self._samples), SAMPLE_RATE)
        pieces = split(whole)
        if len(pieces) > 1:
            whole = Sound(b"".join(piece.samples for piece in pieces), SAMPLE_RATE)
        return self._ear.hear(whole, self._expect)


def _given_up(hearing: RecognitionResult, expect: str | None) -> bool:
    """True where nothing would be taken of it in the end: it is no word to wait for more behind."""
    found = judged(hearing, expect)
    return found is not None and found.refused
