"""An answer of one word, heard twice: among all that may be said, and among the answers alone.

One word is little to go by, above all by telephone. Where the two ways of hearing agree it
counts; else the word among the answers is given in doubt, so that it is asked back. The answers
are therefore those that the grammar asks back: numbers, and where something is. "Yes" and
commands must be heard surely among all that may be said.
"""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.assistant.ears.hearing import UNKNOWN, Sound
from boxaloud.assistant.ears.readings import Segment
from boxaloud.assistant.ears.split import MARGIN_SECONDS
from boxaloud.grammar import recognise
from boxaloud.grammar.words import Word

#: No single word lasts longer.
LONGEST_SECONDS = 0.9
#: A word this surely of the trade, and this likely among the answers, is no more in doubt than
#: any other; less than the second, it was no answer at all. Measured with words that are not of
#: the trade ("window", "ladder") and with human voices by telephone.
SURE_WORD = 0.75
LIKELY = 0.3
#: "Yes" or a command is taken where it is this surely of the trade.
SURE_COMMAND = 0.6
#: Less surely of the trade than this, it was other talk.
LEAST_SURE = -0.5
#: What is given in doubt is given this confidence, at which it is asked back.
DOUBTFUL = 0.4

Readings = tuple[tuple[Word, ...], ...]


def one_word(sound: Sound) -> bool:
    """True where an utterance is no longer than one word may be."""
    return sound.seconds <= LONGEST_SECONDS + 2 * MARGIN_SECONDS


def answered(answer: Sequence[Segment], found: Readings, sure: float, expect: str) -> Readings:
    """What was answered, from both ways of hearing.

    Args:
        answer: the words of the best path among the answers.
        found: the readings among all that may be said, none where it was other talk.
        sure: how surely that was about the trade.
        expect: the open question.
    """
    if found and len(found[0]) > 1:
        return found
    likely = bool(answer) and answer[0].probability >= LIKELY and sure >= LEAST_SURE
    word = answer[0].text if likely else None
    if found and not asked_back(found[0], expect):
        return _command(found, word, sure)
    if found and sure >= SURE_WORD and word in (None, found[0][0].text):
        return found
    if word is None:
        return ()
    others = tuple(reading for reading in found if reading[0].text != word)
    return ((Word(word, DOUBTFUL),), *others)


def _command(found: Readings, word: str | None, sure: float) -> Readings:
    """A word that is never asked back: taken or not, and in doubt if it may have been an answer."""
    if word is None:
        return found if sure >= SURE_COMMAND else ()
    return doubted(found) if sure >= SURE_WORD else ((Word(word, DOUBTFUL),),)


def in_doubt(found: Readings, expect: str | None) -> Readings:
    """The readings heard in doubt; none where the likeliest would count without being asked."""
    return doubted(found[:1]) if found and asked_back(found[0], expect) else ()


def doubted(found: Readings) -> Readings:
    """The readings with every word in doubt."""
    return tuple(tuple(Word(word.text, DOUBTFUL) for word in reading) for reading in found)


def asked_back(words: Sequence[Word], expect: str | None) -> bool:
    """True where the grammar itself doubts each act made of words heard in doubt."""
    doubtful = [Word(word.text, DOUBTFUL) for word in words if word.text != UNKNOWN]
    made = recognise(doubtful, expect).acts
    return bool(made) and all(act.doubts for act in made)
