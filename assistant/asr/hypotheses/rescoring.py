"""Which of the readings of an utterance was meant, and how sure its numbers are.

An engine ranks readings by sound and by how words follow each other; here the grammar has its
say. What is chosen still carries the doubt: a word that the likelier reading did not have keeps
its small confidence, and is asked back.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from difflib import SequenceMatcher

from boxaloud.assistant.asr.asr_types import FreeOdds, RecognitionResult
from boxaloud.assistant.asr.hypotheses.acceptance import FEW_WORDS
from boxaloud.assistant.asr.hypotheses.agreement import together
from boxaloud.assistant.asr.hypotheses.freely_heard import confirmed_freely, sure_answer
from boxaloud.assistant.asr.hypotheses.meaning_pool import (
    ANSWERS,
    DOUBTFUL_NUMBER_CONFIDENCE,
    MIN_WORD_CONFIDENCE,
    Hypothesis,
    Judgement,
    cap_confidence,
    confidence,
    judged,
)
from boxaloud.grammar import recognise
from boxaloud.grammar.lexer.heard_words import UNHEARD, Word
from boxaloud.grammar.lexer.numbers import word_classes
from boxaloud.grammar.lexer.tokens import join

#: A number that another reading has in its place with this likelihood is in doubt.
COMPETITOR_CONFIDENCE = 0.2
#: A word that is no number, in place of which every rival has one that means the same ("the
#: dimmer", "a dimmer"), is given at least this confidence.
AGREED_CONFIDENCE = 0.75
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
    first = judged(hearing, expect)
    if hearing.second is not None:
        freely = hearing.second.evidence.freely if hearing.second.evidence else ()
        words = _of_two(first, judged(hearing.second, expect), freely, expect)
    else:
        words = () if first is None else _of_one(first, expect)
    lost = hearing.evidence is not None and hearing.evidence.lost >= LOST_SECONDS
    return (*words, Word(UNHEARD, 0.0)) if words and lost else words


def _of_one(found: Judgement, expect: str | None) -> tuple[Word, ...]:
    if found.probability is None:
        alone = found.pooled and not found.other
        return (
            _raise_agreed(found.best.words)
            if alone
            else _mark_disputed(found.best.words, found.other)
        )
    if found.refused:
        return ()
    return _believed(found.best, found.other, found.probability, found.believed, expect)


def _of_two(
    first: Judgement | None,
    second: Judgement | None,
    freely: Sequence[FreeOdds],
    expect: str | None,
) -> tuple[Word, ...]:
    """The words of two ears: where the second does not speak against the first, either may be
    wrong and hardly both; where it does, it is asked. What the second heard alone was hardly
    ever said: a number that is due is asked back, and a statement that it would have believed."""
    sure = sure_answer(first, second, freely, expect)
    if sure is not None:
        return _of_one(sure, expect)
    if first is not None and second is not None:
        both = together(first, second)
        if both is not None:
            return _of_one(confirmed_freely(both, freely, expect), expect)
    heard = [one for one in (first, second) if one is not None and not _given_up(one)]
    if not heard or (heard == [second] and not _worth_asking(heard[0])):
        return ()
    best = max(heard, key=lambda one: one.probability or 0.0)
    other = [replace(one.best, share=1.0) for one in heard if one is not best]
    return _believed(best.best, (*best.other, *other), best.probability or 0.0, False, expect)


def _worth_asking(found: Judgement) -> bool:
    return found.number or (found.believed and len(found.best.words) > FEW_WORDS)


def _given_up(found: Judgement) -> bool:
    return found.probability is None or found.refused


def _believed(
    best: Hypothesis,
    other: Sequence[Hypothesis],
    probability: float,
    sure: bool,
    expect: str | None,
) -> tuple[Word, ...]:
    """The words, each as sure as the hearing; where that is asked back, in doubt are those that
    a reading of another meaning has otherwise, or all where there is none such. What is around a
    bare answer decides whether it is one: a doubt about that is one about the answer."""
    if sure:
        return tuple(Word(word.text, round(probability, 4)) for word in best.words)
    low = round(min(probability, DOUBTFUL_NUMBER_CONFIDENCE), 4)
    disputed = _disputed([word.text for word in best.words], other)
    answers = _in_answers(best.words, expect)
    if answers and not disputed & answers:
        disputed = set()
    return tuple(
        Word(word.text, low if place in disputed or not disputed else ASKED_CONFIDENCE)
        for place, word in enumerate(best.words)
    )


def _in_answers(words: Sequence[Word], expect: str | None) -> set[int]:
    """The places of words that are a bare answer, where nothing but such was heard."""
    acts = recognise(words, expect).acts
    if expect is None or not all(isinstance(act, ANSWERS) for act in acts):
        return set()
    _, starts = join(words)
    return {
        place
        for place, (word, start) in enumerate(zip(words, starts, strict=True))
        if any(start < act.span[1] and start + len(word.text) > act.span[0] for act in acts)
    }


def _disputed(texts: Sequence[str], other: Sequence[Hypothesis]) -> set[int]:
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


def _raise_agreed(words: tuple[Word, ...]) -> tuple[Word, ...]:
    return tuple(
        word
        if word_classes(word.text) or word.confidence in (None, DOUBTFUL_NUMBER_CONFIDENCE)
        else Word(word.text, max(confidence(word), AGREED_CONFIDENCE))
        for word in words
    )


def _mark_disputed(words: tuple[Word, ...], others: Sequence[Hypothesis]) -> tuple[Word, ...]:
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
        cap_confidence(word) if place in disputed and word_classes(word.text) else word
        for place, word in enumerate(words)
    )


def _differ_in_number(ours: Sequence[Word], theirs: Sequence[Word]) -> bool:
    """True where a likely difference is about a number."""
    numbers = any(word_classes(word.text) for word in (*ours, *theirs))
    likely = all(confidence(word) >= COMPETITOR_CONFIDENCE for word in theirs)
    return (
        numbers
        and likely
        and (bool(theirs) or min(map(confidence, ours)) <= 1 - COMPETITOR_CONFIDENCE)
    )
