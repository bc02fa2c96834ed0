"""The embedded ear: PocketSphinx with its bundled US English model and the trade's language."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from boxaloud.assistant.ears.answering import answered, doubted, in_doubt, one_word
from boxaloud.assistant.ears.attention import Attention, Tell
from boxaloud.assistant.ears.band import telephone, widened
from boxaloud.assistant.ears.cache import Cache
from boxaloud.assistant.ears.decoding import OPEN, Decoding
from boxaloud.assistant.ears.denoiser import the_denoiser
from boxaloud.assistant.ears.hearing import Hearing, Sound
from boxaloud.assistant.ears.language import Language, Speech, trade_speech
from boxaloud.assistant.ears.level import reason
from boxaloud.assistant.ears.noise import Cleaner, above_noise, parted
from boxaloud.assistant.ears.readings import Segment, masked, readings, sureness
from boxaloud.assistant.ears.streamed import Streamed
from boxaloud.assistant.ears.wav import at_rate
from boxaloud.grammar.words import Word

#: An utterance less surely about the trade than this was about something else. Measured by
#: tests/ears/measure_rejection.py.
SURE = 0.45
#: The same for a short utterance while a question is open. Longer ones are heard again without
#: regard to the question, and judged by that.
SURE_ANSWER = 0.3
ANSWER_WORDS = 4
#: So much less surely about the trade, it counts as heard in doubt, where doubt is asked back.
DOUBT_BAND = 0.15
#: Where the words rise less far (decibels) above the noise, all of them are in doubt.
LOUD_DB = 14.0


class SphinxEar:
    """Hears English about electrical boxes. One decoder lives on, so it adapts to the speaker.

    `build_seconds` says how long making language models took; 0 where they were cached.
    `cleaner` takes noise away; the best one that is installed unless told another.
    """

    def __init__(
        self,
        speech: Speech | None = None,
        cache: Path | None = None,
        cleaner: Cleaner | None = None,
    ) -> None:
        from pocketsphinx import get_model_path

        model = Path(get_model_path()) / "en-us"
        self._cache = Cache(cache)
        self.language = Language(speech or trade_speech(), model, self._cache)
        self._known = self.language.speech.words
        self._decoding = Decoding(self.language, model / "en-us")
        self._cleaner = cleaner or Cleaner(the_denoiser)

    @property
    def build_seconds(self) -> float:
        """Seconds spent on making language models so far."""
        return self._cache.seconds

    def hear(self, sound: Sound, expect: str | None = None) -> tuple[Hearing, ...]:
        """The utterances in `sound`, in order. `expect` names the open question.

        Sound without speech gives one hearing of no words with its trouble.
        """
        sound = at_rate(sound)
        return self._hear_parts(self._cleaner.utterances(sound), sound, expect)

    def attend(self, expect: str | None, tell: Tell) -> Attention:
        """Begin to listen to a statement while it is spoken."""
        return Streamed(self, self._cleaner, expect, tell)

    def hear_statement(self, clean: Sound, raw: Sound, expect: str | None) -> tuple[Hearing, ...]:
        """The one statement in a sound, whose pauses do not part it; `clean` has less noise."""
        pieces = parted(clean, above_noise(raw))
        whole = Sound(b"".join(piece.samples for piece in pieces))
        return self._hear_parts((whole,) if pieces else (), raw, expect)

    def _hear_parts(
        self, utterances: Sequence[Sound], raw: Sound, expect: str | None
    ) -> tuple[Hearing, ...]:
        """The same of utterances already parted and freed of noise; `raw` is all the sound."""
        if not utterances:
            trouble = reason(raw)
            return (Hearing((), "silence" if trouble == "unclear" else trouble),)
        wide = [widened(part) for part in utterances] if telephone(raw) else utterances
        heard = tuple(self._hear_one(utterance, expect) for utterance in wide)
        loud = above_noise(raw) < LOUD_DB
        return (
            tuple(replace(one, readings=doubted(one.readings)) for one in heard) if loud else heard
        )

    def sureness(self, sound: Sound, expect: str | None = None) -> tuple[float, ...]:
        """How surely each utterance in `sound` is about the trade, from -1 to 1."""
        search = self._decoding.search(expect)
        return tuple(
            sureness(self._decode(utterance, search), self._known)
            for utterance in self._cleaner.utterances(at_rate(sound))
        )

    def _hear_one(self, sound: Sound, expect: str | None) -> Hearing:
        search = self._decoding.search(expect)
        segments = self._decode(sound, search)
        asked = search != OPEN and len(segments) <= ANSWER_WORDS
        found: tuple[tuple[Word, ...], ...] = ()
        sure = sureness(segments, self._known) - (SURE_ANSWER if asked else SURE)
        if sure >= -DOUBT_BAND:
            best = masked((part.text for part in segments), self._known)
            found = readings(best, self._decoding.hypotheses())
        if sure < 0:
            found = in_doubt(found, expect)
        if expect is not None and search != OPEN and one_word(sound):
            answer = self._decoding.answer(expect, sound)
            found = answered(answer, found, sureness(segments, self._known), expect)
        return Hearing(found) if found else Hearing((), reason(sound))

    def _decode(self, sound: Sound, search: str) -> list[Segment]:
        segments = self._decoding.segments(search, sound)
        if search != OPEN and len(segments) > ANSWER_WORDS:
            segments = self._decoding.segments(OPEN, sound)
        return segments
