"""What two ears come to that heard the same sound: whether they agree, and how far that is right.

A second ear seldom contradicts: mostly it hears the same, or breaks off early, or says it twice.
What it hears alone is hardly ever what was said. Measured by tests/asr/fit_agreement.py.
"""

from __future__ import annotations

import math
import tomllib
from collections import Counter
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib.resources import files

from boxaloud.assistant.asr.hypotheses.acceptance import FEW_WORDS
from boxaloud.assistant.asr.hypotheses.meaning_pool import Judgement
from boxaloud.grammar.acts import Act

#: No ear is surer than this, either way.
LEAST_DOUBT = 1e-3
#: So little under the threshold it is asked.
JUST_UNDER = 0.01


@dataclass(frozen=True, slots=True)
class Agreement:
    """The regression over the logits of two probabilities, and the one under which it is asked."""

    first: float
    second: float
    intercept: float
    ask: float

    def probability(self, first: float, second: float) -> float:
        """How likely a meaning is right that two ears take for so likely right."""
        score = self.first * logit(first) + self.second * logit(second) + self.intercept
        return 1 / (1 + math.exp(-score))


def together(first: Judgement, second: Judgement) -> Judgement | None:
    """The first ear's meaning, as likely right as it is with what the second says of it; None where
    the second speaks against it.

    One that heard the same, or the same over and over, agrees. One that heard a part of it and
    nothing else broke off: it says nothing of the rest.
    """
    if first.probability is None or second.probability is None or first.weights is None:
        return None
    if times(second.meant, first.meant):
        few = len(first.best.words) <= FEW_WORDS
        found = agreements()["few" if few else "more"]
        likely = found.probability(first.probability, second.probability)
        # what either ear would have asked about alone is not given up since both heard it
        likely = max(likely, min(second.probability, found.ask - JUST_UNDER))
        asks = replace(first.weights, ask=found.ask, ask_few=found.ask, ask_confirming=found.ask)
        return replace(first, probability=likely, weights=asks)
    part = not Counter(map(repr, second.meant)) - Counter(map(repr, first.meant))
    return first if part and second.meant else None


def times(meant: tuple[Act, ...], once: tuple[Act, ...]) -> bool:
    """Whether acts are those of `once`, one time or several."""
    times, over = divmod(len(meant), max(1, len(once)))
    return bool(meant) and not over and meant == once * times


@lru_cache(maxsize=1)
def agreements() -> dict[str, Agreement]:
    """The regressions, of few words and of more."""
    path = files("boxaloud.assistant.asr") / "data" / "agreement.toml"
    rows = tomllib.loads(path.read_text(encoding="utf-8"))
    return {
        name: Agreement(**{field: float(value) for field, value in row.items()})
        for name, row in rows.items()
    }


def logit(probability: float) -> float:
    """The logarithm of the odds, of no surer ear than `LEAST_DOUBT`."""
    kept = max(LEAST_DOUBT, min(1 - LEAST_DOUBT, probability))
    return math.log(kept / (1 - kept))
