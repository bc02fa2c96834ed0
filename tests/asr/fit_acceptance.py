"""Fits how likely an utterance was heard rightly: the rows of `data/acceptance.toml`.

    python tests/asr/fit_acceptance.py [--ear ctc] [--sample N] [--kept FILE] [--log FILE]

A logistic regression with a small penalty, by Newton's method. It learns from three flite voices
(awb, rms, kal16), each at several paces and pitches, and from the speakers of a file of
`kept_voices`, in the noises of `site_noise`, some by telephone or cut to the word; none of these
voices and noises is in `bench_ears`. The learnt ear was trained on the flite voices and not on
those that are kept. What was measured of each sound is kept in a log, so that a second run only
fits. The threshold under which it asks is
the lowest at which no more than `WRONG` of each kind would enter wrongly; each voice is foretold
by weights that were fitted without it.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from dataclasses import astuple, dataclass, fields
from itertools import chain
from pathlib import Path
from typing import Literal

import numpy as np
from synthetic_voices import other_talk  # first: it leads to the electrician

# isort: split
import ear_cases
from acceptance_regression import Kind, Matrix, Row, few, fitted, left_out, threshold, trade
from boxaloud.assistant.asr.asr_types import Recogniser, Sound
from boxaloud.assistant.asr.audio.pause_segmentation import spans
from boxaloud.assistant.asr.audio.wav import at_rate, read_wav
from boxaloud.assistant.asr.hypotheses.acceptance import Features
from boxaloud.assistant.asr.hypotheses.meaning_pool import judged, measured
from boxaloud.assistant.asr.hypotheses.meaning_representation import meaning
from boxaloud.assistant.dialogue.act_handlers import QUESTIONS
from boxaloud.grammar import recognise
from boxaloud.grammar.acts import OtherTalk
from boxaloud.grammar.lexer.numbers import word_classes
from calibration import calibration_error, diagram
from kept_voices import kept_utterances
from site_noise import KINDS, in_noise
from which_recogniser import EARS, the_ear

VOICES = ("awb", "rms", "kal16")
Channel = Literal["room", "telephone", "cut", "telephone cut", "close cut", "telephone close cut"]
#: Pace, pitch in hertz (None as the voice has it).
WAYS = ((1.0, None), (0.85, 105), (1.2, 130), (1.0, 165))
LEVELS = (None, None, 20.0, 15.0, 10.0, 5.0)
#: Share of statements that are also heard by telephone.
NARROW_STATEMENTS = 0.25
#: How a sound comes: as it is; by telephone; cut to its words, or a little within them; both.
CHANNELS: tuple[Channel, ...] = (
    "room", "telephone", "cut", "telephone cut", "close cut", "telephone close cut"
)  # fmt: skip
#: How far within its words a sound is cut closely, in seconds: recordings by hand are.
CLOSE_SECONDS = 0.04
KEPT_IN_ROOM = 0.6
TELEPHONE_RATE = 8000
SEED = 105
#: The thresholds of few words, and of a bare answer to something asked back: as many answers enter
#: as with one threshold for all and without `whole`, and a third fewer of the other words.
ASK_FEW, ASK_CONFIRMING = 0.935, 0.90
#: What is less likely right than this is given up rather than asked about.
REFUSE = 0.3
#: The same of a number in answer to a question: hardly any that is foretold less likely is right.
REFUSE_NUMBER = 0.02
ANSWERS = {
    "confirm": ("yes", "no", "that's right", "correct", "yes please", "nope", "right", "skip"),
    "box": ("eighteen", "twenty point three", "thirty", "sixteen", "twelve and a half"),
    "clamps": ("no clamps", "inside", "outside", "none", "yes", "no"),
    "grounds": (
        "zero",
        "one",
        "two",
        "three",
        "four",
        "five",
        "six",
        "seven",
        "eight",
        "nine",
        "none",
    ),
    "device_size": ("fourteen", "twelve", "ten"),
}
#: Words of other talk where an answer is due; none of them is in `ear_cases.STRAY`.
STRAY = (
    "river", "fence", "mister", "nose", "yellow", "cousin", "rest", "pen", "teeth", "lecture",
    "garden", "slow", "moon", "bite", "eat", "sick", "heaven", "tune", "forest", "glue", "into",
    "floor", "hive", "mix", "height", "wine", "then", "yesterday", "snow",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Said:
    """One sound: what is said, how, in which noise, and to which question. `meant` is empty where
    it is none of the trade's."""

    text: str
    meant: str
    voice: str
    way: int
    noise: str
    decibels: float | None
    expect: str | None
    channel: Channel = "room"

    @property
    def kind(self) -> Kind:
        """What it is: other talk, or a statement, or an answer to a question."""
        if not self.meant:
            return "other"
        if self.expect:
            return "answer"
        quiet = self.decibels is None and self.channel == "room"
        return "quiet statement" if quiet else "statement"


