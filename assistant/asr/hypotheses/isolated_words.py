"""An answer of one word, heard twice: among all that may be said, and among the answers alone.

One word is little to go by, above all by telephone. Where the two ways of hearing agree it
counts; else the word among the answers is given in doubt, so that it is asked back. The answers
are therefore those that the grammar asks back: numbers, and where something is. "Yes" and
commands must be heard surely among all that may be said.
"""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.assistant.asr.asr_types import UNKNOWN, Sound
from boxaloud.assistant.asr.audio.pause_segmentation import PADDING_SECONDS
from boxaloud.assistant.asr.hypotheses.nbest import WordSegment
from boxaloud.grammar import recognise
from boxaloud.grammar.lexer.heard_words import Word

#: No single word lasts longer.
MAX_WORD_SECONDS = 0.9
#: A word this surely of the trade, and this likely among the answers, is no more in doubt than
#: any other; less than the second, it was no answer at all. Measured with words that are not of
#: the trade ("window", "ladder") and with human voices by telephone.
IN_DOMAIN_WORD_SCORE = 0.75
MIN_ANSWER_POSTERIOR = 0.3
#: "Yes" or a command is taken where it is this surely of the trade.
IN_DOMAIN_COMMAND_SCORE = 0.6
#: Less surely of the trade than this, it was other talk.
OUT_OF_DOMAIN_SCORE = -0.5
#: What is given in doubt is given this confidence, at which it is asked back.
DOUBTFUL_CONFIDENCE = 0.4

NBest = tuple[tuple[Word, ...], ...]


def is_isolated_word(sound: Sound) -> bool:
    """True where an utterance is no longer than one word may be."""
    return sound.seconds <= MAX_WORD_SECONDS + 2 * PADDING_SECONDS


def answered(answer: Sequence[WordSegment], found: NBest, sure: float, expect: str) -> NBest:
    """What was answered, from both ways of hearing.

    Args:
        answer: the words of the best path among the answers.
        found: the readings among all that may be said, none where it was other talk.
        sure: how surely that was about the trade.
        expect: the open question.
    """
    if found and len(found[0]) > 1:
        return found
    likely = (
        bool(answer)
        and answer[0].probability >= MIN_ANSWER_POSTERIOR
        and sure >= OUT_OF_DOMAIN_SCORE
    )
    word = answer[0].text if likely else None
    if found and not requires_confirmation(found[0], expect):
        return _combine_command(found, word, sure)
    if found and sure >= IN_DOMAIN_WORD_SCORE and word in (None, found[0][0].text):
        return found
    if word is None:
        return ()
    others = tuple(reading for reading in found if reading[0].text != word)
    return ((Word(word, DOUBTFUL_CONFIDENCE),), *others)


def _combine_command(found: NBest, word: str | None, sure: float) -> NBest:
    """A word that is never asked back: taken or not, and in doubt if it may have been an answer."""
    if word is None or word == found[0][0].text:
        return found if sure >= IN_DOMAIN_COMMAND_SCORE else ()
    return (
        mark_doubtful(found)
        if sure >= IN_DOMAIN_WORD_SCORE
        else ((Word(word, DOUBTFUL_CONFIDENCE),),)
    )


def doubtful_best(found: NBest, expect: str | None) -> NBest:
    """The readings heard in doubt; none where the likeliest would count without being asked."""
    return mark_doubtful(found[:1]) if found and requires_confirmation(found[0], expect) else ()


def mark_doubtful(found: NBest) -> NBest:
    """The readings with every word in doubt."""
    return tuple(
        tuple(Word(word.text, DOUBTFUL_CONFIDENCE) for word in reading) for reading in found
    )


def requires_confirmation(words: Sequence[Word], expect: str | None) -> bool:
    """True where the grammar itself doubts each act made of words heard in doubt."""
    doubtful = [Word(word.text, DOUBTFUL_CONFIDENCE) for word in words if word.text != UNKNOWN]
    made = recognise(doubtful, expect).acts
    return bool(made) and all(act.doubts for act in made)
