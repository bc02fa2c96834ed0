"""A bonding jumper of which nobody said whether it enters the box is asked about, never left out.

314.16(B)(5): equipment bonding jumpers that enter count among the equipment grounding conductors,
one allowance for up to four and a quarter for each more from 2020 (electricallicenserenewal.com
1307); (B)(1): what never leaves the box counts nothing (Mike Holt forum 61182).
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.dialogue.box_dialogue import Talk

WIRES = "10 cubic inch box, four number 12 wires, no grounds, no clamps"


def told(*said: str) -> Reply:
    """The reply to the last of some utterances."""
    conversation = Conversation()
    for words in said:
        reply = conversation.hear(words)
    return reply


def totals(reply: Reply) -> tuple[str, Decimal]:
    return reply.verdict, reply.sheet.total


def test_it_is_asked_where_it_decides() -> None:
    """4 x 2.25 is 9.00, and 11.25 with the jumper, of 10."""
    found = told(WIRES, "an equipment bonding jumper")
    assert (found.verdict, found.asks) == ("incomplete", "jumper")
    assert "9.00" in found.said


@pytest.mark.parametrize(
    ("said", "least", "most"),
    [
        # four 12s 9.00; with a 12 as the first ground 11.25
        ((WIRES, "a bonding jumper"), "9.00", "11.25"),
        # four 14s and four grounds 10.00; the fifth takes a quarter of 2.00
        (("18.25 cubic inch box, two 14-2s, two 14-2s, no clamps", "a bonding jumper"),
         "18.00", "18.50"),
        # two 14-2s 10.00; a number 10 among their grounds makes the allowance 2.50
        (("12 cubic inch box, two 14-2s, no clamps, a number 10 bonding jumper",), "10.00",
         "10.50"),
        # three 12s and a stud at 12: 9.00; a number 10 makes the stud 2.50 and is 2.50 itself
        (("10 cubic inch box, three 12s, no grounds, no clamps, a luminaire stud",
          "a number 10 bonding jumper"), "9.00", "11.75"),
        # while the clamps are open too: neither is in the total
        (("14 cubic inch box, four number 12 wires, no grounds, a bonding jumper",), "9.00",
         "13.50"),
    ],
)  # fmt: skip
def test_the_total_shown_is_the_least_of_both_outcomes(
    said: tuple[str, ...], least: str, most: str
) -> None:
    """314.16(B)(1) to (5); nothing that is still open stands in a total, so that none says over
    of what may fit."""
    found = told(*said)
    shown = (found.sheet.total, found.low, found.high)
    assert shown == (Decimal(least), Decimal(least), Decimal(most))
    if found.sheet.capacity is not None:
        assert found.sheet.margin == found.sheet.capacity - found.sheet.total


@pytest.mark.parametrize(
    ("answer", "verdict", "total"),
    [
        ("yes", "over", "11.25"),
        ("it comes in", "over", "11.25"),
        ("it enters from the conduit", "over", "11.25"),
        ("outside", "over", "11.25"),
        ("from outside", "over", "11.25"),
        ("skip", "over", "11.25"),
        ("no", "fits", "9.00"),
        ("it stays inside the box", "fits", "9.00"),
        ("it never leaves the box", "fits", "9.00"),
        ("inside", "fits", "9.00"),
        ("to the box", "fits", "9.00"),
    ],
)
def test_what_answers_it(answer: str, verdict: str, total: str) -> None:
    assert totals(told(WIRES, "a bonding jumper", answer)) == (verdict, Decimal(total))


@pytest.mark.parametrize(
    "said",
    [
        "a bonding jumper to the box",
        "a bonding jumper inside the box",
        "a bonding jumper that never leaves the box",
        "a bonding jumper that stays in the box",
        "a number 12 ground jumper to the device",
    ],
)
def test_one_that_stays_is_not_asked_about(said: str) -> None:
    found = told(WIRES, said)
    assert totals(found) == ("fits", Decimal("9.00"))
    assert found.asks is None


def test_one_that_enters_is_not_asked_about() -> None:
    found = told(WIRES, "a number 12 bonding jumper coming in from outside")
    assert totals(found) == ("over", Decimal("11.25"))
    assert found.asks is None


def test_where_it_changes_nothing_it_is_not_asked() -> None:
    """Three grounds are one allowance as two are."""
    found = told("18 cubic inch box, two 14-2s, a number 14 bonding jumper, no clamps")
    assert totals(found) == ("fits", Decimal("10.00"))
    assert found.asks is None


def test_it_may_be_the_fifth_ground() -> None:
    """Four cables of 14-2 bring four grounds; a fifth takes a quarter of 2.00 more."""
    said = ("18.25 cubic inch box, four 14-2s, no clamps", "a bonding jumper")
    found = told(*said)
    assert (found.verdict, found.asks) == ("incomplete", "jumper")
    assert totals(told(*said, "yes")) == ("over", Decimal("18.50"))


def test_how_its_bounds_are_said_before_an_answer() -> None:
    """Over or fitting either way is said at once."""
    found = told("18 cubic inch box, four number 12 wires, no grounds, no clamps, a bonding jumper")
    assert found.verdict == "fits"
    assert "11.25" in found.said
    assert (
        told("8 cubic inch box, four 12s, no grounds, no clamps, a bonding jumper").verdict
        == "over"
    )


def test_a_size_said_later_is_its_size() -> None:
    """One allowance at the largest ground, number 10: 2.50."""
    found = told(WIRES, "a number 10 bonding jumper", "yes")
    assert found.sheet.total == Decimal("11.50")


def test_the_journal_folded_gives_the_same() -> None:
    conversation = Conversation()
    for words in (WIRES, "a bonding jumper", "it stays inside the box"):
        conversation.hear(words)
    talk = conversation.talk
    assert Talk.fold(talk.journal, talk.state.edition).state == talk.state
