"""Words in talk of a pull box that change no dimension let it stand; what may be a count, a size or
a wall holds it.

314.28(A)(1): 8 x 2 = 16, 8 x 3 = 24, 8 x 4 = 32; (A)(2): 6 x 2 = 12, 6 x 3 = 18,
6 x 3 + 2 = 20.
"""

from __future__ import annotations

import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation, Reply


def told(*said: str) -> Reply:
    conversation = Conversation()
    for words in said:
        reply = conversation.hear(words)
    return reply


def width(reply: Reply) -> str | None:
    box = ReplyDocument.of(reply).to_json()["pull_box"]
    return None if box is None else str(box["width_in"])


@pytest.mark.parametrize(
    ("said", "least"),
    [
        (("Straight pull through a pull box, a three inch, namely one conduit each end.",), "24"),
        (("Angle pull, the wall's got a three inch, namely, and a two inch beside it. How big?",),
         "20"),
        (("Straight pull, three raceways, namely one of 3 inches and two of two inches",), "24"),
        (("A three inch and a two inch come into one wall of a pull box side by side, and all the"
          " wires turn, an angle pull.", "What distance to the far wall does it require?"), "20"),
        (("Angle pull, one two inch conduit, it comes in one side and leaves by the next one",),
         "12"),
        (("Angle pull with a single three inch, which enters one side and exits by the adjoining"
          " wall",), "18"),
        (("I'll be pulling straight through a box.", "No pipe in it is bigger than a three inch."),
         "24"),
        (("We will be pulling straight across a pull box", "no conduit is larger than four inches"),
         "32"),
        (("Pull box, a 3 inch in the side and a 3 inch in its back, the cover lifts off facing the"
          " back one, 500 kcmil",
          "What do I have to leave between the side entry and the far wall?"), "18"),
        (("Yesterday's straight pull, kindly, has two inch conduits at each end",), "16"),
    ],
)  # fmt: skip
def test_what_changes_no_dimension_lets_it_stand(said: tuple[str, ...], least: str) -> None:
    found = told(*said)
    assert width(found) == least
    assert found.asks != "unread"


@pytest.mark.parametrize(
    "said",
    [
        "Angle pull, a three inch and fuor two inch.",
        "Straight pull, a four inch and a brace of 1 inch conduits",
        "Angle pull, 3 inch on the left wall, twin 2 inch",
        "A 3 inch turns in the pull box and a 2 inch",
        "Pull box, a 2 inch pipe enters the left, then bends",
        "Angle pull, a 3 inch, and a nother two inch up top somewhere else",
        "Straight pull, 3 inch, with a lefft 4",
        "Straight pull, 3 inch, and some more",
    ],
)
def test_what_may_be_a_count_a_size_or_a_wall_holds_it(said: str) -> None:
    assert told(said).asks in ("unread", "pull_size", "pull_kind")
