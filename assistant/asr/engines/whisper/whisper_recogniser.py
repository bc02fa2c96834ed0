"""The ear that listens with the network: utterances in, readings with doubt out."""

from __future__ import annotations

from dataclasses import replace
from importlib.resources import files
from pathlib import Path

from boxaloud.assistant.asr.asr_types import Evidence, RecognitionResult, Sound
from boxaloud.assistant.asr.audio.denoiser import default_denoiser
from boxaloud.assistant.asr.audio.levels import rejection_reason, technical_trouble
from boxaloud.assistant.asr.audio.speech_enhancement import (
    CLEAN_SNR_DB,
    SpeechEnhancer,
    estimate_snr_db,
    values,
)
from boxaloud.assistant.asr.audio.speech_spans import Span, speech_spans
from boxaloud.assistant.asr.audio.wav import at_rate
from boxaloud.assistant.asr.denoised_streaming import DenoisedStream
from boxaloud.assistant.asr.engines.pocketsphinx.pocketsphinx_decoder import DEFAULT_SEARCH
from boxaloud.assistant.asr.engines.whisper import model_name
from boxaloud.assistant.asr.engines.whisper.beam_search import BeamSearch, SearchResult
from boxaloud.assistant.asr.engines.whisper.blas_threads import single_blas_thread
from boxaloud.assistant.asr.engines.whisper.bpe_tokeniser import BpeTokeniser
from boxaloud.assistant.asr.engines.whisper.free_answers import FreeAnswers
from boxaloud.assistant.asr.engines.whisper.prefix_tree import PrefixTree
from boxaloud.assistant.asr.engines.whisper.transformer import KeyValueCache, Transformer
from boxaloud.assistant.asr.engines.whisper.transformer_weights import read_weights
from boxaloud.assistant.asr.frontend.log_mel import spectrum
from boxaloud.assistant.asr.hypotheses.joined_results import joined, nothing_said
from boxaloud.assistant.asr.hypotheses.nbest import weighed
from boxaloud.assistant.asr.lm.language_model import Domain, own_models
from boxaloud.assistant.asr.lm.trigram_scorer import TrigramScorer
from boxaloud.assistant.asr.streaming import PartialCallback, RecognitionStream

#: Sound around what is said that the network is given too, and quiet added after it, in seconds.
CONTEXT_SECONDS = 0.4
TRAILING_SILENCE_SECONDS = 1.0
#: Longer speech is heard in parts; the network takes in half a minute at most.
MAX_SEGMENT_SECONDS = 24.0
#: The merit that a word brings with it in a statement heard well.
USUAL_SCORE_PER_WORD = -0.35
#: What merits are divided by to be likelihoods: in quiet, and in noise, where they are too sure.
SCORE_TEMPERATURE = 1.6
NOISY_SCORE_TEMPERATURE = 2.0
#: An answer to an open question has no more words.
MAX_ANSWER_WORDS = 4
#: One word of an answer is no longer, in seconds.
MAX_WORD_SECONDS = 1.2

ENGINE = "whisper"


