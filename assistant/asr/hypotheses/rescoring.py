"""Which of the readings of an utterance was meant, and how sure its numbers are.

An engine ranks readings by sound and by how words follow each other; here the grammar has its
say. What is chosen still carries the doubt: a word that the likelier reading did not have keeps
its small confidence, and is asked back.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

from boxaloud.assistant.asr.asr_types import UNKNOWN, RecognitionResult
from boxaloud.assistant.asr.hypotheses import acceptance
from boxaloud.assistant.asr.hypotheses.meaning_representation import meaning
from boxaloud.grammar import acts, recognise
from boxaloud.grammar.acts import Act, OtherTalk
from boxaloud.grammar.lexer.heard_words import UNHEARD, Word
from boxaloud.grammar.lexer.numbers import word_classes

#: A reading with a word less likely than this is no rival to a likelier one.
MIN_WORD_CONFIDENCE = 0.05
#: What `_grammar_cost` makes of "the", "uh": mostly noise.
NO_ACT_COST = (True, 0)
#: A number that another reading has in its place with this likelihood is in doubt...
COMPETITOR_CONFIDENCE = 0.2
#: ...and is given no more confidence than this, at which it is asked back.
DOUBTFUL_NUMBER_CONFIDENCE = 0.5
#: A word that is no number, in place of which every rival has one that means the same ("the
#: dimmer", "a dimmer"), is given at least this confidence.
AGREED_CONFIDENCE = 0.75
#: Acts that are answers to an open question.
ANSWERS = (
    acts.Number, acts.Size, acts.Place, acts.NoneOfThem, acts.Yes, acts.No, acts.Skip,
    acts.DontKnow,
)  # fmt: skip
#: Speech before or behind the words that lasts so long was something said.
LOST_SECONDS = 0.3
#: What a word is given that no reading has otherwise, in a hearing that is asked back.
ASKED_CONFIDENCE = 0.75


def choose(hearing: RecognitionResult, expect: str | None = None) -> tuple[Word, ...]:
    """The words to be understood, none where nothing was heard that is of the trade.

    The reading that makes acts beats a likelier one that makes none; then the one that
    leaves fewer words over; then the likelier. Words that are not of the trade (`UNKNOWN`) are
    left out, and their neighbours are in doubt.

    Args:
        hearing: the readings, the likeliest first.
        expect: the open question, whose bare answers are acts too.
    """
    best = _best(hearing, expect)
    if best is None:
        return ()
    hypotheses = _hypotheses(hearing)
    meant = meaning(best.words, expect)
    other = [
        one for one in hypotheses if one.whole != best.whole or meaning(one.words, expect) != meant
    ]
    weights = acceptance.table().get(hearing.evidence.engine) if hearing.evidence else None
    if weights is None:
        alone = len(hypotheses) > 1 and not other
        return _raise_agreed(best.words) if alone else _mark_disputed(best.words, other)
    probability = weights.probability(measured(hearing, expect))
    if probability < weights.refuse:
        return ()
    words = _believed(best, other, probability, probability >= weights.ask)
    lost = hearing.evidence is not None and hearing.evidence.lost >= LOST_SECONDS
    return (*words, Word(UNHEARD, 0.0)) if lost else words


def possible(hearing: RecognitionResult, expect: str | None = None) -> tuple[Word, ...]:
    """The words that would be taken if the hearing were believed."""
    best = _best(hearing, expect)
    return best.words if best else ()


def _best(hearing: RecognitionResult, expect: str | None) -> _Hypothesis | None:
    """The reading that makes the most of its words; None where none makes anything of them."""
    hypotheses = _hypotheses(hearing)
    if not hypotheses:
        return None
    best = min(hypotheses, key=lambda one: _grammar_cost(one.words, expect))
    return None if _grammar_cost(best.words, expect) == NO_ACT_COST else best


def measured(hearing: RecognitionResult, expect: str | None = None) -> acceptance.Features:
    """What the probability that a hearing is right depends on. It has evidence, and words."""
    assert hearing.evidence is not None
    hypotheses = _hypotheses(hearing)
    best = min(hypotheses, key=lambda one: _grammar_cost(one.words, expect))
    shares: dict[tuple[bool, tuple[Act, ...]], float] = {}
    for one in hypotheses:
        meant = one.whole, meaning(one.words, expect)
        shares[meant] = shares.get(meant, 0.0) + one.share
    same = shares.pop((best.whole, meaning(best.words, expect)))
    told = recognise(best.words, expect).acts
    answers = expect is not None and bool(told) and all(isinstance(act, ANSWERS) for act in told)
    return acceptance.features(
        hearing.evidence, best.words, same, max(shares.values(), default=0.0), expect, answers
    )


@dataclass(frozen=True, slots=True)
class _Hypothesis:
    """A reading without what is not of the trade; `whole` where there was nothing of that."""

    words: tuple[Word, ...]
    share: float
    whole: bool


def _hypotheses(hearing: RecognitionResult) -> list[_Hypothesis]:
    """The likeliest reading, and the others that are possible at all."""
    shares = hearing.shares or (0.0,) * len(hearing.readings)
    found = []
    for place, (reading, share) in enumerate(zip(hearing.readings, shares, strict=True)):
        possible = all(_confidence(word) >= MIN_WORD_CONFIDENCE for word in reading)
        words = _drop_unknown(reading)
        if words and (place == 0 or possible):
            found.append(_Hypothesis(words, share, len(words) == len(reading)))
    return found


def _believed(
    best: _Hypothesis, other: Sequence[_Hypothesis], probability: float, sure: bool
) -> tuple[Word, ...]:
    """The words, each as sure as the hearing; where that is asked back, in doubt are those that
    a reading of another meaning has otherwise, or all where there is none such."""
    if sure:
        return tuple(Word(word.text, round(probability, 4)) for word in best.words)
    low = round(min(probability, DOUBTFUL_NUMBER_CONFIDENCE), 4)
    disputed = _disputed([word.text for word in best.words], other)
    return tuple(
        Word(word.text, low if place in disputed or not disputed else ASKED_CONFIDENCE)
        for place, word in enumerate(best.words)
    )


def _disputed(texts: Sequence[str], other: Sequence[_Hypothesis]) -> set[int]:
    """The places of words that readings of other meanings have otherwise."""
    found: set[int] = set()
    for one in other:
        if one.share < MIN_WORD_CONFIDENCE:
            continue
        theirs = [word.text for word in one.words]
        for change, first, end, _, _ in SequenceMatcher(
            None, texts, theirs, autojunk=False
        ).get_opcodes():
            if change != "equal":
                found.update(range(first, end) if end > first else (first - 1, first))
    return {place for place in found if 0 <= place < len(texts)}


def _confidence(word: Word) -> float:
    return 1.0 if word.confidence is None else word.confidence


def _grammar_cost(words: tuple[Word, ...], expect: str | None) -> tuple[bool, int]:
    """Smaller is better; of equals the first, which is the likeliest."""
    read = recognise(words, expect)
    other = [act.words for act in read.acts if isinstance(act, OtherTalk)]
    left = [*other, *(run.words for run in read.unread)]
    return len(read.acts) == len(other), sum(len(text.split()) for text in left)


def _raise_agreed(words: tuple[Word, ...]) -> tuple[Word, ...]:
    return tuple(
        word
        if word_classes(word.text) or word.confidence in (None, DOUBTFUL_NUMBER_CONFIDENCE)
        else Word(word.text, max(_confidence(word), AGREED_CONFIDENCE))
        for word in words
    )


def _drop_unknown(reading: Sequence[Word]) -> tuple[Word, ...]:
    """The reading without what is not of the trade, in doubt where that was left out."""
    kept = []
    for place, word in enumerate(reading):
        if word.text == UNKNOWN:
            continue
        beside = reading[max(0, place - 1) : place + 2]
        unknown = any(other.text == UNKNOWN for other in beside)
        kept.append(_cap_confidence(word) if unknown else word)
    return tuple(kept)


def _cap_confidence(word: Word) -> Word:
    return Word(word.text, min(_confidence(word), DOUBTFUL_NUMBER_CONFIDENCE))


def _mark_disputed(words: tuple[Word, ...], others: Sequence[_Hypothesis]) -> tuple[Word, ...]:
    """The words, each number in doubt that another reading has otherwise.

    Where the other has a number and this one has none ("a" for "six"), those beside it are.
    """
    texts = [word.text for word in words]
    disputed: set[int] = set()
    for other in others:
        matcher = SequenceMatcher(None, texts, [word.text for word in other.words], autojunk=False)
        for change, first, end, start, stop in matcher.get_opcodes():
            if change != "equal" and _differ_in_number(words[first:end], other.words[start:stop]):
                disputed.update(range(first, end))
                if not any(word_classes(word.text) for word in words[first:end]):
                    disputed.update((first - 1, end))
    return tuple(
        _cap_confidence(word) if place in disputed and word_classes(word.text) else word
        for place, word in enumerate(words)
    )


def _differ_in_number(ours: Sequence[Word], theirs: Sequence[Word]) -> bool:
    """True where a likely difference is about a number."""
    numbers = any(word_classes(word.text) for word in (*ours, *theirs))
    likely = all(_confidence(word) >= COMPETITOR_CONFIDENCE for word in theirs)
    return (
        numbers
        and likely
        and (bool(theirs) or min(map(_confidence, ours)) <= 1 - COMPETITOR_CONFIDENCE)
    )
