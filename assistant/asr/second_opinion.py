"""Two ears: the quick one hears everything, the careful one again what is in doubt or at stake.

Where both hear the same, it counts for more than either alone; where they differ, it is asked.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Protocol

from boxaloud.assistant.asr.asr_types import RecognitionResult, Sound
from boxaloud.assistant.asr.audio.speech_enhancement import SpeechEnhancer
from boxaloud.assistant.asr.audio.speech_spans import Span, speech_spans
from boxaloud.assistant.asr.audio.wav import at_rate
from boxaloud.assistant.asr.denoised_streaming import DenoisedStream
from boxaloud.assistant.asr.hypotheses.joined_results import joined, nothing_said
from boxaloud.assistant.asr.hypotheses.meaning_pool import judged
from boxaloud.assistant.asr.streaming import PartialCallback, RecognitionStream
from boxaloud.grammar import recognise
from boxaloud.grammar.acts import Deny, No, NoneOfThem, Yes
from boxaloud.grammar.lexer.numbers import word_classes

#: As sure as this of a number or a "no", the first ear needs no other.
SURELY = 0.98
#: Longer speech is heard in parts.
MAX_SEGMENT_SECONDS = 14.0
#: Acts that turn a verdict by a single word.
TURNING = (Yes, No, NoneOfThem, Deny)


class SpanRecogniser(Protocol):
    """An ear that hears one stretch of speech in a sound."""

    def hear_span(
        self, raw: Sound, clean: Sound, span: Span, expect: str | None
    ) -> RecognitionResult:
        """What is said in the stretch; `clean` is the sound with less noise."""
        ...


class SecondOpinion:
    """The ear made of two. `cleaner` takes noise away for the second, when it is asked."""

    def __init__(
        self, first: SpanRecogniser, second: SpanRecogniser, cleaner: SpeechEnhancer
    ) -> None:
        self._first = first
        self._second = second
        self._cleaner = cleaner

    @property
    def ears(self) -> tuple[SpanRecogniser, SpanRecogniser]:
        """The quick one and the careful one."""
        return self._first, self._second

    def hear(self, sound: Sound, expect: str | None = None) -> tuple[RecognitionResult, ...]:
        """The utterances in `sound`, in order. `expect` names the open question."""
        sound = at_rate(sound)
        spans = speech_spans(sound, MAX_SEGMENT_SECONDS)
        found = tuple(self._hear_span(sound, None, span, expect) for span in spans)
        return found or (nothing_said(sound),)

    def attend(self, expect: str | None, tell: PartialCallback) -> RecognitionStream:
        """Begin to listen to a statement while it is spoken."""
        return DenoisedStream(self, self._cleaner, expect, tell)

    def hear_statement(
        self, clean: Sound, raw: Sound, expect: str | None
    ) -> tuple[RecognitionResult, ...]:
        """The one statement in a sound, whose pauses do not part it; `clean` has less noise."""
        spans = speech_spans(raw, MAX_SEGMENT_SECONDS)
        found = [self._hear_span(raw, clean, span, expect) for span in spans]
        return (joined(found) if found else nothing_said(raw),)

    def _hear_span(
        self, raw: Sound, clean: Sound | None, span: Span, expect: str | None
    ) -> RecognitionResult:
        heard = self._first.hear_span(raw, raw, span, expect)
        if not needs_another(heard, expect):
            return heard
        without = self._cleaner.clean(raw) if clean is None else clean
        return replace(heard, second=self._second.hear_span(raw, without, span, expect))


def needs_another(heard: RecognitionResult, expect: str | None) -> bool:
    """True where a hearing is in doubt, or where it is not all but sure of what can turn a
    verdict: a number, a "no", an answer to something asked back."""
    found = judged(heard, expect)
    if found is None:
        return bool(heard.readings)  # it heard speech, and nothing of the trade in it
    if found.probability is None or not found.believed:
        return True
    if found.probability >= SURELY:
        return False
    told = recognise(found.best.words, expect).acts
    turns = any(isinstance(act, TURNING) for act in told)
    return turns or any(word_classes(word.text) for word in found.best.words)