def cases(sample: int) -> Iterator[Said]:
    """Statements, answers, words and sentences of other talk, in turn."""
    dice = np.random.default_rng(SEED)
    texts: list[tuple[str, str, str | None]]
    texts = [(text, text, None) for text in ear_cases.statements(sample, SEED)]
    for expect, answers in ANSWERS.items():
        texts += [(text, text, expect) for text in answers for _ in range(max(1, sample // 60))]
        texts += [(text, "", expect) for text in STRAY[: sample // 6]]
    texts += [(text, "", None) for text in other_talk()]
    for text, meant, asked in texts:
        yield Said(
            text, meant, VOICES[dice.integers(3)], int(dice.integers(len(WAYS))),
            KINDS[dice.integers(len(KINDS))], LEVELS[dice.integers(len(LEVELS))], asked,
        )  # fmt: skip
    for text, meant, asked in texts:
        if asked is None and dice.random() > NARROW_STATEMENTS:
            continue
        channel = CHANNELS[1 + dice.integers(len(CHANNELS) - 1)]
        yield Said(
            text, meant, VOICES[dice.integers(3)], int(dice.integers(len(WAYS))), "hiss",
            (None, None, 20.0)[dice.integers(3)], asked, channel,
        )  # fmt: skip


def kept_cases(path: Path) -> Iterator[Said]:
    """What the speakers of a file say, each in two noises: as a statement, as an answer where it
    is one, and as an answer that is none where it is one word of other talk."""
    dice = np.random.default_rng(SEED + 1)
    for place, one in enumerate(kept_utterances(path)):
        asked = [expect for expect, answers in ANSWERS.items() if one.text in answers]
        told = recognise(one.text, asked[0] if asked else None)
        meant = bool(told.acts) and not any(isinstance(act, OtherTalk) for act in told.acts)
        if not meant and all(map(word_classes, one.text.split())):
            continue  # numbers in a row: neither the trade's nor other talk
        if not meant and " " not in one.text:
            asked = [list(ANSWERS)[dice.integers(len(ANSWERS))]]
        for _ in range(2):
            yield Said(
                one.text, one.text if meant else "", one.speaker, place,
                KINDS[dice.integers(len(KINDS))], LEVELS[dice.integers(len(LEVELS))],
                asked[0] if asked else None, _channel(dice),
            )  # fmt: skip


def _channel(dice: np.random.Generator) -> Channel:
    other = dice.random() >= KEPT_IN_ROOM
    return CHANNELS[1 + dice.integers(len(CHANNELS) - 1) if other else 0]


def spoken(said: Said, kept: Path | None = None) -> Sound:
    """The sound of it, in its noise."""
    sound = _by_flite(said) if said.voice in VOICES else _by_one_kept(said, kept)
    noise = "hum" if said.noise == "babble" else said.noise
    seed = int(hashlib.sha256(repr(said).encode()).hexdigest()[:6], 16)
    heard = in_noise(sound, noise, said.decibels, seed)
    if "telephone" in said.channel:
        heard = at_rate(Sound(at_rate(heard, TELEPHONE_RATE).samples, TELEPHONE_RATE))
    if "cut" not in said.channel:
        return heard
    return _cut(heard, CLOSE_SECONDS if "close" in said.channel else 0.0)


def _by_one_kept(said: Said, kept: Path | None) -> Sound:
    assert kept is not None, f"--kept names the file in which {said.voice} speaks"
    return kept_utterances(kept)[said.way].sound


def _by_flite(said: Said) -> Sound:
    pace, pitch = WAYS[said.way]
    sets = ["--setf", f"duration_stretch={pace}"]
    if pitch:
        sets += ["--setf", f"int_f0_target_mean={pitch}"]
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "said.wav"
        text = said.text.replace("gfci", "g f c i")
        subprocess.run(
            ["flite", "-voice", said.voice, *sets, "-t", text, "-o", str(path)], check=True
        )
        return read_wav(path)


def _cut(sound: Sound, within: float) -> Sound:
    """The sound from the first frame of speech to the last, and `within` seconds more at each
    end, with nothing around it."""
    found = spans(sound)
    if not found:
        return sound
    ends = found[0][0] + within, found[-1][1] - within
    first, last = (int(at * sound.rate) * 2 for at in ends)
    return Sound(sound.samples[first:last], sound.rate)


def rows_of(ear: Recogniser, said: Said, kept: Path | None = None) -> Iterator[Row]:
    """What an ear gives of it; nothing where it heard no words."""
    for hearing in ear.hear(spoken(said, kept), said.expect):
        found = judged(hearing, said.expect)
        if found is None or hearing.evidence is None:
            continue
        right = bool(said.meant) and found.meant == meaning(said.meant, said.expect)
        values = measured(hearing, said.expect).values()
        yield Row(said.voice, said.kind, values, right, said.text)


def enters(said: Said) -> bool:
    """Whether it may enter anything: a misheard question enters nothing, and sets no threshold."""
    told = recognise(said.meant, said.expect).acts
    return not said.meant or any(not isinstance(act, QUESTIONS) for act in told)


def table(ear: str, weights: Matrix, ask: float) -> str:
    names = [field.name for field in fields(Features)]
    lines = [f"[{ear}]", f"intercept = {weights[-1]:.3f}"]
    lines += [f"{name} = {value:.3f}" for name, value in zip(names, weights[:-1], strict=True)]
    return "\n".join(
        [
            *lines,
            f"ask = {ask:.2f}",
            f"ask_few = {ASK_FEW:.3f}",
            f"ask_confirming = {ASK_CONFIRMING:.2f}",
            f"refuse = {REFUSE:.2f}",
            f"refuse_number = {REFUSE_NUMBER:.2f}",
        ]
    )


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--ear", choices=EARS, default="ctc")
    parser.add_argument("--sample", type=int, default=240)
    parser.add_argument("--kept", type=Path)
    parser.add_argument("--log", type=Path, default=Path("fit_acceptance.jsonl"))
    parser.add_argument("--denoiser", action="store_true")
    asked = parser.parse_args()
    known = [json.loads(line) for line in asked.log.open()] if asked.log.exists() else []
    done = {Said(*one["said"]) for one in known}
    ear = the_ear(asked.ear, asked.denoiser)
    with asked.log.open("a") as log:
        kept = kept_cases(asked.kept) if asked.kept else ()
        for said in chain(kept, cases(asked.sample)):
            if said in done:
                continue
            hearings = [[row.features, row.right] for row in rows_of(ear, said, asked.kept)]
            known.append({"said": astuple(said), "rows": hearings})
            log.write(json.dumps(known[-1]) + "\n")
            log.flush()
    rows = [
        Row(said.voice, said.kind, tuple(values), right, said.text)
        for said, hearings in ((Said(*one["said"]), one["rows"]) for one in known)
        for values, right in hearings
    ]
    judged = left_out(rows)
    told = [(likely, row.right) for likely, row in judged]
    out = sys.stdout.write
    out(f"{len(known)} sounds, {len(rows)} hearings, each foretold without its own voice:\n")
    out(f"{diagram(told)}\nexpected calibration error {calibration_error(told):.3f}\n\n")
    entering = [said for said in (Said(*one["said"]) for one in known) if enters(said)]
    kinds, texts = Counter(said.kind for said in entering), {said.text for said in entering}
    out(f"{trade(judged)}\n\n")
    entered = [(likely, row) for likely, row in judged if row.text in texts and not few(row)]
    out(table(asked.ear, fitted(rows), threshold(entered, kinds)) + "\n")


if __name__ == "__main__":
    main()
