"""The ear that listens with the learnt network: utterances in, readings with their evidence out.

What it hears by is given to it: the network, which a laptop and a phone work each in its own way,
and how the trade speaks. All else is done here, with no array library, so that it is the same.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Protocol

from boxaloud.assistant.asr.asr_types import UNKNOWN, Evidence, RecognitionResult, Sound
from boxaloud.assistant.asr.audio.levels import rejection_reason, technical_trouble
from boxaloud.assistant.asr.audio.pause_segmentation import SILENCE_DBFS, frame_levels
from boxaloud.assistant.asr.audio.speech_enhancement import SpeechEnhancer, estimate_snr_db
from boxaloud.assistant.asr.audio.speech_spans import Span, speech_spans
from boxaloud.assistant.asr.audio.wav import at_rate
from boxaloud.assistant.asr.denoised_streaming import DenoisedStream
from boxaloud.assistant.asr.engines.ctc.alphabet import STRIDE_SAMPLES
from boxaloud.assistant.asr.engines.ctc.forced_alignment import Alignment, align
from boxaloud.assistant.asr.engines.ctc.letter_tree import LetterTree, is_spelled, spelling
from boxaloud.assistant.asr.engines.ctc.own_statement import OwnStatement, own_statement
from boxaloud.assistant.asr.engines.ctc.prefix_beam_search import (
    CtcHypothesis,
    Letters,
    PrefixBeamSearch,
)
from boxaloud.assistant.asr.hypotheses.joined_results import joined, nothing_said
from boxaloud.assistant.asr.hypotheses.nbest import HYPOTHESES_WEIGHED, masked, weighed
from boxaloud.assistant.asr.lm.question_scorers import QuestionScorers, SpokenLanguage
from boxaloud.assistant.asr.streaming import PartialCallback, RecognitionStream

RATE = 16000
#: Sound around what is said that the network is given too, in seconds; quiet where there is none.
CONTEXT_SECONDS = 0.3
#: Longer speech is heard in parts.
MAX_SEGMENT_SECONDS = 14.0
#: An answer to an open question has no more words.
MAX_ANSWER_WORDS = 4
#: What merits are divided by to be likelihoods.
TEMPERATURE = 1.0
#: Places over which a hearing is strange where it is so most, 0.3 s.
WORST_PLACES = 15
#: Fewer letters than this say little of how strange a hearing is.
MIN_LETTERS = 6
ENGINE = "ctc"


class LetterNetwork(Protocol):
    """What hears letters in a stretch of a sound."""

    name: str

    def letters(self, sound: Sound, span: Span) -> Letters:
        """How likely each letter is in each place of `samples_heard(span)`, logarithms."""
        ...


def samples_heard(span: Span) -> tuple[int, int]:
    """The samples that the network hears for a stretch: the first, which may lie before the sound
    begins, and the one behind the last, which may lie behind its end."""
    start, end = span[0] - CONTEXT_SECONDS, span[1] + CONTEXT_SECONDS
    return int(start * RATE), int(end * RATE)


class CtcRecogniser:
    """Hears English about electrical boxes, by letters.

    Args:
        network: what hears letters.
        language: how the trade speaks.

    Raises:
        AsrError: a language model is broken.
    """

    def __init__(self, network: LetterNetwork, language: SpokenLanguage) -> None:
        self._network = network
        self._known = language.known
        tree = LetterTree([one for one in (*self._known, *language.others) if is_spelled(one)])
        self._search = PrefixBeamSearch(tree)
        self._scorers = QuestionScorers(language, tree.words)

    @property
    def name(self) -> str:
        """What the weights are called."""
        return self._network.name

    def prepare(self) -> None:
        """Read the open language model, so that the first hearing need not wait for that."""
        self._scorers.open()

    def hear(self, sound: Sound, expect: str | None = None) -> tuple[RecognitionResult, ...]:
        """The utterances in `sound`, in order. `expect` names the open question.

        Sound without speech gives one hearing of no words with its trouble.
        """
        sound = at_rate(sound)
        spans = speech_spans(sound, MAX_SEGMENT_SECONDS)
        return tuple(self.hear_span(sound, sound, span, expect) for span in spans) or (
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
        found = [self.hear_span(raw, clean, span, expect) for span in spans]
        return (joined(found) if found else nothing_said(raw),)

    def hear_span(
        self, raw: Sound, clean: Sound, span: Span, expect: str | None
    ) -> RecognitionResult:
        """What is said in a stretch of a sound, by the sound as it is."""
        sound = raw
        letters = self._network.letters(sound, span)
        found = self._found(letters, expect)
        best = align(letters, found[0].words) if found else None
        if best is None:
            return RecognitionResult((), rejection_reason(sound))
        own = own_statement(
            found[0].words, self._known, best, self._levels(sound, span, len(letters))
        )
        texts = self._masked(one.text for one in own.segments)
        others = [
            (texts if one is found[0] else self._masked(one.words), one.merit / TEMPERATURE)
            for one in found[:HYPOTHESES_WEIGHED]
        ]
        heard = replace(weighed(texts, others), trouble=technical_trouble(sound))
        if not own.segments:
            return heard
        return replace(heard, evidence=_evidence(own, best, estimate_snr_db(sound)))

    def _masked(self, words: Iterable[str]) -> tuple[str, ...]:
        """Words with `UNKNOWN` for what is not of the trade, but none before or behind them."""
        told = masked(words, self._known)
        first = 1 if told[:1] == (UNKNOWN,) else 0
        last = len(told) - (told[-1:] == (UNKNOWN,))
        return told[first:last] or (UNKNOWN,)

    def _levels(self, sound: Sound, span: Span, places: int) -> list[float]:
        """How loud each place is, in decibels under full scale."""
        levels = frame_levels(sound)
        first = round((span[0] - CONTEXT_SECONDS) * RATE / STRIDE_SAMPLES)
        return [
            levels[at] if 0 <= at < len(levels) else SILENCE_DBFS
            for at in range(first, first + places)
        ]

    def _found(self, letters: Letters, expect: str | None) -> tuple[CtcHypothesis, ...]:
        narrow = self._scorers.narrow(expect)
        found = () if narrow is None else self._search.search(letters, narrow)
        if not found or len(found[0].words) > MAX_ANSWER_WORDS:
            found = self._search.search(letters, self._scorers.open())
        return found


def _evidence(own: OwnStatement, where: Alignment, snr_db: float) -> Evidence:
    """What tells how far the statement is to be believed, by its own words alone."""
    path = own.of(where)
    letters = sum(len(spelling(one.text)) + 1 for one in own.segments)
    return Evidence(
        engine=ENGINE,
        strange=sum(path.margins) / max(MIN_LETTERS, letters),
        worst=path.worst(WORST_PLACES),
        unread=own.unread * STRIDE_SAMPLES / RATE,
        snr_db=snr_db,
        seconds=len(path.margins) * STRIDE_SAMPLES / RATE,
        lost=own.lost * STRIDE_SAMPLES / RATE,
        edge=own.edge(where),
        whole=own.whole(where),
    )
