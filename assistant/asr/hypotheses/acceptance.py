"""How likely it is that an utterance was heard rightly: the one place where an ear is believed.

A logistic regression over what is known of a hearing gives the probability that its meaning is
that of what was said. Each engine has weights of its own in `data/acceptance.toml`, made by
tests/asr/fit_acceptance.py with voices and noises that no benchmark uses. Below `refuse` a hearing
is given up; below `ask` what is in doubt is asked back; above it what was heard is entered.
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass, fields
from functools import lru_cache
from importlib.resources import files

from boxaloud.assistant.asr.asr_types import Evidence
from boxaloud.grammar.lexer.heard_words import Word

#: A reading of another meaning is never taken to be less likely than this.
LEAST_SHARE = 1e-3
#: Letters that are said in a second, mostly (measured with the voices that the weights are from).
USUAL_LETTERS_PER_SECOND = 14.0
#: So many words are few.
FEW_WORDS = 2
#: With more of the speech unread nothing was heard rightly (2 of 848 fitted on had any).
UNREAD_SHARE = 0.2


@dataclass(frozen=True, slots=True)
class Features:
    """What the probability depends on, each about 0 to 3.

    Attributes:
        margin: how many times likelier this meaning is than the next (natural logarithm).
        foreign: how many times likelier it is than that nothing of the trade was said.
        strange: by how much, a letter, the engine would rather have heard something else.
        worst: the same in all, a tenth of it, over the 0.3 s where that is greatest.
        edge: the same in all, a tenth of it, right before the words and right behind them.
        whole: the square root of the same over all of the sound, where the words are few; 0 else.
            What is a little way off is no part of a statement, and may be the end of a word.
        unread: the share of the speech that no word accounts for, 1 from a fifth on.
        noise: how far the words rise above the background, in tens of decibels.
        pace: how far letters a second are from the usual (natural logarithm, either way).
        shortness: 1 for one word, 1/2 for two, and so on.
        expected: 1 where it answers the open question, else 0.
        confirming: 1 where it is a short answer to something asked back, else 0.
    """

    margin: float
    foreign: float
    strange: float
    worst: float
    edge: float
    whole: float
    unread: float
    noise: float
    pace: float
    shortness: float
    expected: float
    confirming: float

    def values(self) -> tuple[float, ...]:
        """The features in the order of the weights."""
        return tuple(float(getattr(self, field.name)) for field in fields(self))


@dataclass(frozen=True, slots=True)
class Weights:
    """One engine's: the regression, and the probabilities under which it asks and gives up;
    `ask_few` is that of a hearing of few words, which is easily another word, `ask_confirming`
    that of a bare “yes” or “no” to something asked back, which without it is asked once more, and
    `refuse_number` that of a number in answer to a question."""

    intercept: float
    weights: tuple[float, ...]
    ask: float
    ask_few: float
    ask_confirming: float
    refuse: float
    refuse_number: float

    def believes(self, probability: float, words: int, confirming: bool) -> bool:
        """Whether a hearing of so many words, foretold so likely right, is entered unasked;
        `confirming`: it is a bare answer to something asked back."""
        if confirming:
            return probability >= self.ask_confirming
        return probability >= (self.ask_few if words <= FEW_WORDS else self.ask)

    def probability(self, found: Features) -> float:
        """How likely the hearing is right, from 0 to 1."""
        score = self.intercept + sum(
            weight * value for weight, value in zip(self.weights, found.values(), strict=True)
        )
        return 1 / (1 + math.exp(-max(-30.0, min(30.0, score))))


def features(
    evidence: Evidence,
    words: Sequence[Word],
    same: float,
    other: float,
    foreign: float,
    expect: str | None,
    expected: bool,
) -> Features:
    """The features of a hearing.

    Args:
        evidence: what the engine measured.
        words: the words taken.
        same: the share of all likelihood that readings of their meaning have.
        other: that of the likeliest other meaning.
        foreign: that of the likeliest reading without a word of the trade.
        expect: the open question.
        expected: whether the words answer it.
    """
    letters = sum(len(word.text) + 1 for word in words)
    seconds = max(0.1, evidence.seconds)
    pace = math.log(max(0.5, letters / seconds) / USUAL_LETTERS_PER_SECOND)
    short = len(words) <= FEW_WORDS
    return Features(
        margin=math.log(max(same, LEAST_SHARE) / max(other, LEAST_SHARE)),
        foreign=math.log(max(same, LEAST_SHARE) / max(foreign, LEAST_SHARE)),
        strange=min(3.0, evidence.strange),
        worst=min(3.0, evidence.worst / 10),
        edge=min(3.0, evidence.edge / 10),
        whole=min(3.0, math.sqrt(evidence.whole)) if short else 0.0,
        unread=min(1.0, evidence.unread / seconds / UNREAD_SHARE),
        noise=max(0.0, min(4.5, evidence.snr_db / 10)),
        pace=abs(pace),
        shortness=1 / max(1, len(words)),
        expected=float(expected),
        confirming=float(expect == "confirm" and short),
    )


@lru_cache(maxsize=1)
def table() -> dict[str, Weights]:
    """The weights of each engine that has some."""
    path = files("boxaloud.assistant.asr") / "data" / "acceptance.toml"
    rows = tomllib.loads(path.read_text(encoding="utf-8"))
    names = [field.name for field in fields(Features)]
    return {
        engine: Weights(
            float(row["intercept"]),
            tuple(float(row[name]) for name in names),
            float(row["ask"]),
            float(row["ask_few"]),
            float(row["ask_confirming"]),
            float(row["refuse"]),
            float(row["refuse_number"]),
        )
        for engine, row in rows.items()
    }
