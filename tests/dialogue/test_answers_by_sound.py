"""What a sound may do by itself: a word hardly heard answers nothing, nothing is emptied unasked.

Totals by NEC 2023 314.16(B), Table 314.16(B)(1): 2.00 in³ each 14 AWG, 2.25 in³ each 12 AWG.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

import pytest
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.grammar.lexer.heard_words import UNHEARD, Word


def heard(said: str) -> list[Word]:
    """Words by ear, each with how sure it was behind a bar; 0.95 where it has none."""
    parts = (word.partition("|") for word in said.split())
    return [Word(text, float(score or 0.95)) for text, _, score in parts]


def talked(said: Sequence[str]) -> Conversation:
    conversation = Conversation()
    for words in said:
        conversation.hear(heard(words))
    return conversation


def total(conversation: Conversation) -> Decimal:
    return conversation.talk.assessment.sheet.total


FILLED = ["two fourteen twos and a switch", "fifteen cubic inches"]


@pytest.mark.parametrize("word", ["no|0.5", "yes|0.5", "none|0.5", "skip|0.5"])
def test_an_unsure_bare_answer_answers_no_question(word: str) -> None:
    conversation = talked([*FILLED, word])
    assert conversation.asks == "clamps"
    assert conversation.talk.state.clamps == "unknown"
    assert not conversation.talk.state.assumed


def test_a_sure_one_does() -> None:
    assert talked([*FILLED, "no"]).talk.state.clamps == "none"


DOUBTED = ["two|0.3 fourteen two cables"]


@pytest.mark.parametrize(
    ("before", "words", "cables"),
    [
        (DOUBTED, ["yes|0.5", "yes|0.5"], Decimal("10.00")),
        (DOUBTED, ["correct|0.5", "yes|0.7"], Decimal("10.00")),
        (DOUBTED, ["yes|0.5", "that's|0.5 right|0.6"], Decimal("10.00")),
    ],
)
def test_the_same_answer_twice_running_is_one_though_neither_was_sure(
    before: list[str], words: list[str], cables: Decimal
) -> None:
    assert total(talked([*before, words[0]])) == 0
    assert total(talked([*before, *words])) == cables


def test_twice_no_drops_what_was_asked_back() -> None:
    conversation = talked([*DOUBTED, "no|0.5", "no|0.6"])
    assert not conversation.talk.state.pending
    assert not conversation.talk.state.items


def test_twice_none_answers_for_the_clamps() -> None:
    assert talked([*FILLED, "none|0.5", "none|0.5"]).talk.state.clamps == "none"


@pytest.mark.parametrize(
    "words",
    [
        ["yes|0.4", "yes|0.5"],  # the first could as well have been anything
        ["yes|0.5", "yes|0.4"],
        ["yes|0.5", "no|0.5"],
        ["no|0.5", "correct|0.5"],
        ["yes|0.5", "read it back", "yes|0.5"],
        ["yes|0.5", "the weather is lovely", "yes|0.5"],
    ],
)
def test_neither_another_answer_nor_a_worse_one_nor_one_long_before_counts_for_one(
    words: list[str],
) -> None:
    conversation = talked([*DOUBTED, *words])
    assert conversation.asks == "confirm"
    assert not conversation.talk.state.items


def test_an_answer_said_twice_is_the_same_when_the_journal_is_folded() -> None:
    conversation = talked([*DOUBTED, "yes|0.5", "yes|0.5"])
    again = Talk.fold(conversation.talk.journal, conversation.talk.state.edition)
    assert again.state == conversation.talk.state


def test_a_value_beside_an_unsure_no_still_stands_in() -> None:
    """The number is what decides: the “no” before it is only what begins the correction."""
    conversation = talked(["two|0.3 fourteen two cables", "no|0.6 three"])
    assert total(conversation) == Decimal("14.00")  # six conductors, up to four grounds as one


@pytest.mark.parametrize("way", ["scratch that", "undo", "take that back"])
def test_after_a_confirmation_what_was_confirmed_is_taken_back(way: str) -> None:
    conversation = talked(["two fourteen twos", "three|0.3 twelve two cables", "yes"])
    conversation.hear(heard(way))
    assert total(conversation) == Decimal("10.00")  # four conductors and the grounds' allowance
    assert conversation.asks == "box"


def test_what_else_was_said_with_it_stays() -> None:
    conversation = talked(["a switch and three|0.3 fourteen two cables", "yes", "scratch that"])
    assert [type(item.content).__name__ for item in conversation.talk.state.items] == ["Yoke"]
    assert not conversation.talk.state.pending


def test_it_can_be_brought_back() -> None:
    conversation = talked(["two|0.3 fourteen two cables", "yes", "scratch that", "redo"])
    assert total(conversation) == Decimal("10.00")


def test_a_box_is_not_deleted_by_sound_unasked() -> None:
    conversation = talked(["two fourteen twos", "next box kitchen", "a switch", "delete this box"])
    assert len(conversation.boxes.names) == 2
    assert conversation.asks == "confirm"
    conversation.hear(heard("yes"))
    assert len(conversation.boxes.names) == 1


def test_nor_after_a_no() -> None:
    conversation = talked(["two fourteen twos", "next box kitchen", "a switch", "delete this box"])
    conversation.hear(heard("no"))
    assert len(conversation.boxes.names) == 2
    assert conversation.asks != "confirm"


def test_a_box_is_not_left_for_the_next_by_an_unsure_sound() -> None:
    conversation = talked(["two fourteen twos", "next|0.7 box kitchen"])
    assert len(conversation.boxes.names) == 1
    reply = conversation.hear(heard("yes"))
    assert conversation.talk.name == "kitchen"
    assert "kitchen" in reply.said.lower()


def test_what_follows_the_box_that_is_asked_about_goes_into_none() -> None:
    conversation = talked(["two fourteen twos", "next|0.7 box kitchen three twelve twos"])
    assert total(conversation) == Decimal("10.00")
    conversation.hear(heard("yes"))
    assert total(conversation) == 0


def test_a_certain_next_box_is_taken_and_a_typed_one() -> None:
    assert talked(["two fourteen twos", "next box kitchen"]).talk.name == "kitchen"
    typed = Conversation()
    typed.hear("two 14-2s")
    typed.hear("delete this box")
    assert typed.asks != "confirm"


def test_speech_that_no_word_accounts_for_holds_the_verdict() -> None:
    """14.00 of 15 in³ fits; but somebody said more, and it was not heard."""
    conversation = talked(FILLED)
    reply = conversation.hear([*heard("no clamps"), Word(UNHEARD, 0.0)])
    assert total(conversation) == Decimal("14.00")
    assert reply.verdict == "incomplete"
    assert reply.asks == "unread"
    assert UNHEARD not in reply.heard
    assert conversation.hear(heard("skip")).verdict == "fits"


def test_it_is_settled_by_saying_it_again() -> None:
    conversation = talked(FILLED)
    conversation.hear([*heard("no clamps"), Word(UNHEARD, 0.0)])
    reply = conversation.hear(heard("and a dimmer"))
    assert total(conversation) == Decimal("18.00")
    assert not conversation.talk.state.unread
    assert reply.asks != "unread"
