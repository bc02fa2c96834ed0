"""From where on the second ear, asked freely, is believed of a short answer: the thresholds of
`data/freely_heard.toml`.

    python tests/asr/fit_freely_heard.py --kept FILE [--log FILE]

The speakers of a file of `kept_voices`, who are in no benchmark, say single words: short answers,
words that sound like one, and others, each to a question, in noise, by telephone, or cut to the
word. What was measured is kept in a log; a second run only counts. Printed: of the answers that the
second ear heard, how many would be believed rightly and wrongly at each `sure`; and of the “yes”
and “no” to something asked back on which both ears agree, how many at each `confirming`.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

import numpy as np
from fit_acceptance import ANSWERS, Said, spoken  # first: it leads to the electrician

# isort: split
from boxaloud.assistant.asr.audio.speech_spans import speech_spans
from boxaloud.assistant.asr.engines.whisper.free_answers import homophones
from boxaloud.assistant.asr.hypotheses.agreement import logit, together
from boxaloud.assistant.asr.hypotheses.freely_heard import odds_of
from boxaloud.assistant.asr.hypotheses.meaning_pool import is_due, judged
from boxaloud.assistant.asr.hypotheses.meaning_representation import meaning
from boxaloud.assistant.asr.second_opinion import SecondOpinion
from boxaloud.grammar import recognise
from boxaloud.grammar.acts import OtherTalk
from boxaloud.grammar.lexer.numbers import word_classes
from fit_acceptance import CHANNELS
from kept_voices import kept_utterances
from site_noise import KINDS
from which_recogniser import the_ear

SEED = 911
#: To what a word is said that answers no question; twice as often to something asked back.
QUESTIONS = ("confirm", "confirm", "grounds", "box", "clamps", "device_size")
LEVELS = (None, None, None, 20.0, 15.0, 10.0)
SURE = (4.0, 5.0, 5.5, 6.0, 6.5, 7.0, 7.5, 8.0, 9.0)
CONFIRMING = (-8.0, 0.0, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0)


@dataclass(frozen=True, slots=True)
class Heard:
    """A short answer of a kind that is due, as the second ear heard it.

    Attributes:
        text: what was said.
        speaker: who said it.
        word: what the second ear heard.
        score: the sum that `sure` is held against.
        odds: the odds that `confirming` is held against.
        believed: whether both ears agree on it and are believed, to something asked back.
        right: whether it means what was said.
    """

    text: str
    speaker: str
    word: str
    score: float
    odds: float
    believed: bool
    right: bool


def words_said(path: Path) -> Iterator[Said]:
    """The single words of a file, each to a question that it answers, or to any."""
    dice = np.random.default_rng(SEED)
    for place, one in enumerate(kept_utterances(path)):
        if " " in one.text or one.text in homophones():
            continue
        asked = [expect for expect, answers in ANSWERS.items() if one.text in answers]
        if not asked and word_classes(one.text):
            asked = ["grounds", "box"]
        expect = str(dice.choice(asked or QUESTIONS))
        told = recognise(one.text, expect)
        meant = bool(told.acts) and not any(isinstance(act, OtherTalk) for act in told.acts)
        yield Said(
            one.text, one.text if meant else "", one.speaker, place,
            KINDS[dice.integers(len(KINDS))], LEVELS[dice.integers(len(LEVELS))], expect,
            CHANNELS[dice.integers(len(CHANNELS))],
        )  # fmt: skip


def heard(ear: SecondOpinion, said: Said, kept: Path) -> Iterator[Heard]:
    """What the second ear heard of it, where that is a short answer."""
    sound = spoken(said, kept)
    meant = meaning(said.meant, said.expect) if said.meant else ()
    for span in speech_spans(sound, 14.0):
        one, other = (each.hear_span(sound, sound, span, said.expect) for each in ear.ears)
        first, second = judged(one, said.expect), judged(other, said.expect)
        if second is None or other.evidence is None or (first and len(first.best.words) > 1):
            continue
        odds = odds_of(second, other.evidence.freely, said.expect)
        if odds is None or not is_due(second.meant, said.expect):
            continue
        both = together(first, second) if first is not None else None
        yield Heard(
            said.text, said.voice, second.best.words[0].text,
            logit(second.probability or 0.0) + odds, odds,
            both is not None and both.believed and both.confirming, second.meant == meant,
        )  # fmt: skip


def trade(told: Sequence[tuple[float, bool]], thresholds: Sequence[float]) -> str:
    """How many are believed rightly and wrongly from each threshold on."""
    lines = ["| from | right | wrong |", "| --- | --- | --- |"]
    for least in thresholds:
        right = [is_right for value, is_right in told if value >= least]
        lines.append(f"| {least} | {sum(right)} | {len(right) - sum(right)} |")
    return "\n".join(lines)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--kept", type=Path, required=True)
    parser.add_argument("--log", type=Path, default=Path("fit_freely_heard.jsonl"))
    asked = parser.parse_args()
    rows = [Heard(**json.loads(line)) for line in asked.log.open()] if asked.log.exists() else []
    if not rows:
        ear = the_ear("both", False)
        assert isinstance(ear, SecondOpinion), "the hearing network is not installed"
        with asked.log.open("w") as log:
            for said in words_said(asked.kept):
                for one in heard(ear, said, asked.kept):
                    rows.append(one)
                    log.write(json.dumps(asdict(one)) + "\n")
                log.flush()
    sure = [(one.score, one.right) for one in rows]
    confirming = [(one.odds, one.right) for one in rows if one.believed]
    sys.stdout.write(f"sure:\n{trade(sure, SURE)}\n\n")
    sys.stdout.write(f"confirming:\n{trade(confirming, CONFIRMING)}\n")


if __name__ == "__main__":
    main()
