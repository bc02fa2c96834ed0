"""The embedded engine itself: sound in, its words with their probabilities out."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING

from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_types import Sound
from boxaloud.assistant.asr.audio.levels import normalise_level
from boxaloud.assistant.asr.hypotheses.nbest import WordSegment, masked
from boxaloud.assistant.asr.lm.language_model import LanguageModels

if TYPE_CHECKING:
    from pocketsphinx import Decoder

#: Hypotheses taken from the lattice.
NBEST_FROM_LATTICE = 100
#: What the decoder divides the logarithms of its hypotheses' likelihoods by, and by how much it
#: flattens the acoustic ones when it makes posterior probabilities (its default `ascale`).
SCORE_SHIFT = 1024
ACOUSTIC_SCALE = 20
DEFAULT_SEARCH = "_default"


class PocketsphinxDecoder:
    """A decoder with a search for everything and one for each question; and one for answers.

    They live on between utterances, so they adapt to the speaker. That of answers is one of its
    own: it carries its measure of the voice from word to word, which a whole utterance, measured
    by itself, would be put out by.
    """

    def __init__(self, language: LanguageModels, acoustics: Path) -> None:
        self._language = language
        self._acoustics = acoustics
        self._decoder = self._start()
        self._answers: Decoder | None = None
        self._loaded = {DEFAULT_SEARCH}

    def search(self, expect: str | None) -> str:
        """The name of the search for an open question, loaded if it was not."""
        narrow = self._language.narrows(expect)
        if narrow is None:
            return DEFAULT_SEARCH
        if narrow not in self._loaded:
            self._decoder.add_lm_file(narrow, str(self._language.model_file(narrow)))
            self._loaded.add(narrow)
        return narrow

    def segments(self, search: str, sound: Sound) -> list[WordSegment]:
        """The words of the best path through an utterance."""
        return _decode(self._decoder, search, sound, whole=True)

    def answer(self, expect: str, sound: Sound) -> list[WordSegment]:
        """The best path through an utterance of one word, among answers of one word."""
        name = f"answers.{expect}"
        if self._answers is None:
            self._answers = self._new_decoder(self._language.answers_file(expect))
            self._answers.add_lm_file(name, str(self._language.answers_file(expect)))
        elif name not in self._loaded:
            self._answers.add_lm_file(name, str(self._language.answers_file(expect)))
        self._loaded.add(name)
        return _decode(self._answers, name, sound, whole=False)

    def hypotheses(self) -> Iterator[tuple[tuple[str, ...], float]]:
        """Other paths of the utterance just heard, with the logarithm of their likelihood."""
        for found in islice(self._decoder.nbest(), NBEST_FROM_LATTICE):
            if found is not None and found.score > 0:
                likelihood = math.log(found.score) * SCORE_SHIFT / ACOUSTIC_SCALE
                yield masked(found.hypstr.split(), self._language.speech.words), likelihood

    def _start(self) -> Decoder:
        try:
            return self._new_decoder(self._language.model_file(None))
        except RuntimeError:
            self._language.forget()
        try:
            return self._new_decoder(self._language.model_file(None))
        except RuntimeError as error:
            raise AsrError(
                "The embedded speech engine did not start; reinstall it with "
                "'pip install --force-reinstall pocketsphinx'."
            ) from error

    def _new_decoder(self, model: Path) -> Decoder:
        from pocketsphinx import Decoder

        return Decoder(
            hmm=str(self._acoustics),
            dict=str(self._language.dictionary_file),
            lm=str(model),
            loglevel="FATAL",
        )


def _decode(decoder: Decoder, search: str, sound: Sound, whole: bool) -> list[WordSegment]:
    """The words of the best path; `whole` where the utterance is the measure of itself."""
    decoder.activate_search(search)
    decoder.start_utt()
    decoder.process_raw(normalise_level(sound).samples, full_utt=whole)
    decoder.end_utt()
    if decoder.hyp() is None:
        return []
    return [
        WordSegment(
            part.word.partition("(")[0],
            part.end_frame - part.start_frame + 1,
            min(1.0, part.prob),
        )
        for part in decoder.seg()
        if part.word[0] not in "<["
    ]
