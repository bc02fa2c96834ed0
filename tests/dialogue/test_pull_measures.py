"""What is said of a pull box besides its raceways: its sides, its volume, distances, cables.

314.28(A)(1): 8 x 3 = 24; (A)(2): 6 x 3 + 3 = 21, and entries of the same conductors 6 x 3 = 18
apart (EC&M, March 2022); of cables the raceway that their conductors would need (314.28(A)); blocks
only over 100 cubic inches, 314.28(E) (EC&M 2011, no. 15).
"""

from __future__ import annotations

from typing import Any

import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation, Reply

STRAIGHT = "straight pull, a 3 inch from left to right"
U = "U pull, two 3 inch in the left wall"


def told(*said: str) -> Reply:
    conversation = Conversation()
    for words in said:
        reply = conversation.hear(words)
    return reply


def pull(reply: Reply) -> dict[str, Any]:
    found: dict[str, Any] = ReplyDocument.of(reply).to_json()["pull_box"]
    return found


def held(reply: Reply) -> dict[str, tuple[str, str, bool]]:
    return {
        one["dimension"]: (one["have_in"], one["least_in"], one["holds"])
        for one in pull(reply)["box"]
    }


@pytest.mark.parametrize(
    ("said", "width"),
    [
        ("the box is 2 feet by 2 feet by 6 inches", "24"),
        ("the box is two feet by two feet by six inches", "24"),
        ("the box is 2 foot by 18 inches by 8 inches", "24"),
        ("the box is 2' x 2' x 8\"", "24"),
        ("it's 2 ft x 3 ft x 8 in", "36"),
        ("the box is 2 by 3 feet", "36"),
        ("the box is two and a half feet by 2 feet by 8 inches", "30"),
        ("the box is 2 feet 6 inches by 2 feet by 8 inches", "30"),
        ("the box is 24 by 24 by 8", "24"),
        ("the box is 24x24x8", "24"),
        ("the box is two feet wide", "24"),
        ("it is 24 inches wide", "24"),
        ("it is 30 inches long and 12 inches high", "30"),
        ("the box is 30 inches long", "30"),
        ("the box is 30 inches long and 12 inches wide", "30"),
        ("the box is 12 inches wide, 30 inches long and 8 high", "30"),
    ],
)
def test_its_sides_are_read_in_feet_and_inches(said: str, width: str) -> None:
    found = told(STRAIGHT, said)
    assert found.left_over == ()
    assert held(found)["width"] == (width, "24", True)
    assert pull(found)["width_in"] == "24"


def test_its_sides_are_read_in_the_same_breath() -> None:
    found = told(f"pull box 2 feet by 2 feet by 6 inches, {STRAIGHT}")
    assert held(found)["width"] == ("24", "24", True)
    assert list(pull(found)["pulls"]) == ["straight pull of 3 inch from left to right"]


def test_millimetres_are_rounded_down_to_a_sixteenth() -> None:
    """600 / 25.4 is 23.622, and 609.6 / 25.4 is 24."""
    assert held(told(STRAIGHT, "it is 609.6 mm by 600 mm by 200 mm"))["width"][0] == "24"
    found = told(STRAIGHT, "it is 600 mm by 600 mm by 200 mm")
    have, least, holds = held(found)["width"]
    assert (have, least, holds) == ("23.5625", "24", False)
    assert found.verdict == "over"


def test_feet_beside_a_bare_number_are_not_guessed() -> None:
    """ "2 feet by 3": three feet, or three inches?"""
    found = told(STRAIGHT, "the box is 2 feet by 3")
    assert found.asks == "unread"
    assert not pull(found)["box"]


@pytest.mark.parametrize(
    ("said", "have", "holds"),
    [
        ("they are 12 inches apart", "12", False),
        ("the raceways are 18 inches apart", "18", True),
        ("they're a foot and a half apart", "18", True),
        ("12 inches between them", "12", False),
        ("spaced 20 inches apart", "20", True),
    ],
)
def test_the_distance_between_raceways_is_held_against_the_least(
    said: str, have: str, holds: bool
) -> None:
    found = told(U, said)
    assert found.left_over == ()
    assert held(found)["distance"] == (have, "18", holds)
    assert found.verdict == ("incomplete" if holds else "over")


def test_a_distance_in_the_same_breath_is_no_raceway() -> None:
    found = told("angle pull, a 3 inch from left to top, the raceways are 15 inches apart")
    assert held(found)["distance"] == ("15", "18", False)
    assert (pull(found)["width_in"], pull(found)["height_in"]) == ("18", "18")


def test_one_distance_for_several_pulls_is_asked() -> None:
    """6 x 3 = 18 and 6 x 2 = 12: fifteen inches are enough for one of them."""
    found = told("angle pull, a 3 inch and a 2 inch from left to top", "they are 15 inches apart")
    assert "distance" not in held(found)
    assert found.verdict == "incomplete"
    assert "15" in found.said


@pytest.mark.parametrize(
    "said", ["how far apart must they be", "how far apart do the raceways have to be"]
)
def test_the_least_distance_is_told_where_it_is_asked_for(said: str) -> None:
    found = told(U, said)
    assert "18 inches" in found.said
    assert found.left_over == ()


