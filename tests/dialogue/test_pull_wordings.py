"""Pull boxes as people ask for them: whole questions, in one breath or in several.

314.28(A)(1): 8 x 2 = 16, 8 x 3 = 24, 8 x 4 = 32; (A)(2): 6 x 2 = 12, 6 x 3 = 18, a U pull
6 x 2 + 2 = 14, 6 x 3 + 2 = 20 (EC&M, March 2022); Table 312.6(A): 4/0 4, 500 kcmil 6 (studylib
18090336), 600 kcmil 8 (from memory).
Above 1,000 volts 314.28 does not apply (common practice).
"""

from __future__ import annotations

from typing import Any

import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation, Reply


def told(*said: str) -> Reply:
    conversation = Conversation()
    for words in said:
        reply = conversation.hear(words)
    return reply


def sides(reply: Reply) -> tuple[Any, Any, Any]:
    found: dict[str, Any] = ReplyDocument.of(reply).to_json()["pull_box"]
    return found["width_in"], found["height_in"], found["depth_in"]


@pytest.mark.parametrize(
    ("said", "width", "height", "depth"),
    [
        # as a quiz puts it: the section's number before 2002, and figures to choose among
        ("From a quiz on the old 370-28: in a straight pull a 3 inch conduit enters and leaves the"
         " pull box. What is the minimum length of the box?", "24", None, None),
        ("Size a pull box for an angle pull with one 3 in. conduit. This is from a 370-28 test.",
         "18", "18", None),
        ("By 370.28(A)(1): straight pull, one 2 inch and one 3 inch. Shortest box?", "24", None,
         None),
        ("By section 370-28 of an old exam, angle pull, one 2 inch. Smallest box?", "12", "12",
         None),
        ("A straight pull, largest raceway 2 inch. The minimum length of the box is 12, 16, 18 or"
         " 24 inches?", "16", None, None),
        ("straight pull, largest raceway 4 inch. The length must be 24, 28, 32 or 36?", "32", None,
         None),
        ("3 inch conduit is the biggest one on a straight pull, tell me the box length", "24",
         None, None),
        ("straight pull, largest raceway is 2 in. What minimum pull box length do I order?", "16",
         None, None),
        ("A 3 inch conduit enters and leaves a pull box through the same wall, a U pull. What"
         " minimum distance is needed to the opposite wall?", "21", None, None),
        ("angle pull. one wall has a three inch raceway and a two inch raceway. minimum distance to"
         " the opposite wall", "20", "20", None),
        ("u pull, 2 in conduit comes in and goes back out the same wall, also 2 in. how far to the"
         " far wall", "14", None, None),
        # with and each way, a single one
        ("straight pull w/ 2 in conduit going in and coming out opposite, min length?", "16", None,
         None),
        ("straight pull w/ a 3 in. conduit on each end, min box length?", "24", None, None),
        ("angle pull, single 2\" conduit each way - smallest pull box?", "12", "12", None),
        ("pull box: single 2-1/2 inch conduit, right angle pull. smallest box?", "15", "15", None),
        ("pull box w/ angle pull: 2\" and 3\" conduits on the same wall, what's the min distance to"
         " the opposite side", "20", "20", None),
        ("The biggest conduit on this straight pull is four inch, so how long's the box got to be?",
         "32", None, None),
        ("Straight pull, a 4\" conduit plus a pair of 1\" ones. Box length needed?", "32", None,
         None),
        # a straight pull named by what is done
        ("pulling straight through a box, three of the conduits are 2 inch and one is a 3 inch",
         "24", None, None),
        ("we're pulling straight across this box, two 4 inch pipes", "32", None, None),
        # one beside the other
        ("straight pull, one is 3 inch and two are 4 inch", "32", None, None),
        ("angle pull, one of the pipes is two inch, the other one is a 3 inch", "20", "20", None),
        ("straight pull, two of them are 2 inch and the other is a 3 inch", "24", None, None),
        # as a textbook puts it
        ("Determine the minimum length of a pull box for a straight pull with a 3-in. conduit"
         " entering one end and a 3-in. conduit exiting the opposite end.", "24", None, None),
        ("A straight pull is made in a pull box containing two 2-in. raceways and one 3-in."
         " raceway. What is the minimum length of the box?", "24", None, None),
        ("For a straight pull on a system of 600 volts or less, the largest raceway entering the"
         " box has a trade diameter of 2 in. The length of the box must be at least ____ inches.",
         "16", None, None),
        ("What are the minimum dimensions of a pull box used for an angle pull with two 3-in."
         " conduits entering each of two adjacent walls?", "21", "21", None),
        ("An angle pull is made in a box in which one 4-in. and one 2-in. raceway enter the same"
         " wall. Calculate the minimum distance to the opposite wall.", "26", "26", None),
        ("A 3-in. conduit enters and leaves the same wall of a pull box in a U pull. Find the"
         " minimum distance to the opposite wall and the distance between the conduit entries.",
         "21", None, None),
        ("2 inch pipe in and 2 inch pipe out the same wall of a pull box, how deep to the far"
         " wall?", "14", None, None),
        ("str pull, 3 @ 2\", 1 @ 3\". length?", "24", None, None),
        ("angle pull with a 4 inch and a 3 inch pipe next to each other", "27", "27", None),
        ("straight pull with 3 inch pipe as the largest, what's my box length", "24", None, None),
        # in and back out of one wall
        ("The run comes in and goes right back out through the same wall of the pull box, two inch"
         " pipe both times.", "14", None, None),
        ("U pull. 2 in. conduit enters and leaves on one wall. size of pull box?", "14", None,
         None),
        ("a pull box where the run comes in and turns back out of the same side, 3 inch conduit",
         "21", None, None),
        ("pull box, the conduit goes in and right back out on the same wall, 4 inch", "28", None,
         None),
        ("U pull, one 3 inch conduit in the left wall", "21", None, None),
        # opposite a cover that comes off
        ("angle pull, a 2 inch in the back facing the cover that comes off and a 2 inch in one"
         " wall, 4/0", "12", None, "4"),
        ("angle pull, a 3 inch in the back across from a removable cover and a 3 inch in one side,"
         " 500 kcmil", "18", None, "6"),
        ("angle pull, a 2 inch in the left wall and a 2 inch in the back opposite the lid that"
         " lifts off, it's 4/0 copper", "12", None, "4"),
        # nothing more, and a voltage that 314.28 is of
        ("straight pull, 2 inch, no other conduits", "16", None, None),
        ("straight pull, under a thousand volts, the biggest pipe is a three inch", "24", None,
         None),
        ("straight pull, 480 volts, two 3 inch", "24", None, None),
    ],
)  # fmt: skip
def test_a_question_in_one_breath(
    said: str, width: str | None, height: str | None, depth: str | None
) -> None:
    found = told(said)
    assert found.left_over == ()
    assert sides(found) == (width, height, depth)


