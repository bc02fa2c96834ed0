"""How well an ear hears, in quiet and on a noisy site: the README's table.

    python tests/asr/bench_recognition.py [--ear whisper] [--digits FOLDER] [--sample N]
    [--no-denoiser]

Needs the Debian packages flite, festival and festvox-us-slt-hts, and the extra `bench` (jiwer).
Recordings are made on the fly and kept in a temporary folder. Every statement is heard in a
conversation of its own; `--digits` names a folder of human digits (`7_speaker_take.wav`).
"""

from __future__ import annotations

import argparse
import resource
import statistics
import sys
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import jiwer
from boxaloud.assistant.asr.asr_types import Recogniser, Sound
from boxaloud.assistant.asr.audio.wav import read_wav
from boxaloud.assistant.asr.hypotheses.meaning_representation import meaning
from boxaloud.assistant.asr.hypotheses.rescoring import choose
from boxaloud.assistant.dialogue import Conversation
from judging import OTHERWISE, contents, judged, result
from site_noise import KINDS, alone, in_noise
from synthetic_voices import VOICES, other_talk, spoken, statements
from which_recogniser import EARS, the_ear

LEVELS = (None, 20, 15, 10, 5)
DIGITS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
#: A talk to which a digit is the answer: how many grounds.
BEFORE_DIGITS = ("two number twelve wires and one switch", "no clamps", "eighteen cubic inch box")
ALONE_SECONDS = 6.0


@dataclass
class Tally:
    """What became of the recordings of one level of noise."""

    outcomes: Counter[str] = field(default_factory=Counter)
    of_kind: Counter[str] = field(default_factory=Counter)
    said: list[str] = field(default_factory=list)
    heard: list[str] = field(default_factory=list)
    seconds: float = 0.0
    spent: float = 0.0
    replies: list[float] = field(default_factory=list)
    false: int = 0
    others: int = 0

    def row(self, name: str) -> str:
        """A line of the table."""
        whole = self.outcomes.total() or 1
        heard = self.outcomes["same"] + self.outcomes["asked, rightly heard"]
        cells = [
            name,
            f"{100 * self.outcomes['same'] / whole:.1f} %",
            f"{100 * heard / whole:.1f} %",
            f"{100 * jiwer.wer(self.said, self.heard):.1f} %" if self.said else "",
            str(self.outcomes["wrong"]),
            str(self.outcomes[OTHERWISE]),
            f"{self.false} of {self.others}",
            f"{self.spent / self.seconds:.3f}" if self.seconds else "",
            f"{1000 * statistics.median(self.replies):.0f} ms" if self.replies else "",
        ]
        return "| " + " | ".join(cells) + " |"


HEAD = (
    "| noise | entered as said | heard as said, some asked back | word error rate | entered "
    "wrongly and not asked back | otherwise, with the same total | false entries | real-time "
    "factor | to the reply, if nothing is heard before the end |\n" + "| --- " * 9 + "|"
)


class Bench:
    """One ear, and the conversations it is heard in."""

    def __init__(self, ear: Recogniser) -> None:
        self.ear = ear

    def say(self, talk: Conversation, sound: Sound) -> tuple[str, float]:
        """What was heard, and how long hearing and answering took (processor seconds)."""
        began = time.process_time()
        texts = []
        for hearing in self.ear.hear(sound, talk.asks):
            words = choose(hearing, talk.asks)
            if words:
                talk.hear(words)
                texts.append(" ".join(word.text for word in words))
        return " ".join(texts), time.process_time() - began

    def statement(self, text: str, sound: Sound, kind: str, tally: Tally) -> str:
        meant, talk = Conversation(), Conversation()
        meant.hear(text)
        heard, spent = self.say(talk, sound)
        got, wanted = talk.talk.state, meant.talk.state
        outcome = judged(got, wanted, meaning(heard) == meaning(text))
        if outcome == "wrong" and result(got) == result(wanted):
            outcome = OTHERWISE
        tally.outcomes[outcome] += 1
        tally.of_kind[f"{kind} {outcome}"] += 1
        tally.said.append(text)
        tally.heard.append(heard)
        tally.seconds += sound.seconds
        tally.spent += spent
        tally.replies.append(spent)
        return f"{outcome}: {text} -> {heard}"

    def other(self, sound: Sound, tally: Tally, before: Sequence[str] = ()) -> str:
        talk = Conversation()
        for text in before:
            talk.hear(text)
        was = talk.talk.state
        heard, _ = self.say(talk, sound)
        tally.others += 1
        entered = contents(talk.talk.state) != contents(was)
        tally.false += entered
        return f"false entry: {heard}" if entered else ""

    def digit(self, word: str, sound: Sound, tally: Tally) -> None:
        meant, talk = Conversation(), Conversation()
        for text in BEFORE_DIGITS:
            meant.hear(text)
            talk.hear(text)
        meant.hear(word)
        was = talk.talk.state
        heard, spent = self.say(talk, sound)
        state = talk.talk.state
        right = heard == word
        if contents(state) == contents(was):
            asked = "asked, rightly heard" if right else "asked, misheard"
            outcome = asked if state.pending else "nothing"
        else:
            outcome = "same" if contents(state) == contents(meant.talk.state) else "wrong"
        tally.outcomes[outcome] += 1
        tally.seconds += sound.seconds
        tally.spent += spent
        tally.replies.append(spent)
        tally.said.append(word)
        tally.heard.append(heard)


