"""What is said behind a change that was withdrawn: dropped where the box holds it, else told or
asked.

Expected: NEC 2023 314.16(B)(1), (3), (4), (5), 2.25 each for 12 AWG, Table 314.16(B)(1).
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud.assistant.dialogue import Conversation

TOLD = "three 12-2s, a switch and a stud in a 21, no clamps"
"""6 (1) + 1 (3) + 2 (4) + 1 (5) = 10 x 2.25 = 22.50 of 21.0."""


@pytest.mark.parametrize(
    ("behind", "total", "verdict"),
    [
        # 8 (1) + 1 (3) + 2 (4) + 1 (5) = 12 x 2.25: what comes in as well is no part of what stays
        ("pull a 12-2 out, no, don't, there's a 12-2 coming from the hall too", "27.00", "over"),
        # 4 (1) + 1 (3) + 2 (4) + 1 (5) = 8 x 2.25: another order
        ("take the switch out, no, don't, take one of the 12-2s out instead", "18.00", "fits"),
        # nobody can tell what "it" is, once the switch is withdrawn
        ("add a dimmer, no, don't need a dimmer, it's a fan control", "22.50", "incomplete"),
        ("add a dimmer and take the stud out, no, don't", "22.50", "incomplete"),
        ("make it two 12-2s, no, don't, it's three", "22.50", "over"),
        ("pull the stud out of the, uh, it's rusted in, it's staying put", "22.50", "over"),
        ("that's four twelve, no, it is three, I had it right", "22.50", "over"),
        ("I'm gonna pull a 12-2, or no, I can't, it feeds the den", "22.50", "over"),
        ("I should start over with, no, you know what, leave it all as is", "22.50", "over"),
        ("mark it with clamps, no, that's a cable staple, no clamps like I said", "22.50", "over"),
        ("the architect drew two switches but she crossed one off", "22.50", "over"),
        ("the print says four 12-2s here, but prints lie", "22.50", "over"),
        ("three 12-2s, no, two, it's two", "18.00", "fits"),  # a correction: 4 + 1 + 2 + 1
        ("four 12-2s, nope, three, just like I had", "22.50", "over"),
        # what was never there is not "like I had": 6 (1) + 1 (3) + 4 (4) + 1 (5)
        ("two dimmers, no, one, like I had", "27.00", "over"),
        ("there's a clamp, no, that's a screw head, there isn't", "22.50", "over"),
        (
            "take the switch out, wait, no, that feeds the fan, leave everything as is",
            "22.50",
            "over",
        ),
        ("I'd lose the stud but then it's bare, so I won't", "22.50", "over"),
        # what is broken off and said anew comes in: 8 (1) + 1 + 2 + 1 = 12 x 2.25
        ("put in a, no, it's a 12-2 that comes in", "27.00", "over"),
    ],
)
def test_what_is_said_behind_is_held_against_the_box(behind: str, total: str, verdict: str) -> None:
    """What the box holds changes nothing; what it does not hold is never dropped."""
    talk = Conversation()
    talk.hear(TOLD)
    reply = talk.hear(behind)
    assert reply.sheet.total == Decimal(total)
    assert reply.verdict == verdict