@pytest.mark.parametrize(
    "asked",
    [
        "How long does the box have to be?", "What box does it need?", "What's the least length?",
        "how long a pull box?", "What are the least dimensions?", "how far to the wall across",
        "How far must it be to the far wall?", "box length needed?", "minimum length?",
        "what size pull box do I need", "how big must it be", "what dimensions are needed",
        "smallest box?", "what's the minimum size of the pull box",
    ],
)  # fmt: skip
def test_its_size_is_told_where_it_is_asked_for(asked: str) -> None:
    conversation = Conversation()
    before = conversation.hear("straight pull with a 4 inch conduit")
    state = conversation.talk.state
    found = conversation.hear(asked)
    assert "32 inches" in found.said
    assert found.acts[0].act == "answer"
    assert (conversation.talk.state, before.left_over) == (state, ())


@pytest.mark.parametrize(
    "said",
    [
        "angle pull, two 2 inch, over 1000 volts", "angle pull, two 2 inch, 5000 volts",
        "angle pull, two 2 inch, 5 kV", "straight pull, a 3 inch, medium voltage",
        "straight pull, a 3 inch, 1,200 volts",
        "straight pull, 2 inch, no conduits on top", "straight pull, 3 inch and no 2 inch",
        "straight pull, no 3 inch",
    ],
)  # fmt: skip
def test_what_may_make_it_larger_is_not_stepped_over(said: str) -> None:
    found = told(said)
    if ReplyDocument.of(found).to_json()["pull_box"] is not None:
        assert sides(found) == (None, None, None)
    assert found.left_over


@pytest.mark.parametrize(
    ("known", "asked", "said"),
    [
        ("straight pull, a 3 inch", "what if it were an angle pull", "18 by 18 inches"),
        ("straight pull, a 2 inch", "what if they were 3 inch", "24 inches"),
        ("straight pull, a 2 inch", "suppose it was a 4 inch", "32 inches"),
        ("angle pull, a 2 inch", "what if it was a straight pull", "16 inches long"),
        ("angle pull, a 2 inch", "and what if that were a 3 inch", "18 by 18 inches"),
    ],
)
def test_another_kind_or_size_is_supposed_in_its_place(known: str, asked: str, said: str) -> None:
    conversation = Conversation()
    conversation.hear(known)
    state = conversation.talk.state
    found = conversation.hear(asked)
    assert said in found.said
    assert conversation.talk.state == state


