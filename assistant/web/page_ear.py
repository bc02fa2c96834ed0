"""The ears of the laptop for a page that it serves: sound in, piece by piece, words out.

One page is listened to at a time. The ear is made when it is first needed, and kept.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from boxaloud.grammar.lexer.heard_words import Word

if TYPE_CHECKING:
    from boxaloud.assistant.asr import Recogniser
    from boxaloud.assistant.asr.live_recognition import LiveRecogniser
    from boxaloud.assistant.asr.streaming import RecognitionStream

MOST_BYTES = 60 * 16_000 * 2
"""Of one holding of the key: a minute of 16 kHz mono, 16-bit."""


@dataclass(frozen=True, slots=True)
class PageLive:
    """An ear at an open microphone, and what is asked for the open question."""

    recogniser: LiveRecogniser
    expect: Callable[[], str | None]


class PageEar:
    """An ear at a page's microphone."""

    def __init__(self, find: Callable[[], Recogniser] | None = None) -> None:
        self._find = find
        self._ear: Recogniser | None = None
        self._stream: RecognitionStream | None = None
        self._expect: str | None = None
        self._taken = 0

    def begin(self, expect: str | None, tell: Callable[[str], None]) -> None:
        """Listen to what is said now; `tell` is given the words so far. `expect` is the open
        question. Raises Problem where there is no ear."""
        from boxaloud.assistant.asr.streaming import attend

        self._expect, self._taken = expect, 0
        self._stream = attend(self._found(), expect, tell)

    def live(self, expect: Callable[[], str | None]) -> PageLive:
        """The ear at a microphone that stays open; `expect` is asked for the open question as
        each statement begins. Raises Problem where there is no ear."""
        from boxaloud.assistant.asr.endpointer import Endpointer
        from boxaloud.assistant.asr.live_recognition import LiveRecogniser
        from boxaloud.assistant.asr.vad import VoiceActivityDetector

        ends = Endpointer(VoiceActivityDetector(), mode="open")
        return PageLive(LiveRecogniser(self._found(), ends, expect), expect)

    def _found(self) -> Recogniser:
        from boxaloud.assistant.asr import default_recogniser

        if self._ear is None:
            self._ear = (self._find or default_recogniser)()
        return self._ear

    def feed(self, samples: bytes) -> bool:
        """More sound, 16 kHz mono, 16-bit; False where it is too much."""
        self._taken += len(samples)
        if self._stream is None or self._taken > MOST_BYTES or len(samples) % 2:
            return False
        self._stream.feed(samples)
        return True

    def end(self) -> tuple[tuple[Word, ...], ...]:
        """What was heard, statement by statement, each with how sure the ear was."""
        from boxaloud.assistant.asr.hypotheses.rescoring import choose

        stream, self._stream = self._stream, None
        hearings = stream.finish() if stream is not None else ()
        chosen = (choose(hearing, self._expect) for hearing in hearings)
        return tuple(words for words in chosen if words)
