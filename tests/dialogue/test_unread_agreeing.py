"""Words left unread that agree with what was told weigh nothing; others go on weighing.

Totals: 2.00 for each conductor of 14 AWG, 2.25 of 12 AWG, NEC 2023 Table 314.16(B)(1), with the
clamps of 314.16(B)(2), devices of (B)(4) and grounds of (B)(5).
"""

from __future__ import annotations

import pytest
from boxaloud.assistant.dialogue import Conversation

AGREEING = [
    # 12: 12 (1) + 4 (4) + 1 1/2 (5)
    (["six 12-2s in a 42, a duplex, a switch, no clamps, six of them, yes, six"], "39.375", "42"),
    # 12: 4 (1) + 2 (4) + 1 (5)
    (["two 12-3s and a 12-2, a receptacle, 22.5, no clamps", "I can do without the 12-2. Delete."],
     "20.25", "22.5"),
    # 14: 4 (1) + 1 (2) + 2 (4) + 1 (5)
    (["two 14-2s and a switch, clamps inside, 18", "no, the box is not 18, it's 16"],
     "16.00", "16"),
    # 14: 6 (1) + 2 (4) + 1 (5)
    (["18, no clamps, two 14-2s, a receptacle",
      "there's a third 14-2 already, behind the other two"], "18.00", "18"),
    # 14: 9 (1) + 1 (5)
    (["nine fourteens... seven, eight, nine, yes. A green fourteen. 20 cubic inches, no clamps"],
     "20.00", "20"),
]  # fmt: skip


@pytest.mark.parametrize(("said", "total", "capacity"), AGREEING, ids=lambda one: str(one)[:50])
def test_what_agrees_weighs_nothing(said: list[str], total: str, capacity: str) -> None:
    talk = Conversation()
    for line in said:
        reply = talk.hear(line)
    assert (str(reply.sheet.total), str(reply.sheet.capacity)) == (total, capacity)
    assert reply.verdict == "fits"
    assert not talk.talk.state.unread


@pytest.mark.parametrize(
    "said",
    [
        "two 14-2s, a switch, 18, no clamps, seven, right",
        "two 14-2s, a switch, 18, no clamps, three of the zorbs",
        "two 14-2s, a switch, 18, no clamps. Delete.",
        "two 14-2s, a switch, 18, no clamps, the other two",
    ],
)
def test_what_agrees_with_nothing_goes_on_weighing(said: str) -> None:
    talk = Conversation()
    reply = talk.hear(said)
    assert reply.verdict == "incomplete"
    assert talk.talk.state.unread
