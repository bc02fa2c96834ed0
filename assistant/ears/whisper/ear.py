"""The ear that listens with the network: utterances in, readings with doubt out."""

from __future__ import annotations

from collections.abc import Sequence
from importlib.resources import files
from itertools import chain, pairwise
from pathlib import Path
from typing import TypeAlias

import numpy as np
from boxaloud.assistant.ears.answering import asked_back, doubted
from boxaloud.assistant.ears.attention import Attention, Tell
from boxaloud.assistant.ears.cache import Cache
from boxaloud.assistant.ears.decoding import OPEN
from boxaloud.assistant.ears.denoiser import the_denoiser
from boxaloud.assistant.ears.hearing import UNKNOWN, Hearing, Sound
from boxaloud.assistant.ears.language import Language, Speech, trade_speech
from boxaloud.assistant.ears.level import reason
from boxaloud.assistant.ears.noise import QUIET_DB, Cleaner, above_noise, values
from boxaloud.assistant.ears.readings import readings
from boxaloud.assistant.ears.split import NOISY_SHARE, SPEECH_SHARE, spans
from boxaloud.assistant.ears.streamed import Streamed
from boxaloud.assistant.ears.wav import at_rate
from boxaloud.assistant.ears.whisper import model_name
from boxaloud.assistant.ears.whisper.custom import Custom
from boxaloud.assistant.ears.whisper.network import Memory, Network
from boxaloud.assistant.ears.whisper.pieces import Pieces
from boxaloud.assistant.ears.whisper.search import Found, Heard, Search
from boxaloud.assistant.ears.whisper.spectrum import spectrum
from boxaloud.assistant.ears.whisper.threads import one_thread
from boxaloud.assistant.ears.whisper.tree import Tree
from boxaloud.assistant.ears.whisper.weights import read_arrays
from boxaloud.grammar.words import Word

#: Sound around what is said that the network is given too, and quiet added after it, in seconds.
AROUND_SECONDS = 0.4
AFTER_SECONDS = 1.0
#: Longer speech is heard in parts; the network takes in half a minute at most.
LONGEST_SECONDS = 24.0
#: Of less merit than this, and than so much less for each word, it was other talk or noise; up to
#: so much more, it is in doubt. Measured with statements that the benchmark does not use.
LEAST_MERIT = -11.3
LEAST_EACH_WORD = -0.35
DOUBTFUL_MERIT = 3.6
#: The same for how much the network would rather have heard something else.
STRANGE = 1.2
DOUBTFUL = 0.6
#: What merits are divided by to be likelihoods: in quiet, and in noise, where they are too sure.
FLATTENED = 1.6
FLATTENED_IN_NOISE = 2.0
#: A command is so short, and must be so far ahead of what would be an answer.
COMMAND_WORDS = 2
COMMAND_AHEAD = 1.1
#: An answer to an open question has no more words.
ANSWER_WORDS = 4

Span: TypeAlias = tuple[float, float]
#: Stands for a part of a statement that was not understood.
UNHEARD = ((Word(UNKNOWN, 0.0),),)


