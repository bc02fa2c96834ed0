"""A denial takes out neither what it excepts nor what was never there.

Every total is by NEC 2023 314.16(B)(1), (4), (5) and Table 314.16(B)(1), 2.25 in³ a 12 AWG
conductor: two 12-2 and a GFCI receptacle are 4 + 2 + 1 allowances, 15.75; without it 11.25; with
a switch as well 20.25.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud.assistant.dialogue import Conversation

GFCI = "two 12-2s and a GFCI, 24 cubic inches, no clamps"
BOTH = "two 12-2s, a switch and a receptacle, 24 cubic inches, no clamps"


@pytest.mark.parametrize(
    ("box", "said", "total"),
    [
        (GFCI, "apart from that GFCI I don't see any receptacle", "15.75"),
        (GFCI, "there's no outlet in it except the GFCI", "15.75"),
        (GFCI, "but for the GFCI there aren't any devices in it", "15.75"),
        (GFCI, "it has no separate receptacle, just that GFCI", "15.75"),
        (GFCI, "aside from the GFCI it doesn't have a dimmer, or a switch", "15.75"),
        (GFCI, "nobody ran tens", "15.75"),
        (GFCI, "you won't find a fourteen anywhere in there, or a ten", "15.75"),
        # what is denied of what is there goes
        (GFCI, "there's no GFCI in it", "11.25"),
        (BOTH, "no receptacle, just the switch", "15.75"),
        (BOTH, "other than the switch there's no receptacle anymore", "15.75"),
        # what is told beside it comes in
        (GFCI, "besides the GFCI there's a switch", "20.25"),
    ],
)
def test_only_what_is_denied_and_there_goes(box: str, said: str, total: str) -> None:
    talk = Conversation()
    talk.hear(box)
    reply = talk.hear(said)
    assert reply.sheet.total == Decimal(total), reply.said
    assert reply.verdict == "fits", reply.said


@pytest.mark.parametrize("said", ["nobody ran twelves", "nobody put a GFCI in, it's a receptacle"])
def test_what_is_denied_of_what_is_there_and_not_understood_is_asked(said: str) -> None:
    talk = Conversation()
    talk.hear(GFCI)
    assert talk.hear(said).verdict == "incomplete"
