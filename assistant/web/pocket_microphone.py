"""The microphone of a page that stands alone, held by a key or open: sound comes in, what the page
has its network hear goes out, and what that heard comes to.

The network works in another worker, which is waited for in the page and not here. So each step ends
where letters are wanted, and the next begins with them.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, TypeAlias

from boxaloud.assistant.asr.audio.audio_devices import FRAME_BYTES, FRAME_SECONDS, AudioFrame
from boxaloud.assistant.asr.endpointer import Endpointer, EndpointEvent
from boxaloud.assistant.asr.hypotheses.rescoring import choose
from boxaloud.assistant.asr.semantic_endpointing import complete
from boxaloud.assistant.asr.vad import RoomBands
from boxaloud.assistant.web.open_microphone import IDLE_SECONDS
from boxaloud.assistant.web.pocket_ear import PocketEar
from boxaloud.grammar.lexer.heard_words import Word

Wanted: TypeAlias = Literal["", "pause", "end", "idle"]
"""What a piece of sound brought: nothing yet, a pause or an end at which the statement is to be
heard, or that nobody has spoken for so long that the microphone is to be closed."""


class PocketMicrophone:
    """The ear at a microphone. `models` is the archive of its language models."""

    def __init__(self, models: bytes) -> None:
        self._ear = PocketEar(models)
        self.open()

    def open(self) -> None:
        """Listen anew, hands free."""
        self._ends = Endpointer(lambda samples: self._speech, mode="open")
        self._stands_out = RoomBands()
        self._speech = False
        self._seconds = self._spoken = 0.0
        self._said = bytearray()
        self.statement = b""
        """The sound of the statement that is to be heard."""

    def feed(self, samples: bytes, bands: Sequence[Sequence[float]]) -> Wanted:
        """More sound in whole frames, 16 kHz mono, 16-bit, and the bands of each frame."""
        wanted: Wanted = ""
        for place, levels in enumerate(bands):
            self._speech = self._stands_out(levels)
            self._seconds += FRAME_SECONDS
            frame = samples[place * FRAME_BYTES : (place + 1) * FRAME_BYTES]
            wanted = self._taken(self._ends.frame(AudioFrame(frame, self._seconds))) or wanted
        if self._seconds - self._spoken > IDLE_SECONDS:
            return "idle"
        return wanted

    def close(self) -> Wanted:
        """No more is listened to: a statement that is being spoken ends here."""
        return self._taken(self._ends.key(self._seconds))

    def voice(self, speaks: bool) -> None:
        """The page's own voice speaks, which is not listened to, or has stopped."""
        self._ends.voice(speaks, self._seconds)

    def _taken(self, events: Sequence[EndpointEvent]) -> Wanted:
        wanted: Wanted = ""
        for event in events:
            self._spoken = self._seconds
            if event is EndpointEvent.BEGAN:
                self._said = bytearray()
            self._said += self._ends.take()
            if event in (EndpointEvent.PAUSED, EndpointEvent.ENDED):
                self.statement = bytes(self._said)
                wanted = "pause" if event is EndpointEvent.PAUSED else "end"
        return wanted

    @property
    def speaking(self) -> bool:
        """Whether a statement has begun and not ended."""
        return self._ends.in_statement

    def stretches(self, samples: bytes) -> list[tuple[int, int]]:
        """What of a sound the network is to hear: `PocketEar.listen`."""
        return self._ear.listen(samples)

    def stands(self, letters: Sequence[bytes], expect: str | None) -> bool:
        """Whether the statement at a pause is whole, which ends it."""
        words = self._ear.attend(letters, expect).so_far()
        return bool(self._ends.judge(complete(words, expect)))

    def words(self, letters: Sequence[bytes], expect: str | None) -> list[tuple[Word, ...]]:
        """The statement in the sound that was listened to, each word with its doubt."""
        found = self._ear.attend(letters, expect).finish()
        return [words for hearing in found if (words := choose(hearing, expect))]
