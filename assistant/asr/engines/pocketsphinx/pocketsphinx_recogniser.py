"""The embedded ear: PocketSphinx with its bundled US English model and the trade's language."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from boxaloud.assistant.asr.asr_types import RecognitionResult, Sound
from boxaloud.assistant.asr.audio.denoiser import default_denoiser
from boxaloud.assistant.asr.audio.levels import rejection_reason
from boxaloud.assistant.asr.audio.speech_enhancement import SpeechEnhancer, estimate_snr_db, parted
from boxaloud.assistant.asr.audio.wav import at_rate
from boxaloud.assistant.asr.denoised_streaming import DenoisedStream
from boxaloud.assistant.asr.engines.pocketsphinx.pocketsphinx_decoder import (
    DEFAULT_SEARCH,
    PocketsphinxDecoder,
)
from boxaloud.assistant.asr.frontend.bandwidth_extension import extend_bandwidth, telephone
from boxaloud.assistant.asr.hypotheses.isolated_words import (
    answered,
    doubtful_best,
    is_isolated_word,
    mark_doubtful,
)
from boxaloud.assistant.asr.hypotheses.nbest import WordSegment, masked, readings, sureness
from boxaloud.assistant.asr.lm.language_model import Domain, LanguageModels, trade_domain
from boxaloud.assistant.asr.lm.lm_cache import ModelCache
from boxaloud.assistant.asr.streaming import PartialCallback, RecognitionStream
from boxaloud.grammar.lexer.heard_words import Word

#: An utterance less surely about the trade than this was about something else. Measured by
#: tests/asr/measure_rejection.py.
SURE = 0.45
#: The same for a short utterance while a question is open. Longer ones are heard again without
#: regard to the question, and judged by that.
ANSWER_REJECTION_THRESHOLD = 0.3
MAX_ANSWER_WORDS = 4
#: So much less surely about the trade, it counts as heard in doubt, where doubt is asked back.
CONFIRMATION_BAND = 0.15
#: Where the words rise less far (decibels) above the noise, all of them are in doubt.
LOW_SNR_DB = 14.0


class PocketsphinxRecogniser:
    """Hears English about electrical boxes. One decoder lives on, so it adapts to the speaker.

    `build_seconds` says how long making language models took; 0 where they were cached.
    `cleaner` takes noise away; the best one that is installed unless told another.
    """

    def __init__(
        self,
        speech: Domain | None = None,
        cache: Path | None = None,
        cleaner: SpeechEnhancer | None = None,
    ) -> None:
        from pocketsphinx import get_model_path

        model = Path(get_model_path()) / "en-us"
        self._cache = ModelCache(cache)
        self.language = LanguageModels(speech or trade_domain(), model, self._cache)
        self._vocabulary = self.language.speech.words
        self._decoding = PocketsphinxDecoder(self.language, model / "en-us")
        self._cleaner = cleaner or SpeechEnhancer(default_denoiser)

    @property
    def build_seconds(self) -> float:
        """Seconds spent on making language models so far."""
        return self._cache.seconds

    def hear(self, sound: Sound, expect: str | None = None) -> tuple[RecognitionResult, ...]:
        """The utterances in `sound`, in order. `expect` names the open question.

        Sound without speech gives one hearing of no words with its trouble.
        """
        sound = at_rate(sound)
        return self._transcribe_segments(self._cleaner.utterances(sound), sound, expect)

    def attend(self, expect: str | None, tell: PartialCallback) -> RecognitionStream:
        """Begin to listen to a statement while it is spoken."""
        return DenoisedStream(self, self._cleaner, expect, tell)

    def hear_statement(
        self, clean: Sound, raw: Sound, expect: str | None
    ) -> tuple[RecognitionResult, ...]:
        """The one statement in a sound, whose pauses do not part it; `clean` has less noise."""
        pieces = parted(clean, raw)
        whole = Sound(b"".join(piece.samples for piece in pieces))
        return self._transcribe_segments((whole,) if pieces else (), raw, expect)

    def _transcribe_segments(
        self, utterances: Sequence[Sound], raw: Sound, expect: str | None
    ) -> tuple[RecognitionResult, ...]:
        """The same of utterances already parted and freed of noise; `raw` is all the sound."""
        if not utterances:
            trouble = rejection_reason(raw)
            return (RecognitionResult((), "silence" if trouble == "unclear" else trouble),)
        wide = [extend_bandwidth(part) for part in utterances] if telephone(raw) else utterances
        heard = tuple(self._transcribe_segment(utterance, expect) for utterance in wide)
        loud = estimate_snr_db(raw) < LOW_SNR_DB
        return (
            tuple(replace(one, readings=mark_doubtful(one.readings)) for one in heard)
            if loud
            else heard
        )

    def sureness(self, sound: Sound, expect: str | None = None) -> tuple[float, ...]:
        """How surely each utterance in `sound` is about the trade, from -1 to 1."""
        search = self._decoding.search(expect)
        return tuple(
            sureness(self._decode(utterance, search), self._vocabulary)
            for utterance in self._cleaner.utterances(at_rate(sound))
        )

    def _transcribe_segment(self, sound: Sound, expect: str | None) -> RecognitionResult:
        search = self._decoding.search(expect)
        segments = self._decode(sound, search)
        asked = search != DEFAULT_SEARCH and len(segments) <= MAX_ANSWER_WORDS
        found: tuple[tuple[Word, ...], ...] = ()
        sure = sureness(segments, self._vocabulary) - (
            ANSWER_REJECTION_THRESHOLD if asked else SURE
        )
        if sure >= -CONFIRMATION_BAND:
            best = masked((part.text for part in segments), self._vocabulary)
            found = readings(best, self._decoding.hypotheses())
        if sure < 0:
            found = doubtful_best(found, expect)
        if expect is not None and search != DEFAULT_SEARCH and is_isolated_word(sound):
            answer = self._decoding.answer(expect, sound)
            found = answered(answer, found, sureness(segments, self._vocabulary), expect)
        return RecognitionResult(found) if found else RecognitionResult((), rejection_reason(sound))

    def _decode(self, sound: Sound, search: str) -> list[WordSegment]:
        segments = self._decoding.segments(search, sound)
        if search != DEFAULT_SEARCH and len(segments) > MAX_ANSWER_WORDS:
            segments = self._decoding.segments(DEFAULT_SEARCH, sound)
        return segments
