"""Fits how likely a meaning is right on which both ears agree: the rows of `data/agreement.toml`.

    python tests/asr/fit_agreement.py --kept FILE [--every 3] [--log FILE]

Both ears hear one in so many of the sounds that `fit_acceptance` learns from, and each says how
likely it is right by its own row of `data/acceptance.toml`, which is fitted first. Printed besides:
how often the first ear was right where the second said otherwise, broke off, or heard nothing, and
how often what the second heard alone was. What was measured is kept in a log.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from itertools import chain, islice
from pathlib import Path

from fit_acceptance import Said, cases, kept_cases, spoken  # first: it leads to the electrician

# isort: split
from acceptance_regression import Row, fitted
from boxaloud.assistant.asr.audio.speech_spans import speech_spans
from boxaloud.assistant.asr.hypotheses.acceptance import FEW_WORDS
from boxaloud.assistant.asr.hypotheses.agreement import logit, times
from boxaloud.assistant.asr.hypotheses.meaning_pool import Judgement, judged
from boxaloud.assistant.asr.hypotheses.meaning_representation import meaning
from boxaloud.assistant.asr.second_opinion import SecondOpinion
from which_recogniser import the_ear

#: What the second ear may say of what the first heard.
SAME, OTHERWISE, ALONE = "the same", "otherwise", "alone"


@dataclass(frozen=True, slots=True)
class Both:
    """What two ears made of one sound."""

    text: str
    voice: str
    says: str
    few: bool
    first: float
    second: float
    right: bool


def compared(said: Said, first: Judgement | None, second: Judgement | None) -> Both | None:
    """What the ears made of it; None where neither heard anything of the trade."""
    taken = first or second
    if taken is None:
        return None
    meant = bool(said.meant) and taken.meant == meaning(said.meant, said.expect)
    likely = [0.0 if one is None else one.probability or 0.0 for one in (first, second)]
    says = ALONE if first is None else OTHERWISE
    if first is not None and second is not None and times(second.meant, first.meant):
        says = SAME
    few = len(taken.best.words) <= FEW_WORDS
    return Both(said.text, said.voice, says, few, likely[0], likely[1], meant)


def heard(ear: SecondOpinion, said: Said, kept: Path) -> Iterator[Both]:
    """Both ears on each stretch of speech in a sound."""
    sound = spoken(said, kept)
    for span in speech_spans(sound, 14.0):
        found = (one.hear_span(sound, sound, span, said.expect) for one in ear.ears)
        one = compared(said, *(judged(each, said.expect) for each in found))
        if one is not None:
            yield one


def table(rows: list[Both]) -> str:
    """The rows of agreement.toml, without the thresholds."""
    lines = []
    for name, few in (("few", True), ("more", False)):
        agreed = [
            Row(one.voice, "answer", (logit(one.first), logit(one.second)), one.right)
            for one in rows
            if one.says == SAME and one.few is few
        ]
        first, second, intercept = fitted(agreed)
        lines += [f"[{name}]", f"first = {first:.3f}", f"second = {second:.3f}"]
        lines += [f"intercept = {intercept:.3f}", ""]
    return "\n".join(lines)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--kept", type=Path, required=True)
    parser.add_argument("--every", type=int, default=3)
    parser.add_argument("--log", type=Path, default=Path("fit_agreement.jsonl"))
    asked = parser.parse_args()
    rows = [Both(**json.loads(line)) for line in asked.log.open()] if asked.log.exists() else []
    if not rows:
        ear = the_ear("both", False)
        assert isinstance(ear, SecondOpinion), "the hearing network is not installed"
        with asked.log.open("w") as log:
            for said in islice(chain(kept_cases(asked.kept), cases(240)), 0, None, asked.every):
                for one in heard(ear, said, asked.kept):
                    rows.append(one)
                    log.write(json.dumps(asdict(one)) + "\n")
    right = Counter((one.says, one.few) for one in rows if one.right)
    for kind, every in sorted(Counter((one.says, one.few) for one in rows).items()):
        words = "few words" if kind[1] else "more words"
        sys.stdout.write(f"{kind[0]}, {words}: right {right[kind]} of {every}\n")
    sys.stdout.write(f"\n{table(rows)}\n")


if __name__ == "__main__":
    main()
