"""Which of the readings of an utterance was meant, and how sure its numbers are.

An engine ranks readings by sound and by how words follow each other; here the grammar has its
say. What is chosen still carries the doubt: a word that the likelier reading did not have keeps
its small confidence, and is asked back.
"""

from __future__ import annotations

from collections.abc import Sequence
from difflib import SequenceMatcher

from boxaloud.assistant.ears.hearing import UNKNOWN, Hearing
from boxaloud.assistant.ears.meaning import meaning
from boxaloud.grammar import recognise
from boxaloud.grammar.acts import OtherTalk
from boxaloud.grammar.numbers import word_classes
from boxaloud.grammar.words import Word

#: A reading with a word less likely than this is no rival to a likelier one.
LEAST = 0.05
#: What `_merit` makes of "the", "uh": mostly noise.
SAYS_NOTHING = (True, 0)
#: A number that another reading has in its place with this likelihood is in doubt...
RIVAL = 0.2
#: ...and is given no more confidence than this, at which it is asked back.
DOUBTFUL = 0.5
#: A word that is no number, in place of which every rival has one that means the same ("the
#: dimmer", "a dimmer"), is given at least this confidence.
SETTLED = 0.75


def choose(hearing: Hearing, expect: str | None = None) -> tuple[Word, ...]:
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
        if place == 0 or all(_sure(word) >= LEAST for word in reading)
    ]
    plain = [words for words in map(_of_the_trade, rivals) if words]
    if not plain:
        return ()
    best = min(plain, key=lambda words: _merit(words, expect))
    if _merit(best, expect) == SAYS_NOTHING:
        return ()
    others = [words for words in plain if words is not best]
    same = len(others) > 0 and all(
        meaning(words, expect) == meaning(best, expect) for words in others
    )
    return _settled(best) if same else _disputed(best, others)


def _sure(word: Word) -> float:
    return 1.0 if word.confidence is None else word.confidence


def _merit(words: tuple[Word, ...], expect: str | None) -> tuple[bool, int]:
    """Smaller is better; of equals the first, which is the likeliest."""
    read = recognise(words, expect)
    other = [act.words for act in read.acts if isinstance(act, OtherTalk)]
    left = [*other, *(run.words for run in read.unread)]
    return len(read.acts) == len(other), sum(len(text.split()) for text in left)


def _settled(words: tuple[Word, ...]) -> tuple[Word, ...]:
    return tuple(
        word
        if word_classes(word.text) or word.confidence in (None, DOUBTFUL)
        else Word(word.text, max(_sure(word), SETTLED))
        for word in words
    )


def _of_the_trade(reading: Sequence[Word]) -> tuple[Word, ...]:
    """The reading without what is not of the trade, in doubt where that was left out."""
    kept = []
    for place, word in enumerate(reading):
        if word.text == UNKNOWN:
            continue
        beside = reading[max(0, place - 1) : place + 2]
        unknown = any(other.text == UNKNOWN for other in beside)
        kept.append(_doubted(word) if unknown else word)
    return tuple(kept)


def _doubted(word: Word) -> Word:
    return Word(word.text, min(_sure(word), DOUBTFUL))


def _disputed(words: tuple[Word, ...], others: Sequence[tuple[Word, ...]]) -> tuple[Word, ...]:
    """The words, each number in doubt that another reading has otherwise.

    Where the other has a number and this one has none ("a" for "six"), those beside it are.
    """
    texts = [word.text for word in words]
    disputed: set[int] = set()
    for other in others:
        matcher = SequenceMatcher(None, texts, [word.text for word in other], autojunk=False)
        for change, first, end, start, stop in matcher.get_opcodes():
            if change != "equal" and _weighty(words[first:end], other[start:stop]):
                disputed.update(range(first, end))
                if not any(word_classes(word.text) for word in words[first:end]):
                    disputed.update((first - 1, end))
    return tuple(
        _doubted(word) if place in disputed and word_classes(word.text) else word
        for place, word in enumerate(words)
    )


def _weighty(ours: Sequence[Word], theirs: Sequence[Word]) -> bool:
    """True where a likely difference is about a number."""
    numbers = any(word_classes(word.text) for word in (*ours, *theirs))
    likely = all(_sure(word) >= RIVAL for word in theirs)
    return numbers and likely and (bool(theirs) or min(map(_sure, ours)) <= 1 - RIVAL)
