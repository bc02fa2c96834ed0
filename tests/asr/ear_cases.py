"""What is said to the ears when they are measured, and what becomes of it."""

from __future__ import annotations

import random
import time
from dataclasses import dataclass

from boxaloud.assistant.asr.asr_types import Recogniser, RecognitionResult, Sound
from boxaloud.assistant.asr.hypotheses.meaning_pool import judged as judgement
from boxaloud.assistant.asr.hypotheses.meaning_representation import meaning
from boxaloud.assistant.asr.hypotheses.rescoring import choose
from boxaloud.assistant.dialogue import Conversation
from electrician.mind import random_mind
from electrician.phrasing import Talker
from judging import OTHERWISE, contents, judged, result

#: Words that are none of the trade's, said where an answer is due (our own choice).
STRAY = (
    "cat", "dog", "left", "go", "stop", "door", "tree", "hat", "paper", "seat", "hey", "down",
    "bless", "guess", "water", "window", "ladder", "phone", "coffee", "truck", "hammer", "lunch",
    "radio", "hello", "wait", "look", "here", "there", "blue", "green", "far", "book", "chair",
    "house", "bird", "happy", "marvin", "backward", "forward", "follow",
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
        right: whether the words mean what was said.
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


def probability(hearing: RecognitionResult, expect: str | None) -> float | None:
    """How likely the ear takes a hearing to be right."""
    found = judgement(hearing, expect)
    return None if found is None else found.probability


def told(ear: Recogniser, talk: Conversation, sound: Sound) -> tuple[str, float | None, float]:
    """The words that an ear took of a sound and that the talk was told, how likely they were to
    be right, and the seconds that it took."""
    began, texts, likely = time.process_time(), [], list[float]()
    for hearing in ear.hear(sound, talk.asks):
        expect = talk.asks
        if (found := probability(hearing, expect)) is not None:
            likely.append(found)
        if words := choose(hearing, expect):
            talk.hear(words)
            texts.append(" ".join(word.text for word in words))
    return " ".join(texts), min(likely, default=None), time.process_time() - began


def statement(ear: Recogniser, text: str, sound: Sound) -> Found:
    """A statement heard in a conversation of its own."""
    meant, talk = Conversation(), Conversation()
    meant.hear(text)
    heard, likely, seconds = told(ear, talk, sound)
    right = meaning(heard) == meaning(text)
    outcome = judged(talk.talk.state, meant.talk.state, right)
    if outcome == "wrong" and result(talk.talk.state) == result(meant.talk.state):
        outcome = OTHERWISE
    return Found(outcome, heard, likely, right, seconds)


def stray(ear: Recogniser, sound: Sound, before: tuple[str, ...]) -> Found:
    """A sound that must change nothing, in a talk in which something is asked."""
    talk = Conversation()
    for text in before:
        talk.hear(text)
    was = talk.talk.state
    heard, likely, seconds = told(ear, talk, sound)
    now = talk.talk.state
    changed = contents(now) != contents(was) or now.assumed != was.assumed
    settled = len(now.pending) < len(was.pending)
    asked = now.pending != was.pending or now.unread != was.unread
    outcome = "entered" if changed or settled else "asked" if asked else ""
    return Found(outcome, heard, likely, not heard, seconds)


def answer(ear: Recogniser, word: str, sound: Sound, before: tuple[str, ...]) -> Found:
    """A word that answers what is asked."""
    meant, talk = Conversation(), Conversation()
    for text in before:
        meant.hear(text)
        talk.hear(text)
    meant.hear(word)
    was = talk.talk.state
    heard, likely, seconds = told(ear, talk, sound)
    now, right = talk.talk.state, heard == word
    if contents(now) == contents(was):
        asked = "asked, rightly heard" if right else "asked, misheard"
        outcome = asked if now.pending else "nothing"
    else:
        outcome = "same" if contents(now) == contents(meant.talk.state) else "wrong"
    return Found(outcome, heard, likely, right, seconds)
