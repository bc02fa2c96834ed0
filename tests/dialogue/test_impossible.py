"""What cannot be is refused whatever act brought it in, and the box stands as it stood.

Volumes: NEC 2023 Table 314.16(B)(1), 2.00 in³ for 14 AWG and 2.50 for 10 AWG; a device wider
than one gang counts two allowances a gang, 314.16(B)(4).
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud.assistant.dialogue import Conversation
from boxaloud.grammar import acts
from boxaloud.grammar.lexer.heard_words import Word


@pytest.mark.parametrize(
    "said",
    ["that 0 has no ground", "without a ground in the -3 14-2", "the 0 14-2s have no ground",
     "make it 0 14-2s", "the switch is 12 gangs wide", "the 1001 14-2s go through"],
)  # fmt: skip
def test_a_count_that_cannot_be_is_refused_and_the_box_stands(said: str) -> None:
    talking = Conversation()
    talking.hear("two 14-2 cables and a switch")
    reply = talking.hear(said)
    assert reply.said
    assert reply.sheet.total >= 0
    assert talking.hear("a dimmer").sheet.total == reply.sheet.total + Decimal("4.00")


@pytest.mark.parametrize("gangs", ["12", "0", "00000000", "a 12", "1000000"])
@pytest.mark.parametrize("sure", [None, 0.9, 0.3])
def test_gangs_that_cannot_be_are_never_entered(gangs: str, sure: float | None) -> None:
    talking = Conversation()
    talking.hear("two 10-3 cables and a range receptacle")
    reply = talking.hear("50 cubic inches, no clamps")
    assert reply.asks == "gangs"
    talking.hear(gangs if sure is None else [Word(word, sure) for word in gangs.split()])
    talking.hear("yes")
    talking.hear("skip")
    # 6 conductors (1), 4 for the two gangs (4), a ground (5): 11 allowances of 2.50
    assert talking.hear("it is two gangs wide").sheet.total == Decimal("27.50")


def test_another_box_is_never_opened_by_what_is_supposed_of_an_empty_one() -> None:
    talking = Conversation()
    reply = talking.enter(
        (acts.Suppose(acts=(acts.AddDevice(name="receptacle"), acts.OpenBox(name="pantry")),
                      asks_fit=True, words="would a receptacle fit and open pantry"),),
        "would a receptacle fit and open pantry",
    )  # fmt: skip
    assert reply.said
    assert talking.boxes.names == ("box 1",)
    assert not reply.sheet.total


@pytest.mark.parametrize("count", [101, 9_999_999_999])
def test_no_dimension_is_said_of_more_raceways_than_enter_a_box(count: int) -> None:
    reply = Conversation().hear(f"straight pull, {count} largest 3 inch")
    assert (reply.asks, reply.verdict) == ("unread", "incomplete")
