"""Raceways of a pull box that were told already, and what is said of them anew, 314.28(A).

8 x the largest of a straight pull, (A)(1); 6 x the largest of a row plus its others, (A)(2) (EC&M,
March 2022). Other talks of that kind stand in rules_in_reach.toml.
"""

from __future__ import annotations

import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation, Reply


def told(*said: str) -> Reply:
    """The reply to the last of some utterances."""
    conversation = Conversation()
    for words in said:
        reply = conversation.hear(words)
    return reply


def sides(*said: str) -> tuple[str | None, str | None, str | None]:
    """The least width, height and depth after some utterances."""
    found = ReplyDocument.of(told(*said)).to_json()["pull_box"]
    assert isinstance(found, dict)
    return found["width_in"], found["height_in"], found["depth_in"]


@pytest.mark.parametrize(
    ("first", "then"),
    [
        # one of two is meant, and nobody can tell which: 6 x 3 against 6 x 3 + 3
        ("pull box, two 3 inch in the left", "The 3 goes out the top."),
        ("pull box, two 3 inch left, one 3 inch top", "The 3s go out the top."),
        # of which: a 4 and a 2, one of them goes up
        ("pull box, a 4 inch and a 2 inch in the left", "One goes out the top."),
        # both are of other raceways: 8 x 4 stands
        ("pull box, 4 inch left, 4 inch right", "On the top, both three inch."),
        ("pull box, 4 inch left, 2 inch right", "make them three inch"),
        ("pull box, 4 inch left, 4 inch right", "make the big one three inch"),
        # what comes in elsewhere than was told is never passed over
        ("pull box, 2 inch in the left, 2 inch out the top, 3/0", "No, it comes in the back."),
        ("pull box, 2 inch in the left, 2 inch out the top, 3/0",
         "No, the fat fella comes in the back."),
        ("pull box, 2 inch in the left, 2 inch out the top, 3/0",
         "Nope, wrong wall, it's in the bottom."),
        # as many sizes as raceways were counted, or none of them
        ("pull box", "Four conduits on the left: a three, a two."),
        ("pull box", "Straight pull box, the run is three and a half."),
    ],
)  # fmt: skip
def test_raceways_that_may_be_others_hold_every_dimension(first: str, then: str) -> None:
    """314.28(A): a raceway given the wrong size or wall makes the box too small."""
    found = told(first, then)
    assert found.left_over
    assert sides(first, then) == (None, None, None)


@pytest.mark.parametrize(
    ("said", "least"),
    [
        # 8 x 2, supposed and not entered
        (("pull box, straight pull, inch and a half on each end", "What if I went to two inch?"),
         ("12", None, None)),
        # 8 x 3 of what the big one became, in one breath with another way: 6 x 3 + 2
        (("Pull box. 4 inch left, 4 inch top. A 2 inch on the left going straight to the right,"
          " 2 inch.", "make the big ones three inch"), ("20", "18", None)),
    ],
)  # fmt: skip
def test_what_raceways_become(said: tuple[str, ...], least: tuple[str | None, ...]) -> None:
    """314.28(A)(1) and (2), EC&M, March 2022."""
    assert sides(*said) == least
