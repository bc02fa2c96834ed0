"""Whatever an ear makes of a talk, it goes on: no fault, and no verdict on a doubt."""

from __future__ import annotations

import random

import pytest
from boxaloud.assistant.dialogue import Conversation
from boxaloud.grammar import sample
from boxaloud.grammar.lexer.heard_words import Word

ASKED = (None, "confirm", "clamps", "grounds", "device_size", "box")
SURE = (0.3, 0.5, 0.9, 0.95, 1.0)


@pytest.fixture(scope="module")
def sentences() -> list[str]:
    return [said for asked in ASKED for said in sample(800, 5, asked)]


def misheard(sentences: list[str], words: list[str], dice: random.Random) -> list[Word]:
    """A sentence or two, each word at times another of the grammar's, as sure as may be."""
    said = dice.choice(sentences).split()
    if dice.random() < 0.3:
        said += dice.choice(sentences).split()
    return [
        Word(dice.choice(words) if dice.random() < 0.08 else word, dice.choice(SURE))
        for word in said
    ]


@pytest.mark.parametrize("seed", range(0, 200, 20))
def test_a_misheard_talk_never_faults(sentences: list[str], seed: int) -> None:
    """Past faults this holds off: a number slot without a number, twelve gangs of one box."""
    words = sorted({word for said in sentences for word in said.split()})
    for talk in range(seed, seed + 20):
        dice, conversation = random.Random(talk), Conversation()
        for _ in range(25):
            reply = conversation.hear(misheard(sentences, words, dice))
            assert reply.said
            assert not conversation.talk.state.pending or reply.verdict != "fits"


@pytest.mark.parametrize(
    "answer",
    [
        "no",
        "yes",
        "skip",
        "three",
    ],
)
def test_a_supposition_after_a_doubt_was_settled_in_the_same_breath(answer: str) -> None:
    """A doubt settled by "yes" is no longer there for the supposition that follows to answer."""
    conversation = Conversation()
    conversation.hear(
        [Word("two", 0.3), *(Word(word, 0.95) for word in ["twelve", "two", "cables"])]
    )
    asked = conversation.asks
    assert asked == "confirm"
    reply = conversation.hear([Word(word, 0.95) for word in f"yes what if {answer}".split()])
    assert reply.said
    assert conversation.asks == "box"


@pytest.mark.parametrize("said", ["what if go back", "what if i open the kitchen box"])
def test_a_box_opened_in_a_supposition_does_not_fault(said: str) -> None:
    assert Conversation().hear(said).said