def test_it_is_asked_of_raceways_told_in_the_question() -> None:
    found = told("how far apart must the raceways be for a 3 inch U pull")
    assert found.left_over == ()
    assert "18 inches" in found.said


def test_its_own_volume_asks_for_no_contents() -> None:
    found = told(STRAIGHT, "the box is 1200 cubic inches")
    assert found.asks is None
    assert pull(found)["width_in"] == "24"
    assert found.verdict == "incomplete"


@pytest.mark.parametrize(("volume", "holds"), [("80", False), ("100", False), ("1000", True)])
def test_its_own_volume_tells_whether_blocks_may_go_in(volume: str, holds: bool) -> None:
    found = told(STRAIGHT, "with a power distribution block", f"the box is {volume} cubic inches")
    (remark,) = pull(found)["remarks"]
    assert (remark["section"], remark["holds"]) == ("314.28(E)", holds)
    assert found.asks is None


def test_what_its_volume_means_is_told_at_once() -> None:
    found = told(STRAIGHT, "with a power distribution block", "the box is 80 cubic inches")
    assert "314.28(E)" in found.said


def test_its_volume_is_read_in_the_same_breath() -> None:
    found = told(
        "pull box marked 1000 cubic inches, straight pull, 3 inch, with power distribution blocks"
    )
    (remark,) = pull(found)["remarks"]
    assert remark["holds"] is True
    assert pull(found)["width_in"] == "24"


@pytest.mark.parametrize(
    ("said", "count"),
    [
        ("straight pull, a 500 kcmil cable from left to right", 1),
        ("straight pull, two 4/0 SER cables", 2),
        ("straight pull, three MC cables of 4/0", 3),
        ("straight pull, a 2/0 cable", 1),
        ("straight pull, a number 2 SER cable with ground", 1),
        ("straight pull, one cable", 1),
    ],
)
def test_a_cable_is_asked_for_the_raceway_it_would_need(said: str, count: int) -> None:
    found = told(said)
    assert found.left_over == ()
    assert found.asks == "pull_size"
    assert "cable" in found.said
    assert pull(found)["width_in"] is None
    answered = told(said, "3 inch")
    assert pull(answered)["width_in"] == "24"
    (one,) = pull(answered)["pulls"]
    assert "3 inch" in one
    assert count == 1 or ("two", "three")[count - 2] in one


def test_a_cable_beside_a_raceway_is_asked_about_and_neither_is_lost() -> None:
    """6 x 3 + 2 = 20."""
    found = told("angle pull, a 4/0 cable and a 2 inch conduit")
    assert found.asks == "pull_size"
    answered = told("angle pull, a 4/0 cable and a 2 inch conduit", "3 inch")
    assert (pull(answered)["width_in"], pull(answered)["height_in"]) == ("20", "20")


@pytest.mark.parametrize(
    "known", [STRAIGHT, U, "angle pull, two 3 inch in the left and two in the top"]
)
@pytest.mark.parametrize(
    "asked",
    [
        "is it a 4 inch?", "did I say 4 inch", "can I use a 2 inch", "do I need a 4 inch",
        "should it be 4 inch", "is the cover removable?", "is it an angle pull",
        "is a 24 by 24 by 8 box big enough", "will a 24 by 24 by 8 fit", "how big for a 4 inch",
        "is the box 18 inches wide?", "are they 12 inches apart?", "what about a 4 inch",
        "would a 2 foot by 2 foot box do", "what if they were 4 inch",
    ],
)  # fmt: skip
def test_a_question_changes_no_pull_box(known: str, asked: str) -> None:
    conversation = Conversation()
    conversation.hear(known)
    before = conversation.talk.state
    conversation.hear(asked)
    after = conversation.talk.state
    assert (after.pulls, after.box, after.items) == (before.pulls, before.box, before.items)


def test_a_size_that_is_asked_about_is_held_against_the_least() -> None:
    found = told(STRAIGHT, "is an 18 by 18 by 8 box big enough")
    assert "18 inches is too small" in found.said
    assert not pull(found)["box"]


def test_a_question_that_describes_the_first_pull_box_is_worked_out() -> None:
    for said in (
        "how long for a straight pull with a 3 inch",
        "what size pull box for a 3 inch straight pull?",
    ):
        assert pull(told(said))["width_in"] == "24", said


@pytest.mark.parametrize(
    ("said", "most", "holds"),
    [
        ("angle pull, a 3 inch and a 2 inch from the left to the top", 40, ("twenty", "twelve")),
        (STRAIGHT, 20, ("twenty four",)),
        ("LB with six number 12 THHN passing through, no splices, three quarter EMT", 36,
         ("sixteen",)),
    ],
)  # fmt: skip
def test_what_the_ear_is_told_is_short(said: str, most: int, holds: tuple[str, ...]) -> None:
    spoken = told(said).spoken
    assert len(spoken.split()) <= most, spoken
    for due in holds:
        assert due in spoken
    for wrong in ("times", "hundred", "point"):
        assert wrong not in spoken.split(), spoken
