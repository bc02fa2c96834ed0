"""Whether words are of the box at all, held against how outside authors talk.

Sentences of our own. Totals by NEC 2023 314.16(B): two 14-2 and a switch are 4 + 2 + 1 allowances
of 2.00 in³, 14.00.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.dialogue.belief import belief_table
from boxaloud.assistant.dialogue.belief.off_topic import sifted
from boxaloud.assistant.dialogue.belief.relevance import features, relevance
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Unread, Utterance

BOX = "two 14-2s and a switch, 18 cubic inches, no clamps"
CHANGES = [
    "add another 14-2",
    "it's three 14-2s, not two",
    "take the switch out and put in a dimmer",
    "the box says twenty and a quarter",
    "no wait, one of them is a 14-3",
    "there's a receptacle in here as well",
]
OF_SOMETHING_ELSE = [
    "my brother has four 12-2s in his garage and never pulled a permit",
    "the truck needs two tires before we drive out tomorrow",
    "remind me to buy six receptacles at the supply house",
    "lunch is at twelve and I owe him fifteen bucks",
    "yesterday's job had five switches by one door",
]


def after(said: str) -> Reply:
    talk = Conversation()
    talk.hear(BOX)
    return talk.hear(said)


@pytest.mark.parametrize("said", CHANGES)
def test_what_changes_a_box_is_likely_to(said: str) -> None:
    assert relevance(said) > 0


@pytest.mark.parametrize("said", OF_SOMETHING_ELSE)
def test_what_is_said_beside_it_is_not_and_enters_nothing(said: str) -> None:
    assert relevance(said) < 0
    reply = after(said)
    assert (reply.sheet.total, reply.verdict) == (Decimal("14.00"), "fits"), reply.said


def test_case_marks_and_apostrophes_make_no_difference() -> None:
    """An ear gives no marks and no capitals."""
    assert relevance("The truck’s got two tires, low.") == relevance(
        "the truck's got two tires low"
    )


def test_sizes_devices_and_numbers_are_signs() -> None:
    assert set(features("three twelve twos")) == set(features("two 14-3s"))
    assert set(features("a dimmer")) == set(features("a switch"))


def test_words_never_said_of_a_box_tell_nothing() -> None:
    assert abs(relevance("qwx zzyx vrrb")) < 200


# -- what the grammar read and the likelihood of the words, one against the other ----------------

BESIDE = "my brother wants four 14-2s on his truck by tomorrow"
OF_BOX = "add another one of those to this box, no wait, two of them"
CABLES = acts.AddCable(count=4, awg=14, conductors=2, words="four 14-2s", span=(17, 27))
QUESTION = acts.Ask(about="total", words="how full", span=(0, 8))
NUMBER = Unread("four", (17, 21), True)


def test_what_was_read_of_words_about_something_else_is_not_entered() -> None:
    (kept,) = sifted(Utterance(BESIDE, (CABLES,)), True, False).acts
    assert isinstance(kept, acts.OtherTalk)


def test_a_question_in_such_words_is_answered() -> None:
    assert sifted(Utterance(BESIDE, (CABLES, QUESTION)), True, False).acts == (QUESTION,)


def test_an_unread_number_in_words_about_something_else_weighs_nothing() -> None:
    words = "the permit office wants forty dollars for each one by friday"
    assert relevance(words) < belief_table.table().inert
    assert sifted(Utterance(words, (), (NUMBER,)), True, False).unread == ()


def test_what_was_read_of_words_about_a_box_stays() -> None:
    read = Utterance("add four 14-2s to this box", (CABLES,))
    assert sifted(read, True, False) is read


def test_words_about_a_box_of_which_nothing_was_made_weigh() -> None:
    (run,) = sifted(Utterance(OF_BOX, ()), True, False).unread
    assert run.weighty
    assert run.words == OF_BOX


def test_nothing_weighs_before_a_box_has_contents() -> None:
    assert sifted(Utterance(OF_BOX, ()), False, False).unread == ()


def test_two_words_are_left_to_the_grammar() -> None:
    read = Utterance("buy four", (CABLES,))
    assert sifted(read, True, False) is read


@pytest.mark.parametrize(
    ("name", "value", "read"),
    [
        ("off_topic", -100_000, Utterance(BESIDE, (CABLES,))),
        ("off_topic", 0, Utterance("make it two feet longer", (CABLES,))),
        (
            "inert",
            -100_000,
            Utterance("the permit office wants forty dollars by friday", (), (NUMBER,)),
        ),
        ("on_topic", 100_000, Utterance(OF_BOX, ())),
    ],
)
def test_each_threshold_decides(
    name: str, value: int, read: Utterance, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = sifted(read, True, False)
    changed: dict[str, Any] = {name: value}
    other = replace(belief_table.table(), **changed)
    monkeypatch.setattr(belief_table, "table", lambda: other)
    assert sifted(read, True, False) != before
