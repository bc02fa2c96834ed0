"""What the second ear, asked freely, says of a short answer: one word, easily taken for another.

Both ears are held to the trade's words, and take what sounds like one of them for it. Asked freely
the second tells how much likelier the answer is than any other word of English. Where it is as sure
of the answer both ways, it is believed whatever the first heard; where a “yes” to something asked
back is hardly likelier than other words, it is asked once more. The thresholds in
`data/freely_heard.toml` are from tests/asr/fit_freely_heard.py.
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib.resources import files

from boxaloud.assistant.asr.asr_types import FreeOdds
from boxaloud.assistant.asr.hypotheses.agreement import logit
from boxaloud.assistant.asr.hypotheses.meaning_pool import ANSWERS, Judgement, is_due
from boxaloud.assistant.asr.hypotheses.meaning_representation import meaning


@dataclass(frozen=True, slots=True)
class AnswerThresholds:
    """`sure`: from so great a sum of the second ear's own logit and of its odds asked freely it is
    believed by itself. `confirming`: under such odds a bare “yes” or “no” to something asked back
    is asked once more."""

    sure: float
    confirming: float


def sure_answer(
    first: Judgement | None,
    second: Judgement | None,
    freely: Sequence[FreeOdds],
    expect: str | None,
) -> Judgement | None:
    """The short answer of which the second ear is sure both ways; None where it is not, or where
    the first heard more than one word.

    Args:
        first: what the first ear heard.
        second: what the second did.
        freely: the short answers, to the second ear asked freely.
        expect: the open question.
    """
    if second is None or second.weights is None:
        return None
    if first is not None and len(first.best.words) != 1:
        return None
    odds = odds_of(second, freely, expect)
    if odds is None:
        return None
    score = logit(second.probability or 0.0) + odds
    once = second.best.words[:1]
    meant = meaning(once, expect)
    if score < answer_thresholds().sure or not is_due(meant, expect):
        return None
    certain = replace(second.weights, ask=0.0, ask_few=0.0, ask_confirming=0.0)
    return replace(
        second,
        best=replace(second.best, words=once),
        meant=meant,
        probability=1 / (1 + math.exp(-score / 2)),
        weights=certain,
        due=True,
    )


def confirmed_freely(found: Judgement, freely: Sequence[FreeOdds], expect: str | None) -> Judgement:
    """What both ears heard; in doubt where it settles what was asked back and is hardly likelier
    than other words."""
    odds = odds_of(found, freely, expect) if found.confirming else None
    if odds is None or odds >= answer_thresholds().confirming:
        return found
    return replace(found, due=False)


def odds_of(found: Judgement, freely: Sequence[FreeOdds], expect: str | None) -> float | None:
    """How much likelier a short answer is than any other word to an ear asked freely; None where
    no short answer was heard, once or over and over, or the ear was not asked."""
    answers = all(isinstance(act, ANSWERS) for act in found.meant)
    word = found.best.words[0].text
    if expect is None or not answers or any(one.text != word for one in found.best.words):
        return None
    meant = meaning(word, expect)
    return max((one.odds for one in freely if meaning(one.word, expect) == meant), default=None)


@lru_cache(maxsize=1)
def answer_thresholds() -> AnswerThresholds:
    """The thresholds that were measured."""
    path = files("boxaloud.assistant.asr") / "data" / "freely_heard.toml"
    row = tomllib.loads(path.read_text(encoding="utf-8"))
    return AnswerThresholds(**{name: float(value) for name, value in row.items()})