@pytest.mark.parametrize(
    ("said", "width"),
    [
        (("straight pull, a 2 inch from left to right", "make that 3 inch"), "24"),
        (("straight pull, a 2 inch", "make it a 4 inch"), "32"),
        (("straight pull, a 2 inch", "no, make that two 3 inch"), "24"),
        (("angle pull, a 2 inch", "make it a straight pull"), "16"),
        (("straight pull, a 2 inch", "and a 3 inch"), "24"),
    ],
)
def test_make_it_is_a_correction(said: tuple[str, ...], width: str) -> None:
    found = told(*said)
    assert found.left_over == ()
    assert sides(found)[0] == width


def test_a_voltage_said_apart_holds_the_dimension_or_lets_it_stand() -> None:
    low = told("Straight pull. The largest raceway is three inch.",
               "The system is one thousand volts or less. Give the minimum length.")  # fmt: skip
    assert sides(low) == ("24", None, None)
    assert low.left_over == ()
    high = told("Straight pull. The largest raceway is three inch.", "The system is 4160 volts.")
    assert high.asks == "unread"


def test_the_side_is_a_wall_where_the_others_are_named() -> None:
    both = told("pull box, 3 inch in the bottom and 3 inch out the side")
    assert sides(both)[:2] == ("18", "18")
    back = told("Pull box with a 2 inch pipe in the side and a 2 inch pipe in the back opposite the"
                " removable cover, 4/0 conductors.")  # fmt: skip
    assert sides(back)[0] == "12"
    assert sides(back)[2] == "4"


@pytest.mark.parametrize(
    "said",
    [
        "straight pull on a system of 2400 volts, 3 inch conduit",
        "straight pull on a system of 1500 volts, largest raceway 2 inch",
        "straight pull, one 3 inch and several used on the other",
        "A pull box used for an angle pull contains two raceways.",
        "straight pull with three raceways, 2, 3 or 4 inch",
        "U pull, 2 inch in and out the same wall, the length is 3 or 4 inch",
    ],
)
def test_no_side_is_said_while_what_it_rests_on_is_not_read(said: str) -> None:
    found = told(said)
    assert found.asks is not None
    assert sides(found) == (None, None, None)


def test_a_straight_pull_may_be_begun_by_itself() -> None:
    found = told("We're pulling straight through a box.",
                 "Two of the pipes are one inch and one is a four inch.")  # fmt: skip
    assert sides(found) == ("32", None, None)


@pytest.mark.parametrize(
    "said",
    [
        "six 12s pulled straight through the box", "ten twelves pull straight through, never cut",
        "four number 8 going straight through a 4 square box", "two 14-2s run straight through",
    ],
)  # fmt: skip
def test_wires_that_pass_through_make_no_pull_box(said: str) -> None:
    found = told(said)
    assert ReplyDocument.of(found).to_json()["pull_box"] is None
    assert found.sheet.lines


def test_nothing_of_it_is_a_pull_box_where_none_is_at_hand() -> None:
    for said in ("how long is the box", "what's the smallest box", "box length needed?"):
        assert ReplyDocument.of(told(said)).to_json()["pull_box"] is None


@pytest.mark.parametrize(
    ("said", "width", "height", "depth"),
    [
        # one raceway, and what its conductors do in the box
        (("one 3 inch conduit comes in and it makes a ninety in the pull box",
          "what's the smallest box you can buy"), "18", "18", None),
        (("angle pull, just the one three inch pipe", "how big both ways?"), "18", "18", None),
        # a U pull out by another raceway, each said by itself: both are all its entries
        (("a 3 inch comes in the left of the pull box, the wires make a U turn and leave by another"
          " 3 inch in the same wall", "what distance do you need over to the far side?"), "21",
         None, None),
        # its conductors before its raceways, and a distance asked from the side
        (("The pull box has six hundred kcmil in it.",
          "a 2 inch in the back facing the removable cover, the other 2 inch in the side wall",
          "what size from the side pipe to the wall across?"), "12", None, "8"),
    ],
)  # fmt: skip
def test_it_is_asked_for_behind_what_was_told(
    said: tuple[str, ...], width: str, height: str | None, depth: str | None
) -> None:
    found = told(*said)
    assert sides(found) == (width, height, depth)
    assert found.left_over == ()


def test_it_is_asked_whether_all_entries_were_told_where_more_come_in_than_leave() -> None:
    found = told("U pull, a 3 inch and a 2 inch in the bottom, and they leave by another 2 inch in"
                 " the same wall")  # fmt: skip
    assert found.asks == "pull_returns"


def test_wires_that_are_counted_by_volume_begin_no_pull() -> None:
    found = told("Pull box with three number 12 wires.")
    assert ReplyDocument.of(found).to_json()["pull_box"] is None
    assert found.sheet.lines
