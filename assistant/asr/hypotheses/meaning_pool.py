"""The readings of one hearing, pooled by what they mean, and how likely the likeliest is right."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from boxaloud.assistant.asr.asr_types import UNKNOWN, RecognitionResult
from boxaloud.assistant.asr.hypotheses import acceptance
from boxaloud.assistant.asr.hypotheses.meaning_representation import meaning
from boxaloud.grammar import acts, recognise
from boxaloud.grammar.acts import Act, OtherTalk
from boxaloud.grammar.lexer.heard_words import Word

#: A reading with a word less likely than this is no rival to a likelier one.
MIN_WORD_CONFIDENCE = 0.05
#: What `_grammar_cost` makes of "the", "uh": mostly noise.
NO_ACT_COST = (True, 0)
#: A word that is in doubt is given no more confidence than this, at which it is asked back.
DOUBTFUL_NUMBER_CONFIDENCE = 0.5
#: Acts that are answers to an open question.
ANSWERS = (
    acts.Number, acts.Size, acts.Place, acts.NoneOfThem, acts.Yes, acts.No, acts.Skip,
    acts.DontKnow,
)  # fmt: skip
#: Those among them that are a number, which is asked back in a word.
NUMBERS = (acts.Number, acts.Size)
#: Those that settle what was asked back.
CONFIRMING = (acts.Yes, acts.No)
#: Questions to which a “yes” or a “no” is hardly the answer.
COUNTED = frozenset({"box", "grounds", "device_size", "block_size", "gangs"})


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """A reading without what is not of the trade; `whole` where there was nothing of that."""

    words: tuple[Word, ...]
    share: float
    whole: bool


@dataclass(frozen=True, slots=True)
class Judgement:
    """The reading that is taken, those of other meanings, and how likely it is right.

    `probability` is None where the engine gives nothing to judge by, as `weights` are then.
    `number` is true where it is a number and nothing else, in answer to the open question;
    `confirming` where it is a “yes” or a “no” and nothing else to something asked back; `due` is
    false of a bare answer of another kind than the open question asks for, which is asked back.
    """

    best: Hypothesis
    other: tuple[Hypothesis, ...]
    meant: tuple[Act, ...]
    pooled: bool
    probability: float | None
    weights: acceptance.Weights | None
    number: bool = False
    confirming: bool = False
    due: bool = True

    @property
    def believed(self) -> bool:
        """Whether it is entered without being asked back."""
        likely, weights = self.probability, self.weights
        if likely is None or weights is None or not self.due:
            return False
        return weights.believes(likely, len(self.best.words), self.confirming)

    @property
    def refused(self) -> bool:
        """Whether it is given up. To ask a number back costs the turn that giving it up costs."""
        likely, weights = self.probability, self.weights
        if likely is None or weights is None:
            return False
        return likely < (weights.refuse_number if self.number else weights.refuse)


def judged(hearing: RecognitionResult, expect: str | None = None) -> Judgement | None:
    """The reading of a hearing that is taken; None where none makes anything of its words."""
    hypotheses = _hypotheses(hearing)
    best = _best(hypotheses, expect)
    if best is None:
        return None
    meant = meaning(best.words, expect)
    other = tuple(
        one for one in hypotheses if one.whole != best.whole or meaning(one.words, expect) != meant
    )
    weights = acceptance.table().get(hearing.evidence.engine) if hearing.evidence else None
    probability = None if weights is None else weights.probability(measured(hearing, expect))
    number = expect is not None and _all_are(meant, NUMBERS)
    confirming = expect == "confirm" and _all_are(meant, CONFIRMING)
    return Judgement(
        best, other, meant, len(hypotheses) > 1, probability, weights, number, confirming,
        is_due(meant, expect),
    )  # fmt: skip


def is_due(meant: Sequence[Act], expect: str | None) -> bool:
    """False for a number and nothing else where a “yes” or a “no” is due, or the reverse."""
    if expect == "confirm":
        return not _all_are(meant, NUMBERS)
    return expect not in COUNTED or not _all_are(meant, CONFIRMING)


def _all_are(meant: Sequence[Act], kinds: tuple[type[Act], ...]) -> bool:
    return bool(meant) and all(isinstance(act, kinds) for act in meant)


def measured(hearing: RecognitionResult, expect: str | None = None) -> acceptance.Features:
    """What the probability that a hearing is right depends on.

    Raises:
        ValueError: the hearing has no evidence to go by.
    """
    if hearing.evidence is None:
        raise ValueError("a hearing without evidence")
    hypotheses = _hypotheses(hearing)
    best = _best(hypotheses, expect) or hypotheses[0]
    shares: dict[tuple[bool, tuple[Act, ...]], float] = {}
    for one in hypotheses:
        meant = one.whole, meaning(one.words, expect)
        shares[meant] = shares.get(meant, 0.0) + one.share
    same = shares.pop((best.whole, meaning(best.words, expect)))
    told = recognise(best.words, expect).acts
    answers = expect is not None and bool(told) and all(isinstance(act, ANSWERS) for act in told)
    other = max(shares.values(), default=0.0)
    return acceptance.features(
        hearing.evidence, best.words, same, other, _foreign(hearing), expect, answers
    )


def _foreign(hearing: RecognitionResult) -> float:
    """The share of the likeliest reading that has no word of the trade."""
    shares = zip(hearing.readings, hearing.shares, strict=False)
    return max((share for reading, share in shares if not _drop_unknown(reading)), default=0.0)


def _best(hypotheses: Sequence[Hypothesis], expect: str | None) -> Hypothesis | None:
    """The reading that makes the most of its words; None where none makes anything of them."""
    if not hypotheses:
        return None
    best = min(hypotheses, key=lambda one: _grammar_cost(one.words, expect))
    return None if _grammar_cost(best.words, expect) == NO_ACT_COST else best


def _hypotheses(hearing: RecognitionResult) -> list[Hypothesis]:
    """The likeliest reading, and the others that are possible at all."""
    shares = hearing.shares or (0.0,) * len(hearing.readings)
    found = []
    for place, (reading, share) in enumerate(zip(hearing.readings, shares, strict=True)):
        possible = all(confidence(word) >= MIN_WORD_CONFIDENCE for word in reading)
        words = _drop_unknown(reading)
        if words and (place == 0 or possible):
            found.append(Hypothesis(words, share, len(words) == len(reading)))
    return found


def confidence(word: Word) -> float:
    """How sure the ear was of a word; 1 where it is typed."""
    return 1.0 if word.confidence is None else word.confidence


def _grammar_cost(words: tuple[Word, ...], expect: str | None) -> tuple[bool, int]:
    """Smaller is better; of equals the first, which is the likeliest."""
    read = recognise(words, expect)
    other = [act.words for act in read.acts if isinstance(act, OtherTalk)]
    left = [*other, *(run.words for run in read.unread)]
    return len(read.acts) == len(other), sum(len(text.split()) for text in left)


def _drop_unknown(reading: Sequence[Word]) -> tuple[Word, ...]:
    """The reading without what is not of the trade, in doubt where that was left out."""
    kept = []
    for place, word in enumerate(reading):
        if word.text == UNKNOWN:
            continue
        beside = reading[max(0, place - 1) : place + 2]
        unknown = any(other.text == UNKNOWN for other in beside)
        kept.append(cap_confidence(word) if unknown else word)
    return tuple(kept)


def cap_confidence(word: Word) -> Word:
    """The word in doubt."""
    return Word(word.text, min(confidence(word), DOUBTFUL_NUMBER_CONFIDENCE))
