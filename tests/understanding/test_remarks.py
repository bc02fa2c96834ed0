"""A remark on what is there takes nothing away: it says no other count, and puts nothing in place.

Common practice: who says where a cable goes to or what a device controls does not say that the
others are gone. Each conductor that is there counts, 314.16(B)(1), and a verdict that rests on
fewer would be wrong and sound sure.
"""

from __future__ import annotations

import pytest
from boxaloud.assistant.dialogue import Conversation

BOX = "three 12-2s, a switch and a receptacle, 34 cubic inches, clamps inside"
SUBJECTS = (
    "the switch", "the receptacle", "one of the 12-2s", "two of the 12-2s", "one 12-2",
    "two 12-2s", "the 12-2s", "both devices", "the second 12-2", "the last cable", "one cable",
    "two cables", "all the cables", "the other 12-2", "a 12-2", "these 12-2s", "one of them",
    "two of them", "the clamps", "one device", "the other device", "the first one", "that one",
)  # fmt: skip
REMARKS = (
    "is spliced through", "controls the fan", "is on the left", "goes to the porch light",
    "comes from the panel", "feeds the hall", "is a pain", "is brand new", "looks old",
    "has a nick in it", "runs down to the basement", "is stapled", "was already there",
    "are tight", "needs a pigtail", "is loose", "should be fine", "is for the fan", "is hot",
    "is marked", "might be too short", "will get pigtailed", "goes up", "is coming from the top",
    "got painted over", "is long enough", "is in the left knockout", "is the home run",
    "is the feed", "serves the bath", "is under the sink", "is wired already", "is next",
    "will be live", "is grounded", "sits proud",
)  # fmt: skip


@pytest.mark.parametrize("subject", SUBJECTS)
def test_a_remark_takes_nothing_away(subject: str) -> None:
    fallen = []
    for remark in REMARKS:
        conversation = Conversation()
        before = conversation.hear(BOX)
        after = conversation.hear(f"{subject} {remark}")
        if after.sheet.total < before.sheet.total and after.verdict != "incomplete":
            fallen.append(f"{remark}: {after.said}")
    assert not fallen, "\n".join(fallen)


@pytest.mark.parametrize(
    ("said", "device"),
    [
        ("Laundry, 20 amp circuit. One duplex.", "duplex receptacle"),
        ("Dishwasher circuit. One switch, please.", "switch"),
        ("The panel is a mess. Two dimmers.", "dimmer"),
    ],
)
def test_a_thing_that_is_a_sentence_of_its_own_is_told_behind_a_remark(
    said: str, device: str
) -> None:
    described = Conversation().hear(said).described
    assert described is not None
    assert [getattr(item.content, "name", None) for item in described.items] == [device]
