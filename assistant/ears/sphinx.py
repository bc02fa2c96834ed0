"""The embedded ear: PocketSphinx with its bundled US English model and the trade's language."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.ears.cache import Cache
from assistant.ears.errors import EarsError
from assistant.ears.hearing import Hearing, Sound
from assistant.ears.language import Language, Speech, trade_speech
from assistant.ears.level import levelled, reason
from assistant.ears.readings import Segment, masked, readings, sureness
from assistant.ears.split import split
from assistant.ears.wav import at_rate

if TYPE_CHECKING:
    from pocketsphinx import Decoder  # type: ignore[import-untyped]

#: An utterance less surely about the trade than this was about something else. Measured by
#: tests/ears/measure_rejection.py.
SURE = 0.45
#: The same for a short utterance while a question is open. Longer ones are heard again without
#: regard to the question, and judged by that.
SURE_ANSWER = 0.3
ANSWER_WORDS = 4
#: Hypotheses taken from the lattice.
HYPOTHESES = 100
#: What the decoder divides the logarithms of its hypotheses' likelihoods by, and by how much it
#: flattens the acoustic ones when it makes posterior probabilities (its default `ascale`).
SCORE_SHIFT = 1024
FLATTENED = 20
OPEN = "_default"


class SphinxEar:
    """Hears English about electrical boxes. One decoder lives on, so it adapts to the speaker.

    `build_seconds` says how long making language models took; 0 where they were cached.
    """

    def __init__(self, speech: Speech | None = None, cache: Path | None = None) -> None:
        from pocketsphinx import get_model_path

        model = Path(get_model_path()) / "en-us"
        self._cache = Cache(cache)
        self.language = Language(speech or trade_speech(), model, self._cache)
        self._known = self.language.speech.words
        self._decoder = self._start(model / "en-us")
        self._loaded = {OPEN}

    @property
    def build_seconds(self) -> float:
        """Seconds spent on making language models so far."""
        return self._cache.seconds

    def hear(self, sound: Sound, expect: str | None = None) -> tuple[Hearing, ...]:
        """The utterances in `sound`, in order. `expect` names the open question.

        Sound without speech gives one hearing of no words with its trouble.
        """
        search = self._search(expect)
        sound = at_rate(sound)
        utterances = split(sound)
        if not utterances:
            trouble = reason(sound)
            return (Hearing((), "silence" if trouble == "unclear" else trouble),)
        return tuple(self._hear_one(utterance, search) for utterance in utterances)

    def sureness(self, sound: Sound, expect: str | None = None) -> tuple[float, ...]:
        """How surely each utterance in `sound` is about the trade, from -1 to 1."""
        search = self._search(expect)
        return tuple(
            sureness(self._decode(utterance, search), self._known)
            for utterance in split(at_rate(sound))
        )

    def _hear_one(self, sound: Sound, search: str) -> Hearing:
        segments = self._decode(sound, search)
        asked = search != OPEN and len(segments) <= ANSWER_WORDS
        if sureness(segments, self._known) < (SURE_ANSWER if asked else SURE):
            return Hearing((), reason(sound))
        best = masked((part.text for part in segments), self._known)
        return Hearing(readings(best, self._hypotheses()))

    def _decode(self, sound: Sound, search: str) -> list[Segment]:
        segments = self._decode_with(search, sound)
        if search != OPEN and len(segments) > ANSWER_WORDS:
            segments = self._decode_with(OPEN, sound)
        return segments

    def _decode_with(self, search: str, sound: Sound) -> list[Segment]:
        self._decoder.activate_search(search)
        self._decoder.start_utt()
        self._decoder.process_raw(levelled(sound).samples, full_utt=True)
        self._decoder.end_utt()
        return self._segments()

    def _segments(self) -> list[Segment]:
        if self._decoder.hyp() is None:
            return []
        return [
            Segment(
                part.word.partition("(")[0],
                part.end_frame - part.start_frame + 1,
                min(1.0, part.prob),
            )
            for part in self._decoder.seg()
            if part.word[0] not in "<["
        ]

    def _hypotheses(self) -> Iterator[tuple[tuple[str, ...], float]]:
        for found in islice(self._decoder.nbest(), HYPOTHESES):
            if found is not None and found.score > 0:
                likelihood = math.log(found.score) * SCORE_SHIFT / FLATTENED
                yield masked(found.hypstr.split(), self._known), likelihood

    def _search(self, expect: str | None) -> str:
        """The name of the search for an open question, loaded if it was not."""
        narrow = self.language.narrows(expect) or OPEN
        if narrow not in self._loaded:
            self._decoder.add_lm_file(narrow, str(self.language.model_file(narrow)))
            self._loaded.add(narrow)
        return narrow

    def _start(self, acoustics: Path) -> Decoder:
        try:
            return self._decoder_of(acoustics)
        except RuntimeError:
            self.language.forget()
        try:
            return self._decoder_of(acoustics)
        except RuntimeError as error:
            raise EarsError(
                "The embedded speech engine did not start; reinstall it with "
                "'pip install --force-reinstall pocketsphinx'."
            ) from error

    def _decoder_of(self, acoustics: Path) -> Decoder:
        from pocketsphinx import Decoder

        return Decoder(
            hmm=str(acoustics),
            dict=str(self.language.dictionary_file),
            lm=str(self.language.model_file(None)),
            loglevel="FATAL",
        )