def cases(sample: int) -> Iterator[tuple[str, str, str, int]]:
    """Statement, voice, noise, seed: every statement by every voice, thinned to a sample."""
    every = [
        (text, voice, KINDS[(place + number + place // 4) % len(KINDS)], place * 7 + number)
        for place, text in enumerate(statements())
        for number, voice in enumerate(VOICES)
    ]
    return iter(every[:: max(1, len(every) // sample)])


def talkers(voice: str) -> list[Sound]:
    """Other talk by all other voices, for babble."""
    lines = enumerate(other_talk())
    return [spoken(text, VOICES[at % 5]) for at, text in lines if VOICES[at % 5] != voice]


def level(bench: Bench, decibels: int | None, sample: int, show: bool) -> Tally:
    tally = Tally()
    for text, voice, kind, seed in cases(sample):
        sound = in_noise(spoken(text, voice), kind, decibels, seed, talkers(voice))
        told(show, bench.statement(text, sound, kind, tally), kind, voice)
    lines = [(text, voice) for text in other_talk() for voice in VOICES]
    step = max(1, len(lines) // sample)
    for place, (text, voice) in enumerate(lines[::step]):
        kind = KINDS[place % len(KINDS)]
        sound = in_noise(spoken(text, voice), kind, decibels, place, talkers(voice))
        before = BEFORE_DIGITS if place % 2 else ()
        told(show, bench.other(sound, tally, before), kind, text)
    return tally


def told(show: bool, line: str, *about: str) -> None:
    if show and line and not line.startswith("same"):
        sys.stdout.write(f"  {' '.join(about)} {line}\n")


def noise_alone(bench: Bench, show: bool) -> Tally:
    tally = Tally()
    for seed in range(5):
        for kind in KINDS:
            for before in ((), BEFORE_DIGITS):
                sound = alone(kind, ALONE_SECONDS, seed, talkers(""))
                told(show, bench.other(sound, tally, before), kind, "alone")
    return tally


def digits(bench: Bench, folder: Path) -> Tally:
    tally = Tally()
    for path in sorted(folder.glob("[0-9]_*.wav"), key=lambda path: path.stem.split("_")[1]):
        bench.digit(DIGITS[int(path.name[0])], read_wav(path), tally)
    return tally


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--ear", choices=EARS, default="embedded")
    parser.add_argument("--digits", type=Path)
    parser.add_argument("--sample", type=int, default=240)
    parser.add_argument("--no-denoiser", action="store_true")
    parser.add_argument("--levels", default="clean,20,15,10,5")
    parser.add_argument("--show", action="store_true", help="every one that was not as said")
    asked = parser.parse_args()
    bench = Bench(the_ear(asked.ear, not asked.no_denoiser))
    out = sys.stdout.write
    out(HEAD + "\n")
    for name in asked.levels.split(","):
        decibels = None if name == "clean" else int(name)
        tally = level(bench, decibels, asked.sample, asked.show)
        out(tally.row(name if decibels is None else f"{name} dB") + "\n")
        sys.stdout.flush()
        kinds = {kind: tally.of_kind[f"{kind} same"] for kind in KINDS}
        sys.stderr.write(f"{name}: {dict(tally.outcomes)} same by kind: {kinds}\n")
    out(noise_alone(bench, asked.show).row("noise alone") + "\n")
    if asked.digits:
        tally = digits(bench, asked.digits)
        out(tally.row("human digits, by telephone") + "\n")
        sys.stderr.write(f"digits: {dict(tally.outcomes)}\n")
    out(f"\npeak memory {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB\n")


if __name__ == "__main__":
    main()
