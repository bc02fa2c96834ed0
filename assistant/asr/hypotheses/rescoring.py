"""Which of the readings of an utterance was meant, and how sure its numbers are.

An engine ranks readings by sound and by how words follow each other; here the grammar has its
say. What is chosen still carries the doubt: a word that the likelier reading did not have keeps
its small confidence, and is asked back.
"""

from __future__ import annotations

from collections.abc import Sequence
from difflib import SequenceMatcher

from boxaloud.assistant.asr.asr_types import UNKNOWN, RecognitionResult
from boxaloud.assistant.asr.hypotheses.meaning_representation import meaning
from boxaloud.grammar import recognise
from boxaloud.grammar.acts import OtherTalk
from boxaloud.grammar.lexer.heard_words import Word
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


def choose(hearing: RecognitionResult, expect: str | None = None) -> tuple[Word, ...]:
    """The words to be understood, none where nothing was heard that is of the trade.

    The reading that makes acts beats a likelier one that makes none; then the one that
    leaves fewer words over; then the likelier. Words that are not of the trade (`UNKNOWN`) are
    left out, and their neighbours are in doubt.

    Args:
        hearing: the readings, the likeliest first.
        expect: the open question, whose bare answers are acts too.
    """
    rivals = [
        reading
        for place, reading in enumerate(hearing.readings)
        if place == 0 or all(_confidence(word) >= MIN_WORD_CONFIDENCE for word in reading)
    ]
    plain = [words for words in map(_drop_unknown, rivals) if words]
    if not plain:
        return ()
    best = min(plain, key=lambda words: _grammar_cost(words, expect))
    if _grammar_cost(best, expect) == NO_ACT_COST:
        return ()
    others = [words for words in plain if words is not best]
    same = len(others) > 0 and all(
        meaning(words, expect) == meaning(best, expect) for words in others
    )
    return _raise_agreed(best) if same else _mark_disputed(best, others)


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


def _mark_disputed(words: tuple[Word, ...], others: Sequence[tuple[Word, ...]]) -> tuple[Word, ...]:
    """The words, each number in doubt that another reading has otherwise.

    Where the other has a number and this one has none ("a" for "six"), those beside it are.
    """
    texts = [word.text for word in words]
    disputed: set[int] = set()
    for other in others:
        matcher = SequenceMatcher(None, texts, [word.text for word in other], autojunk=False)
        for change, first, end, start, stop in matcher.get_opcodes():
            if change != "equal" and _differ_in_number(words[first:end], other[start:stop]):
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
