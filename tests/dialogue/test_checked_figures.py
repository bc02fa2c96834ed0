"""Figures of the worksheet said once more weigh nothing; any other number that nobody read does.

Every total is by NEC 2023 314.16(B)(1) to (5) and Table 314.16(B)(1), 2.00 in³ a 14 AWG and
2.25 a 12 AWG conductor: three 14-2 and a switch are 6 + 2 + 1 allowances of 2.00, 18.00; four 14-2
and a receptacle 8 + 2 + 1, 22.00; seven 14-2 are 14 and, of seven grounds, 1 3/4, 31.50; four 12-2
8 + 1 of 2.25, 20.25. The 4 by 2-1/8 square is 30.3 in Table 314.16(A).
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud.assistant.dialogue import Conversation

SWITCH = "three 14-2s and a switch, 18 cubic inches, no clamps"
OVER = "four 14-2s, one receptacle, 20 cubic inches, no clamps"
SQUARE = "4 x 2-1/8 square, seven 14-2s spliced, no clamps"
TWELVES = "four 12-2s, 25 cubic inches, no clamps"

SAID_ONCE_MORE = [
    (SWITCH, "and I keep coming up with eighteen", "fits", "18.00"),
    (SWITCH, "eighteen into eighteen", "fits", "18.00"),
    (OVER, "I make that twenty-two, over by two", "over", "22.00"),
    (SQUARE, "fourteen, plus one and three quarters", "over", "31.50"),
    (TWELVES, "twenty and a quarter against twenty-five", "fits", "20.25"),
    (TWELVES, "with four and three quarters to spare", "fits", "20.25"),
    (TWELVES, "leaving four and three quarters", "fits", "20.25"),
]

SOMETHING_ELSE = [
    (SWITCH, "with nineteen in it"),
    (SWITCH, "fourteen into eight"),
    (OVER, "and two"),
    (SQUARE, "fourteen, plus two and a half"),
    (TWELVES, "twenty against twenty-five"),
    (TWELVES, "and eight"),
    (TWELVES, "plus twenty-one"),
]


@pytest.mark.parametrize(("box", "more", "verdict", "total"), SAID_ONCE_MORE)
def test_figures_of_the_worksheet_weigh_nothing(
    box: str, more: str, verdict: str, total: str
) -> None:
    reply = Conversation().hear(f"{box}, {more}")
    assert (reply.verdict, reply.sheet.total) == (verdict, Decimal(total)), reply.said
    assert reply.asks is None


@pytest.mark.parametrize(("box", "more"), SOMETHING_ELSE)
def test_another_number_still_withholds_the_verdict(box: str, more: str) -> None:
    reply = Conversation().hear(f"{box}, {more}")
    assert reply.asks == "unread", reply.said
    assert reply.verdict == "incomplete"


def test_a_number_alone_is_asked_though_the_total_is_the_same() -> None:
    talk = Conversation()
    talk.hear(SWITCH)
    assert talk.hear("and eighteen").verdict == "incomplete"


@pytest.mark.parametrize(
    ("box", "more", "total"),
    [
        (TWELVES, "it's five of the 12-2s, no lie, five", "25.3125"),
        (OVER, "only three 14-2s, not the four, three", "18.00"),
    ],
)
def test_the_count_just_put_right_may_be_said_again(box: str, more: str, total: str) -> None:
    """Five 12-2 are 10 and 1 1/4 of 2.25 in³, 25.3125; three 14-2 and a receptacle 18.00."""
    talk = Conversation()
    talk.hear(box)
    reply = talk.hear(more)
    assert (reply.sheet.total, reply.asks) == (Decimal(total), None), reply.said


def test_what_goes_on_behind_a_count_put_right_is_something_else() -> None:
    talk = Conversation()
    talk.hear(TWELVES)
    assert talk.hear("it's five 12-2s, and one").verdict == "incomplete"