class WhisperRecogniser:
    """Hears English about electrical boxes, in noise as well.

    Args:
        folder: where model.bin and tokenizer.json are.
        speech: what can be said; the trade's unless told another.
        cache: where its language models are kept.
        cleaner: takes noise away; the best one that is installed unless told another.

    Raises:
        EarsError: there is no usable model in `folder`.
    """

    def __init__(
        self,
        folder: Path,
        speech: Domain | None = None,
        cache: Path | None = None,
        cleaner: SpeechEnhancer | None = None,
    ) -> None:
        self.folder = folder
        self.name = model_name(folder)
        self._cleaner = cleaner or SpeechEnhancer(default_denoiser)
        self.language = own_models(speech, cache)
        sounds, others = self._dictionary()
        self.words = sorted(self.language.speech.words & sounds.keys())
        pieces = BpeTokeniser(folder / "tokenizer.json")
        network = Transformer(read_weights(folder / "model.bin"))
        prompt = (
            files("boxaloud.assistant.asr").joinpath("data/whisper_prompt.txt").read_text("utf-8")
        )
        self._network = network
        self._free = FreeAnswers(network, pieces)
        self._search = BeamSearch(
            network,
            PrefixTree(self.words, others, pieces),
            self.words,
            sounds,
            (pieces.before, *pieces.of(prompt), *pieces.start),
        )
        self._scorers: dict[str, TrigramScorer] = {}

    def hear(self, sound: Sound, expect: str | None = None) -> tuple[RecognitionResult, ...]:
        """The utterances in `sound`, in order. `expect` names the open question.

        Sound without speech gives one hearing of no words with its trouble.
        """
        sound = at_rate(sound)
        clean = self._cleaner.clean(sound)
        found = [
            self.hear_span(sound, clean, span, expect)
            for span in speech_spans(sound, MAX_SEGMENT_SECONDS)
        ]
        return tuple(found) or (nothing_said(sound),)

    def attend(self, expect: str | None, tell: PartialCallback) -> RecognitionStream:
        """Begin to listen to a statement while it is spoken."""
        return DenoisedStream(self, self._cleaner, expect, tell)

    def hear_statement(
        self, clean: Sound, raw: Sound, expect: str | None
    ) -> tuple[RecognitionResult, ...]:
        """The one statement in a sound, whose pauses do not part it; `clean` has less noise."""
        found = [
            self.hear_span(raw, clean, span, expect)
            for span in speech_spans(raw, MAX_SEGMENT_SECONDS)
        ]
        return (joined(found) if found else nothing_said(raw),)

    def heard(
        self, raw: Sound, clean: Sound, span: Span, expect: str | None = None
    ) -> SearchResult:
        """What the search finds in speech that lasts over a span of a sound."""
        return self._searched(self._memories(raw, clean, span), span, expect)

    def _memories(self, raw: Sound, clean: Sound, span: Span) -> list[KeyValueCache]:
        sounds = (raw,) if clean is raw else (raw, clean)
        return [self._encode(sound, span) for sound in sounds]

    def _searched(
        self, memories: list[KeyValueCache], span: Span, expect: str | None
    ) -> SearchResult:
        seconds = span[1] - span[0]
        narrow = self.language.narrows(expect) or DEFAULT_SEARCH
        found = self._search.search(memories, seconds, self._scorer(narrow))
        if narrow != DEFAULT_SEARCH and (
            not found.found or len(found.found[0].words) > MAX_ANSWER_WORDS
        ):
            found = self._search.search(memories, seconds, self._scorer(DEFAULT_SEARCH))
        return found

    def _encode(self, sound: Sound, span: Span) -> KeyValueCache:
        start, end = max(0.0, span[0] - CONTEXT_SECONDS), span[1] + CONTEXT_SECONDS
        part = values(sound.samples)[int(start * sound.rate) : int(end * sound.rate)]
        return self._network.heard(
            spectrum(part, len(part) / sound.rate + TRAILING_SILENCE_SECONDS)
        )

    def hear_span(
        self, raw: Sound, clean: Sound, span: Span, expect: str | None
    ) -> RecognitionResult:
        """What is said in a stretch of a sound, by it as it is and with less noise."""
        answered = expect is not None and span[1] - span[0] <= MAX_WORD_SECONDS
        with single_blas_thread():
            memories = self._memories(raw, clean, span)
            heard = self._searched(memories, span, expect)
            freely = self._free.odds(memories) if answered else ()
        snr_db = estimate_snr_db(raw)
        evidence = Evidence(
            engine=ENGINE,
            strange=heard.strange,
            worst=0.0,
            unread=0.0,
            snr_db=snr_db,
            seconds=span[1] - span[0],
            freely=freely,
        )
        best = heard.found[0] if heard.found else None
        if best is None:
            return RecognitionResult((), rejection_reason(raw), evidence=evidence)
        flattened = SCORE_TEMPERATURE if snr_db >= CLEAN_SNR_DB else NOISY_SCORE_TEMPERATURE
        likely = [(one.words, one.merit / flattened) for one in heard.found]
        worst = max(0.0, USUAL_SCORE_PER_WORD * len(best.words) - best.merit)
        return replace(
            weighed(best.words, likely),
            trouble=technical_trouble(raw),
            evidence=replace(evidence, worst=worst),
        )

    def _scorer(self, narrow: str) -> TrigramScorer:
        if narrow not in self._scorers:
            model = self.language.model_file(None if narrow == DEFAULT_SEARCH else narrow)
            self._scorers[narrow] = TrigramScorer(model, self.words)
        return self._scorers[narrow]

    def _dictionary(self) -> tuple[dict[str, int], list[str]]:
        """How many sounds each word has, and common words that are not the trade's."""
        sounds: dict[str, int] = {}
        for line in self.language.dictionary_file.read_text("utf-8").splitlines():
            word, _, said = line.partition(" ")
            sounds.setdefault(word, len(said.split()))
        others = [word.removeprefix("~") for word in sounds if word.startswith("~")]
        return sounds, [word for word in others if "(" not in word]
