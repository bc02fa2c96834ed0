"""What is said to the ears when they are measured, and what becomes of it."""

from __future__ import annotations

import random
import time
from dataclasses import dataclass

from boxaloud.assistant.asr.asr_types import Recogniser, Sound
from boxaloud.assistant.asr.hypotheses.meaning_pool import judged as judged_hearing
from boxaloud.assistant.asr.hypotheses.meaning_representation import meaning
from boxaloud.assistant.asr.hypotheses.rescoring import choose
from boxaloud.assistant.dialogue import Conversation
from boxaloud.grammar.acts import Act
from boxaloud.grammar.lexer.heard_words import UNHEARD
from electrician.mind import random_mind
from electrician.phrasing import Talker
from judging import OTHERWISE, contents, judged, result

#: Words that are none of the trade's, said where an answer is due (our own choice; a fifth of them
#: sound like an answer).
STRAY = (
    "cat", "dog", "left", "go", "stop", "door", "tree", "hat", "paper", "seat", "hey", "down",
    "bless", "guess", "water", "window", "ladder", "phone", "coffee", "truck", "hammer",
    "lunch", "radio", "hello", "wait", "look", "here", "there", "blue", "green", "far", "book",
    "chair", "house", "bird", "happy", "marvin", "backward", "forward", "follow", "bed", "wow",
    "sheila", "visual", "learn", "bucket", "pencil", "cloud", "sandwich", "shovel", "pretty",
    "mother", "uncle", "bicycle", "engine", "winter", "button", "carpet", "mirror", "table",
    "spoon", "cheese", "apple", "money", "sorry", "maybe", "please", "where", "when", "who",
    "why", "later", "under", "behind", "quick", "heavy", "dirty", "broken", "morning", "friday",
    "buy", "sun", "shoe", "fire", "gate", "line", "tent", "knife", "crew", "sweater",
    "elephant", "glove", "rope", "nurse", "fight", "string", "drive", "steps", "guest", "fur",
)  # fmt: skip
#: A talk in which something is asked back, and one in which a number is the answer.
ASKED_BACK = ("forty cubic inch box", "thirteen fourteen two cables")
NUMBER_ASKED = ("two number twelve wires and one switch", "no clamps", "eighteen cubic inch box")


@dataclass(frozen=True, slots=True)
class Found:
    """What became of one sound.

    Attributes:
        outcome: as `judging.judged` names it; `entered` or empty for what enters nothing rightly.
        heard: the words that were taken.
        probability: how likely the ear took it to be heard rightly; None where it cannot tell.
        right: whether what was heard, taken or not, means what was said.
        seconds: of the processor, to hear and to answer.
    """

    outcome: str
    heard: str
    probability: float | None
    right: bool
    seconds: float


def statements(number: int, seed: int) -> list[str]:
    """Phrasings of the scripted electrician, in one breath each."""
    dice, said = random.Random(seed), dict[str, None]()
    while len(said) < number:
        mind = random_mind(dice)
        talker = Talker(mind, dice)
        parts = [talker.fact(fact, count) for fact, count in mind.things.items()][:2]
        said[" and ".join(parts)] = None
        said[talker.box()] = None
    return list(said)[:number]


@dataclass(frozen=True, slots=True)
class Told:
    """What an ear took of a sound, and what it would have taken had it believed itself.

    Attributes:
        heard: the words that were taken.
        probability: how likely the ear took it to be heard rightly; None where it cannot tell.
        meant: the acts of what it heard, taken or not.
        seconds: of the processor.
    """

    heard: str
    probability: float | None
    meant: tuple[Act, ...]
    seconds: float


def told(ear: Recogniser, talk: Conversation, sound: Sound) -> Told:
    """What an ear makes of a sound; the talk is told what is taken of it."""
    began, texts, likely = time.process_time(), [], list[float]()
    meant: tuple[Act, ...] = ()
    for hearing in ear.hear(sound, talk.asks):
        expect = talk.asks
        found = judged_hearing(hearing, expect)
        if found is not None and found.probability is not None:
            likely.append(found.probability)
            meant += found.meant
        if words := choose(hearing, expect):
            talk.hear(words)
            texts.append(" ".join(word.text for word in words if word.text != UNHEARD))
    seconds = time.process_time() - began
    return Told(" ".join(texts), min(likely, default=None), meant, seconds)


def statement(ear: Recogniser, text: str, sound: Sound) -> Found:
    """A statement heard in a conversation of its own."""
    meant, talk = Conversation(), Conversation()
    meant.hear(text)
    found = told(ear, talk, sound)
    outcome = judged(talk.talk.state, meant.talk.state, meaning(found.heard) == meaning(text))
    if outcome == "wrong" and result(talk.talk.state) == result(meant.talk.state):
        outcome = OTHERWISE
    return _found(outcome, found, found.meant == meaning(text))


def stray(ear: Recogniser, sound: Sound, before: tuple[str, ...]) -> Found:
    """A sound that must change nothing, in a talk in which something is asked."""
    talk = Conversation()
    for text in before:
        talk.hear(text)
    was = talk.talk.state
    found = told(ear, talk, sound)
    now = talk.talk.state
    changed = contents(now) != contents(was) or now.assumed != was.assumed
    settled = len(now.pending) < len(was.pending)
    asked = now.pending != was.pending or now.unread != was.unread
    outcome = "entered" if changed or settled else "asked" if asked else ""
    return _found(outcome, found, False)


def answer(ear: Recogniser, word: str, sound: Sound, before: tuple[str, ...]) -> Found:
    """A word that answers what is asked."""
    meant, talk = Conversation(), Conversation()
    for text in before:
        meant.hear(text)
        talk.hear(text)
    meant.hear(word)
    was, asked = talk.talk.state, talk.asks
    found = told(ear, talk, sound)
    now, right = talk.talk.state, found.heard == word
    if contents(now) == contents(was):
        outcome = "nothing"
        if now.pending:
            outcome = "asked, rightly heard" if right else "asked, misheard"
    else:
        outcome = "same" if contents(now) == contents(meant.talk.state) else "wrong"
    return _found(outcome, found, found.meant == meaning(word, asked))


def _found(outcome: str, found: Told, right: bool) -> Found:
    return Found(outcome, found.heard, found.probability, right, found.seconds)
