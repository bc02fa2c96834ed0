"""The better ear, where a Vosk model was added: the same language, heard while it is spoken."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from boxaloud.assistant.asr.asr_types import RecognitionResult, Sound
from boxaloud.assistant.asr.audio.levels import normalise_level, rejection_reason
from boxaloud.assistant.asr.audio.pause_segmentation import split
from boxaloud.assistant.asr.audio.wav import at_rate
from boxaloud.assistant.asr.engines.vosk.vosk_library import Model
from boxaloud.assistant.asr.hypotheses.nbest import masked, readings
from boxaloud.assistant.asr.lm.language_model import SEED, Domain, trade_domain
from boxaloud.assistant.asr.streaming import PartialCallback, RecognitionStream

#: Sentences that the phrase list is made of. It becomes word pairs, so more add little.
GRAMMAR_SENTENCES = 5000
#: Readings asked of the engine.
MAX_ALTERNATIVES = 10
#: Below this share of words of the trade, an utterance was about something else. Not enough: with
#: a small English model of 2020, 7 of 67 other sentences entered something in quiet.
MIN_IN_DOMAIN_SHARE = 0.5
CHUNK_BYTES = 8000
#: Quiet given to the engine after an utterance, in bytes: 0.3 s, without which it drops the end.
TRAILING_SILENCE = bytes(9600)


class VoskRecogniser:
    """Hears a speech with a Vosk model; the trade's unless told another.

    `missing` are words of the speech that the model does not know and so cannot hear.
    """

    def __init__(self, folder: Path, speech: Domain | None = None) -> None:
        self.speech = speech or trade_domain()
        self._model = Model(folder)
        self._known = frozenset(word for word in self.speech.words if self._model.knows(word))
        self.missing = tuple(sorted(self.speech.words - self._known))
        self._recognisers: dict[str | None, Any] = {}

    @property
    def folder(self) -> Path:
        """Where the model is."""
        return self._model.about.folder

    def hear(self, sound: Sound, expect: str | None = None) -> tuple[RecognitionResult, ...]:
        """The utterances in `sound`, in order. `expect` names the open question."""
        sound = at_rate(sound)
        utterances = split(sound)
        if not utterances:
            trouble = rejection_reason(sound)
            return (RecognitionResult((), "silence" if trouble == "unclear" else trouble),)
        return tuple(self._hear_one(utterance, expect) for utterance in utterances)

    def attend(self, expect: str | None, tell: PartialCallback) -> RecognitionStream:
        """Begin to listen to a statement while it is spoken."""
        return _VoskStream(self, self.recogniser(expect), tell)

    def recogniser(self, expect: str | None) -> Any:
        """A recogniser for the open question, or for anything; ready for a new utterance."""
        if expect not in self._recognisers:
            made = self._model.recogniser(self.phrases(expect))
            made.SetMaxAlternatives(MAX_ALTERNATIVES)
            self._recognisers[expect] = made
        found = self._recognisers[expect]
        found.Reset()
        return found

    def phrases(self, expect: str | None) -> list[str]:
        """What the model is told may be said: only words it knows, and one for all others.

        A sentence with a word it does not know is left out: with the word dropped it would teach
        what nobody says.
        """
        said = dict.fromkeys(
            sentence
            for sentence in self.speech.sample(GRAMMAR_SENTENCES, SEED, expect)
            if self._known.issuperset(sentence.split())
        )
        said.update(dict.fromkeys(sorted(self._known)))
        return [*said, *([self._model.unknown] if self._model.unknown else [])]

    def judged(self, result: str, sound: Sound) -> RecognitionResult:
        """A final result of the engine as a hearing."""
        hypotheses = list(self._hypotheses(result))
        if not hypotheses:
            return RecognitionResult((), rejection_reason(sound))
        found = readings(hypotheses[0][0], hypotheses)
        words = found[0]
        sure = sum(word.confidence or 0.0 for word in words if word.text in self._known)
        return (
            RecognitionResult(found)
            if sure >= MIN_IN_DOMAIN_SHARE * len(words)
            else RecognitionResult((), rejection_reason(sound))
        )

    def _hear_one(self, sound: Sound, expect: str | None) -> RecognitionResult:
        recogniser = self.recogniser(expect)
        samples = normalise_level(sound).samples + TRAILING_SILENCE
        results = []
        for start in range(0, len(samples), CHUNK_BYTES):
            if recogniser.AcceptWaveform(samples[start : start + CHUNK_BYTES]):
                results.append(recogniser.Result())
        return self.judged(_merge_results([*results, recogniser.FinalResult()]), sound)

    def _hypotheses(self, result: str) -> Iterator[tuple[tuple[str, ...], float]]:
        """Texts with the logarithm of their likelihood, which the engine calls confidence."""
        for found in json.loads(result).get("alternatives", []):
            words = masked(found["text"].split(), self._known)
            if words:
                yield words, float(found["confidence"])


class _VoskStream:
    """One statement heard while it is spoken."""

    def __init__(self, ear: VoskRecogniser, recogniser: Any, tell: PartialCallback) -> None:
        self._ear = ear
        self._recogniser = recogniser
        self._tell = tell
        self._samples = bytearray()
        self._results: list[str] = []
        self._told = ""

    def feed(self, samples: bytes) -> None:
        self._samples += samples
        if self._recogniser.AcceptWaveform(samples):
            self._results.append(self._recogniser.Result())
        words = self.so_far()
        if words and words != self._told:
            self._told = words
            self._tell(words)

    def lull(self) -> None:
        return

    def resume(self) -> None:
        return

    def so_far(self) -> str:
        """The likeliest words of the parts that are over, and of the one that is not."""
        over = [_best_text(result) for result in self._results]
        going_on = str(json.loads(self._recogniser.PartialResult()).get("partial", ""))
        return " ".join(part for part in (*over, going_on) if part)

    def finish(self) -> tuple[RecognitionResult, ...]:
        self._recogniser.AcceptWaveform(TRAILING_SILENCE)
        results = [*self._results, self._recogniser.FinalResult()]
        return (self._ear.judged(_merge_results(results), Sound(bytes(self._samples))),)


def _best_text(result: str) -> str:
    found = json.loads(result).get("alternatives") or [{"text": ""}]
    return str(found[0]["text"]).strip()


def _merge_results(results: list[str]) -> str:
    """The parts that the engine cut a statement into, as one: other ways only of the last."""
    spoken = [result for result in results if _best_text(result)]
    if len(spoken) < 2:
        return spoken[0] if spoken else '{"alternatives": []}'
    before = " ".join(_best_text(result) for result in spoken[:-1])
    last = json.loads(spoken[-1])["alternatives"]
    for found in last:
        found["text"] = f"{before} {found['text'].strip()}"
    return json.dumps({"alternatives": last})