class WhisperEar:
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
        speech: Speech | None = None,
        cache: Path | None = None,
        cleaner: Cleaner | None = None,
    ) -> None:
        from pocketsphinx import get_model_path

        model = Path(get_model_path()) / "en-us"
        self.folder = folder
        self.name = model_name(folder)
        self._cleaner = cleaner or Cleaner(the_denoiser)
        self.language = Language(speech or trade_speech(), model, Cache(cache))
        sounds, others = self._dictionary()
        self.words = sorted(self.language.speech.words & sounds.keys())
        pieces = Pieces(folder / "tokenizer.json")
        network = Network(read_arrays(folder / "model.bin"))
        prompt = (
            files("boxaloud.assistant.ears").joinpath("data/whisper_prompt.txt").read_text("utf-8")
        )
        self._network = network
        self._search = Search(
            network,
            Tree(self.words, others, pieces),
            self.words,
            sounds,
            (pieces.before, *pieces.of(prompt), *pieces.start),
        )
        self._customs: dict[str, Custom] = {}

    def hear(self, sound: Sound, expect: str | None = None) -> tuple[Hearing, ...]:
        """The utterances in `sound`, in order. `expect` names the open question.

        Sound without speech gives one hearing of no words with its trouble.
        """
        sound = at_rate(sound)
        clean = self._cleaner.clean(sound)
        found = [self._hear_one(sound, clean, span, expect) for span in _spans(sound)]
        return tuple(found) or (_nothing(sound),)

    def attend(self, expect: str | None, tell: Tell) -> Attention:
        """Begin to listen to a statement while it is spoken."""
        return Streamed(self, self._cleaner, expect, tell)

    def hear_statement(self, clean: Sound, raw: Sound, expect: str | None) -> tuple[Hearing, ...]:
        """The one statement in a sound, whose pauses do not part it; `clean` has less noise."""
        found = [self._hear_one(raw, clean, span, expect) for span in _spans(raw)]
        return (_joined(found) if found else _nothing(raw),)

    def heard(self, raw: Sound, clean: Sound, span: Span, expect: str | None = None) -> Heard:
        """What the search finds in speech that lasts over a span of a sound."""
        sounds = (raw,) if clean is raw else (raw, clean)
        memories = [self._memory(sound, span) for sound in sounds]
        seconds = span[1] - span[0]
        narrow = self.language.narrows(expect) or OPEN
        found = self._search.search(memories, seconds, self._custom(narrow))
        if narrow != OPEN and (not found.found or len(found.found[0].words) > ANSWER_WORDS):
            found = self._search.search(memories, seconds, self._custom(OPEN))
        return found

    def _memory(self, sound: Sound, span: Span) -> Memory:
        start, end = max(0.0, span[0] - AROUND_SECONDS), span[1] + AROUND_SECONDS
        part = values(sound.samples)[int(start * sound.rate) : int(end * sound.rate)]
        return self._network.heard(spectrum(part, len(part) / sound.rate + AFTER_SECONDS))

    def _hear_one(self, raw: Sound, clean: Sound, span: Span, expect: str | None) -> Hearing:
        with one_thread():
            heard = self.heard(raw, clean, span, expect)
        best = heard.found[0] if heard.found else None
        if best is None:
            return Hearing((), reason(raw))
        spare = best.merit - LEAST_MERIT - LEAST_EACH_WORD * len(best.words)
        if spare < 0 or heard.strange > STRANGE or _rivalled(heard.found, expect):
            return Hearing((), reason(raw))
        flattened = FLATTENED if above_noise(raw) >= QUIET_DB else FLATTENED_IN_NOISE
        weighed = [(one.words, one.merit / flattened) for one in heard.found]
        found = readings(best.words, weighed)
        if spare < DOUBTFUL_MERIT or heard.strange > DOUBTFUL:
            found = doubted(found)
        return Hearing(found)

    def _custom(self, narrow: str) -> Custom:
        if narrow not in self._customs:
            model = self.language.model_file(None if narrow == OPEN else narrow)
            self._customs[narrow] = Custom(model, self.words)
        return self._customs[narrow]

    def _dictionary(self) -> tuple[dict[str, int], list[str]]:
        """How many sounds each word has, and common words that are not the trade's."""
        sounds: dict[str, int] = {}
        for line in self.language.dictionary_file.read_text("utf-8").splitlines():
            word, _, said = line.partition(" ")
            sounds.setdefault(word, len(said.split()))
        others = [word.removeprefix("~") for word in sounds if word.startswith("~")]
        return sounds, [word for word in others if "(" not in word]


def _spans(sound: Sound) -> list[Span]:
    """From when to when speech lasts, in seconds; long speech in parts."""
    quiet = above_noise(sound) >= QUIET_DB
    parts: list[Span] = []
    for start, end in spans(sound, SPEECH_SHARE if quiet else NOISY_SHARE):
        number = int((end - start) / LONGEST_SECONDS) + 1
        edges = np.linspace(start, end, number + 1).tolist()
        parts += list(pairwise(edges))
    return parts


def _joined(parts: Sequence[Hearing]) -> Hearing:
    """What was said with pauses in it as one utterance; a part not understood is unknown."""
    every = [part.readings or UNHEARD for part in parts]
    if not any(part.readings for part in parts):
        return parts[0]
    best = [one[0] for one in every]
    whole = [best]
    for place, others in enumerate(every):
        whole += [[*best[:place], other, *best[place + 1 :]] for other in others[1:]]
    return Hearing(tuple(tuple(chain(*one)) for one in whole))


def _rivalled(found: Sequence[Found], expect: str | None) -> bool:
    """True of "no" or a command, which counts unasked, where a number may have been said."""
    best = found[0]
    if len(best.words) > COMMAND_WORDS or asked_back(list(map(Word, best.words)), expect):
        return False
    near = (one for one in found[1:] if one.merit > best.merit - COMMAND_AHEAD)
    return any(asked_back(list(map(Word, one.words)), expect) for one in near)


def _nothing(sound: Sound) -> Hearing:
    trouble = reason(sound)
    return Hearing((), "silence" if trouble == "unclear" else trouble)
