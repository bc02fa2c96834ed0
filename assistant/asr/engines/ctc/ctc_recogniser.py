"""The ear that listens with the learnt network: utterances in, readings with their evidence out."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
from boxaloud.assistant.asr.asr_types import UNKNOWN, Evidence, RecognitionResult, Sound
from boxaloud.assistant.asr.audio.levels import rejection_reason, technical_trouble
from boxaloud.assistant.asr.audio.speech_enhancement import (
    SpeechEnhancer,
    estimate_snr_db,
    values,
)
from boxaloud.assistant.asr.audio.speech_spans import Span, speech_spans
from boxaloud.assistant.asr.audio.wav import at_rate
from boxaloud.assistant.asr.denoised_streaming import DenoisedStream
from boxaloud.assistant.asr.engines.ctc.ctc_encoder import encoder
from boxaloud.assistant.asr.engines.ctc.ctc_weights import PEAK, STRIDE_SAMPLES
from boxaloud.assistant.asr.engines.ctc.forced_alignment import Alignment, align
from boxaloud.assistant.asr.engines.ctc.letter_tree import LetterTree, is_spelled, spelling
from boxaloud.assistant.asr.engines.ctc.prefix_beam_search import CtcHypothesis, PrefixBeamSearch
from boxaloud.assistant.asr.engines.whisper.blas_threads import single_blas_thread
from boxaloud.assistant.asr.frontend.log_mel import RATE, spectrum
from boxaloud.assistant.asr.hypotheses.joined_results import joined, nothing_said
from boxaloud.assistant.asr.hypotheses.nbest import HYPOTHESES_WEIGHED, masked, weighed
from boxaloud.assistant.asr.lm.language_model import Domain, LanguageModels, trade_domain
from boxaloud.assistant.asr.lm.lm_cache import ModelCache
from boxaloud.assistant.asr.lm.question_scorers import QuestionScorers
from boxaloud.assistant.asr.streaming import PartialCallback, RecognitionStream
from numpy.typing import NDArray

#: Sound around what is said that the network is given too, in seconds; quiet where there is none.
CONTEXT_SECONDS = 0.3
#: Longer speech is heard in parts.
MAX_SEGMENT_SECONDS = 14.0
#: Quieter than this (of 1) a sound is not made louder: it is nothing.
LEAST_PEAK = 1e-4
#: An answer to an open question has no more words.
MAX_ANSWER_WORDS = 4
#: What merits are divided by to be likelihoods.
TEMPERATURE = 1.0
#: Places over which a hearing is strange where it is so most, 0.3 s; and speech that no word
#: accounts for: a stretch as long, of a margin (a logarithm) as great.
WORST_PLACES = 15
UNREAD_PLACES = 15
UNREAD_MARGIN = 6.0
#: A word of so great a margin was another one.
STRANGE_WORD = 5.0
#: Fewer letters than this say little of how strange a hearing is.
MIN_LETTERS = 6
ENGINE = "ctc"


class CtcRecogniser:
    """Hears English about electrical boxes, by letters.

    Args:
        weights: the file that `ctc_weights` describes.
        speech: what can be said; the trade's unless told another.
        cache: where its language models are kept.

    Raises:
        AsrError: the weights are missing, broken or of another kind.
    """

    def __init__(
        self, weights: Path, speech: Domain | None = None, cache: Path | None = None
    ) -> None:
        from pocketsphinx import get_model_path

        self._network = encoder(weights)
        model = Path(get_model_path()) / "en-us"
        self.language = LanguageModels(speech or trade_domain(), model, ModelCache(cache))
        tree = LetterTree(self._words())
        self._known = self.language.speech.words
        self._search = PrefixBeamSearch(tree)
        self._scorers = QuestionScorers(self.language, tree.words)

    @property
    def name(self) -> str:
        """What the weights are called."""
        return self._network.name

    def hear(self, sound: Sound, expect: str | None = None) -> tuple[RecognitionResult, ...]:
        """The utterances in `sound`, in order. `expect` names the open question.

        Sound without speech gives one hearing of no words with its trouble.
        """
        sound = at_rate(sound)
        spans = speech_spans(sound, MAX_SEGMENT_SECONDS)
        return tuple(self._hear_span(sound, span, expect) for span in spans) or (
            nothing_said(sound),
        )

    def attend(self, expect: str | None, tell: PartialCallback) -> RecognitionStream:
        """Begin to listen to a statement while it is spoken."""
        return DenoisedStream(self, SpeechEnhancer(lambda: None), expect, tell)

    def hear_statement(
        self, clean: Sound, raw: Sound, expect: str | None
    ) -> tuple[RecognitionResult, ...]:
        """The one statement in a sound, whose pauses do not part it. Noise is no matter here."""
        spans = speech_spans(raw, MAX_SEGMENT_SECONDS)
        found = [self._hear_span(raw, span, expect) for span in spans]
        return (joined(found) if found else nothing_said(raw),)

    def letters(self, sound: Sound, span: Span) -> NDArray[np.float32]:
        """How likely each letter is in each place of a span of a sound and around it."""
        start, end = (
            int(at * RATE) for at in (span[0] - CONTEXT_SECONDS, span[1] + CONTEXT_SECONDS)
        )
        whole = values(sound.samples)
        part = np.pad(whole[max(0, start) : end], (max(0, -start), max(0, end - len(whole))))
        loud = max(LEAST_PEAK, float(np.abs(part).max(initial=0.0)))
        part = part * np.float32(PEAK / loud)
        return self._network.letters(spectrum(part, len(part) / RATE))

    def _hear_span(self, sound: Sound, span: Span, expect: str | None) -> RecognitionResult:
        with single_blas_thread():
            letters = self.letters(sound, span)
        found = self._found(letters, expect)
        best = align(letters, found[0].words) if found else None
        if best is None:
            return RecognitionResult((), rejection_reason(sound))
        told = self._told(found[0].words, best)
        texts = masked(_with_gaps(told, best), self._known)
        others = [
            (texts if one is found[0] else masked(one.words, self._known), one.merit / TEMPERATURE)
            for one in found[:HYPOTHESES_WEIGHED]
        ]
        evidence = _evidence(told, best, estimate_snr_db(sound))
        return replace(weighed(texts, others), trouble=technical_trouble(sound), evidence=evidence)

    def _found(self, letters: NDArray[np.float32], expect: str | None) -> tuple[CtcHypothesis, ...]:
        narrow = self._scorers.narrow(expect)
        found = () if narrow is None else self._search.search(letters, narrow)
        if not found or len(found[0].words) > MAX_ANSWER_WORDS:
            found = self._search.search(letters, self._scorers.open())
        return found

    def _told(self, words: tuple[str, ...], where: Alignment) -> tuple[str, ...]:
        """The words, with `UNKNOWN` for other talk and for what was hardly said."""
        return tuple(
            word if word in self._known and where.own(at) <= STRANGE_WORD else UNKNOWN
            for at, word in enumerate(words)
        )

    def _words(self) -> list[str]:
        """The words of the trade and common ones of other talk, each as far as it has letters."""
        lines = self.language.dictionary_file.read_text("utf-8").splitlines()
        others = {line.partition(" ")[0] for line in lines if line.startswith("~")}
        return [word for word in (*self.language.speech.words, *others) if is_spelled(word)]


def _with_gaps(told: tuple[str, ...], where: Alignment) -> list[str]:
    """The words with `UNKNOWN` also where speech was left unread between them."""
    found: list[str] = []
    for number in range(len(told) + 1):
        if _unread_before(where, number):
            found.append(UNKNOWN)
        found += told[number : number + 1]
    return found


def _unread_before(where: Alignment, number: int) -> int:
    """How many places before a word (or behind the last) hold speech that no word accounts for."""
    spans = where.spans
    start = spans[number - 1][1] if number else 0
    end = spans[number][0] if number < len(spans) else len(where.margins)
    if end - start < UNREAD_PLACES or float(where.margins[start:end].sum()) < UNREAD_MARGIN:
        return 0
    return end - start


def _evidence(told: tuple[str, ...], where: Alignment, snr_db: float) -> Evidence:
    letters = sum(len(spelling(word)) + 1 for word in told)
    spoken = where.spans[-1][1] - where.spans[0][0]
    unread = sum(_unread_before(where, number) for number in range(len(told) + 1))
    spoken += sum(_unread_before(where, number) for number in (0, len(told)))
    unread += sum(
        end - start for word, (start, end) in zip(told, where.spans, strict=True) if word == UNKNOWN
    )
    return Evidence(
        engine=ENGINE,
        strange=float(where.margins.sum()) / max(MIN_LETTERS, letters),
        worst=where.worst(WORST_PLACES),
        unread=unread * STRIDE_SAMPLES / RATE,
        snr_db=snr_db,
        seconds=spoken * STRIDE_SAMPLES / RATE,
    )
