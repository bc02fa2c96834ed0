"""What is said of a box that nobody knows waits until it is known of which box it is.

Totals by Table 314.16(B)(1) and 314.16(B)(1), (4), (5), NEC 2023: a 14-2 with its ground brings two
conductors of 2.00 in³, all grounds one allowance, a switch two.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.box_names import meant, near
from boxaloud.grammar.lexer.heard_words import Word

TWO = (
    "next box den, two 14-2s and a switch, 18 cubic inches, no clamps",
    "next box hall, two 14-2s, no devices, 12.5 cubic inches, no clamps",
)
UNKNOWN = "go back to the pantry. Put another 14-2 in that one."


def begun(*said: str) -> Conversation:
    """A job of two boxes, with what was said after."""
    conversation = Conversation()
    for one in (*TWO, *said):
        conversation.hear(one)
    return conversation


def totals(conversation: Conversation) -> dict[str, Decimal]:
    """The total of each box."""
    boxes = conversation.boxes
    return {name: boxes.talk(name).assessment.sheet.total for name in boxes.names}


def test_the_boxes_are_named_and_no_verdict_stands() -> None:
    conversation = begun()
    reply = conversation.hear(UNKNOWN)
    assert reply.verdict == "incomplete"
    assert reply.question
    assert all(name in reply.said for name in ("pantry", "den", "hall"))
    assert totals(conversation) == {"den": Decimal("14.00"), "hall": Decimal("10.00")}


@pytest.mark.parametrize(
    "answer", ["the den", "den", "I mean the den one", "it's the den", "back to the den"]
)
def test_what_waited_comes_into_the_box_that_is_named(answer: str) -> None:
    conversation = begun(UNKNOWN)
    assert conversation.hear(answer).verdict == "fits"
    assert conversation.talk.name == "den"
    assert totals(conversation) == {"den": Decimal("18.00"), "hall": Decimal("10.00")}
    assert conversation.boxes.talk("hall").assessment.verdict == "fits"


def test_what_is_said_meanwhile_waits_too_and_a_question_is_answered() -> None:
    conversation = begun(UNKNOWN, "and a switch")
    assert totals(conversation)["hall"] == Decimal("10.00")
    assert "allowance" in conversation.hear("does a wire nut count?").said
    conversation.hear("the den")
    assert totals(conversation) == {"den": Decimal("22.00"), "hall": Decimal("10.00")}


def test_a_new_box_takes_its_name_and_what_waited() -> None:
    conversation = begun(UNKNOWN, "new box")
    assert totals(conversation)["pantry"] == Decimal("6.00")


@pytest.mark.parametrize("answer", ["skip", "never mind", "undo"])
def test_what_waited_may_be_dropped(answer: str) -> None:
    conversation = begun(UNKNOWN)
    assert conversation.hear(answer).verdict == "fits"
    assert totals(conversation) == {"den": Decimal("14.00"), "hall": Decimal("10.00")}


def test_with_nothing_behind_the_name_what_follows_waits() -> None:
    conversation = begun("go back to the pantry", "one more 14-2")
    assert totals(conversation) == {"den": Decimal("14.00"), "hall": Decimal("10.00")}
    assert conversation.talk.assessment.verdict == "incomplete"


def test_each_journal_gives_its_box_again() -> None:
    conversation = begun(UNKNOWN, "and a switch", "the den")
    for name in conversation.boxes.names:
        talk = conversation.boxes.talk(name)
        assert Talk.fold(talk.journal, "2023", name).state == talk.state


def test_by_ear_too_nothing_comes_into_the_box_at_hand() -> None:
    conversation = begun()
    words = "go back to the pantry and put another fourteen two in that one"
    conversation.hear([Word(word, 0.95) for word in words.split()])
    assert totals(conversation)["hall"] == Decimal("10.00")


def test_a_key_goes_on_with_the_box_that_is_shown() -> None:
    conversation = begun(UNKNOWN)
    told = Conversation().hear("a stud")
    assert told.understood
    conversation.enter((), "looked at")
    conversation.hear("skip")
    assert totals(conversation)["hall"] == Decimal("10.00")


NAMES = (
    "kitchen switch by the door",
    "kitchen island",
    "bedroom one",
    "bedroom two",
    "guest bathroom",
)


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("kitchen switch", "kitchen switch by the door"),
        ("the switch by the door", "kitchen switch by the door"),
        ("bedroom 2", "bedroom two"),
        ("the guest bath", "guest bathroom"),
        ("guest bathroom one", "guest bathroom"),
        ("kichen island", "kitchen island"),
        ("kitchen", None),
        ("bedroom", None),
        ("garage", None),
        ("bedroom three", None),
    ],
)
def test_a_box_is_found_by_the_one_name_that_is_near(said: str, name: str | None) -> None:
    assert meant(said, NAMES) == name


def test_several_that_are_near_are_all_offered() -> None:
    assert near("kitchen", NAMES) == NAMES[:2]


@pytest.mark.parametrize(
    "asked", ["is the den over?", "how full is the den box", "does the den fit?"]
)
def test_a_question_about_another_box_is_answered_of_that_one(asked: str) -> None:
    conversation = begun()
    reply = conversation.hear(asked)
    assert "14.00" in reply.said
    assert "10.00" not in reply.said
    assert conversation.talk.name == "hall"
    assert totals(conversation) == {"den": Decimal("14.00"), "hall": Decimal("10.00")}


@pytest.mark.parametrize("asked", ["was unit 12 over?", "what was unit 12?", "how was unit 12"])
def test_a_box_whose_name_ends_in_a_number_is_asked_about(asked: str) -> None:
    """Of unit 12, four conductors, a switch and the grounds are 14.00, 314.16(B); of unit 7 six
    are 18.00. Twelve is no size of a wire there."""
    conversation = Conversation()
    conversation.hear("unit 12: two 14-2s and a switch, 12.5 cubic inches, no clamps")
    conversation.hear("next: unit 7 14-2 x3, switch, 20ci, no clamps")
    reply = conversation.hear(asked)
    assert "14.00" in reply.said
    assert "over by 1.50" in reply.said.lower()
    assert (conversation.talk.name, reply.sheet.total) == ("unit 7", Decimal("18.00"))
