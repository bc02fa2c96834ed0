"""What rules talk can be typed can be heard: its words are in the recogniser's vocabulary, and
said in words it means what it does in figures. English usage; common practice.
"""

from __future__ import annotations

import pytest
from boxaloud.grammar import recognise, vocabulary
from written_acts import written

PAIRS = [
    ("a metal barrier in the middle", "a metal barrier in the middle", None),
    ("14 cubic inches on the left and 27 on the right",
     "fourteen cubic inches on the left and twenty seven on the right", None),
    ("the left side is 14 cubic inches", "the left side is fourteen cubic inches", None),
    ("split equally", "split equally", None),
    ("the same", "the same", "share"),
    ("New York City job", "new york city job", None),
    ("I'm in Ontario", "i'm in ontario", None),
    ("angle pull, two rows, two 2 inch in each row",
     "angle pull two rows two two inch in each row", None),
    ("straight pull, one 2 inch in one end, one 2 inch out the other",
     "straight pull one two inch in one end one two inch out the other", None),
    ("angle pull, a 3 inch and a 2 inch, both in the same wall",
     "angle pull a three inch and a two inch both in the same wall", None),
    ("angle pull, 3 inch in one row and 4 inch in a second row",
     "angle pull three inch in one row and four inch in a second row", None),
    ("two 14-2s and a thermostat cable", "two fourteen twos and a thermostat cable", None),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "heard", "asked"), PAIRS, ids=lambda said: str(said)[:40])
def test_typed_and_heard_mean_the_same(typed: str, heard: str, asked: str | None) -> None:
    assert set(heard.split()) <= vocabulary()
    told, spoken = recognise(typed, asked), recognise(heard, asked)
    assert told.acts
    assert not told.weighty
    assert not spoken.weighty
    assert [written(act) for act in spoken.acts] == [written(act) for act in told.acts]
