"""What is there already told over, added up aloud or counted anew brings nothing more in.

Every total is by NEC 2023 314.16(B)(1) to (5) and Table 314.16(B)(1), 2.00 in³ a 14 AWG and
2.25 in³ a 12 AWG conductor. Two 14-2 and a switch are 4 + 2 + 1 allowances, 14.00; three 14-2 and a
switch 18.00, two 14-2 and two switches 18.00; a 14-2, a 14-3 and a switch 5 + 2 + 1, 16.00; three
12-2 and a receptacle 6 + 2 + 1, 20.25, with one 12-2 less 15.75; four 14-2 and two switches
8 + 4 + 1, 26.00; five 14-2 and a switch 10 + 2 and 1 1/4, 26.50. Four 14-2 and two devices come
to 26.00; two 14-2, a 14-3 and two switches are 7 + 4 + 1, 24.00.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud.assistant.dialogue import Conversation, Reply

TWO = "two 14-2s and a switch, 18 cubic inches, no clamps"
MIXED = "a 14-2, a 14-3 and a switch, 18 cubic inches, no clamps"
TWELVES = "three 12-2s and a receptacle, 22.5 cubic inches, no clamps"
FOUR = "four 14-2s and two switches, 27 cubic inches, no clamps"

ADDED_UP = [
    (TWO, "okay, four wires is eight, the switch is four so twelve, and grounds two, fourteen"),
    (TWO, "hot, neutral, hot, neutral, that's four, two for the switch, six, one ground, seven,"
          " times two is fourteen"),
    (MIXED, "five wires, ten cubes, the switch makes four, fourteen, bares two, sixteen"),
    (TWELVES, "six twelves, thirteen fifty. Receptacle's four fifty, eighteen. Ground two twenty"
              " five. Twenty and a quarter."),
    (FOUR, "Sixteen for the wires, eight for the two switches, twenty-four. Ground's two."
           " Twenty-six, and I've got twenty-seven."),
]  # fmt: skip
ADDED_UP += [
    (TWO, "eight in wire, four in the switch, two of ground, fourteen by me"),
    (MIXED, "six wires is twelve less two, ten, device four, ground two, sixteen"),
    ("five 12-2s spliced, 26 cubic inches, no clamps", "ten twelves comes to twenty-two and a half,"
     " two and a quarter for four bares, a quarter of that for the last, twenty-five point three"),
    ("two 14-2s and a stud, 15.5 cubic inches, clamps inside", "wires eight, ground two, stud two,"
     " clamps two, fourteen"),
]  # fmt: skip
TOLD_OVER = [
    (TWO, "like I said, the two 14-2s and the switch"),
    (MIXED, "that's the 14-3 I told you about, and this one's the 14-2"),
    (TWELVES, "in other words a receptacle and the three 12-2s"),
    (FOUR, "four of the 14-2s and two switches, exactly what I gave you"),
    (FOUR, "nothing has changed, it's the four 14-2s with the two switches"),
]
LISTED_OVER = [
    (MIXED, "a 14-2, a 14-3 and a switch"),
    (MIXED, "so it's one switch with a 14-2 and a 14-3 behind it, no clamps, 18 cubes"),
    (TWELVES, "one 12-2 from the left, two 12-2s from the right, and the plug"),
    (TWELVES, "the device is a receptacle and the cables are all 12-2, three of them"),
    (FOUR, "two switches, and a 14-2, a 14-2, a 14-2 and a 14-2"),
    ("two 14-2s and a stud, 15.5 cubic inches, clamps inside", "clamps inside, a stud, and the two"
     " fourteens"),
    ("six 12 THHN and a 12 ground in conduit, 18 cubic inches, no clamps", "six of the twelves and"
     " a green"),
]  # fmt: skip
COUNTED_ANEW = [
    (TWO, "three 14-2s", "18.00"),
    (TWO, "two switches", "18.00"),
    (TWO, "it's five 14-2s", "26.50"),
    (TWELVES, "only two 12-2s, I had my thumb over the end of one", "15.75"),
    (TWELVES, "I count two 12-2s now, the third was a shadow", "15.75"),
]
MORE = [
    (TWO, "another 14-2", "18.00"),
    (TWO, "three more 14-2s", "26.50"),
    (TWO, "and a 14-2 for the porch", "18.00"),
    (TWO, "plus one 14-2 to the next room", "18.00"),
    (TWO, "also two 14-2s and a switch", "26.00"),
    (TWO, "I put in two 14-2s and a switch", "26.00"),
    (TWO, "and two 14-2s and a switch", "26.00"),
    (TWO, "n two 14-2s and a switch", "26.00"),
    (TWO, "two 14-2s and another switch", "26.00"),
    (TWO, "two 14-2s and a dimmer", "26.00"),
    (TWO, "a switch", "18.00"),
    (MIXED, "a 14-2 and a switch", "24.00"),
    (MIXED, "like I said before, but add a second switch", "20.00"),
    (TWO, "two 14-2s and a dimmer, that's the box we're on", "26.00"),
    (TWO, "another two 14-2s and a switch, I'm only repeating", "26.00"),
    (TWO, "I'm reading it back, two 14-2s, but a dimmer as well", "26.00"),
]


def after(*said: str) -> Reply:
    talk = Conversation()
    replies = [talk.hear(words) for words in said]
    return replies[-1]


@pytest.mark.parametrize(("box", "said"), [*ADDED_UP, *TOLD_OVER, *LISTED_OVER])
def test_what_is_told_over_leaves_the_box_as_it_is(box: str, said: str) -> None:
    before, reply = after(box), after(box, said)
    assert reply.sheet == before.sheet, reply.said
    assert (reply.verdict, reply.asks) == (before.verdict, None), reply.said


@pytest.mark.parametrize(("box", "said", "total"), [*COUNTED_ANEW, *MORE])
def test_a_count_is_of_all_unless_it_is_said_to_be_more(box: str, said: str, total: str) -> None:
    reply = after(box, said)
    assert reply.sheet.total == Decimal(total), reply.said
    assert reply.verdict in ("fits", "over")


@pytest.mark.parametrize("said", ["two 12-2s", "two 12-2s, then"])
def test_fewer_with_no_word_of_why_is_asked(said: str) -> None:
    reply = after(TWELVES, said)
    assert reply.asks == "confirm", reply.said
    assert reply.sheet.total == Decimal("20.25")


@pytest.mark.parametrize(
    ("box", "said"),
    [
        (TWO, "four wires, eight, switch is four, twelve, put in a dimmer, and two, fourteen"),
        (TWO, "eight for wire, four for the switch, and a dimmer, four, two ground, fourteen"),
        (TWELVES, "we detached one of the 12-2s and yanked it so that leaves two 12-2s"),
        (TWO, "like I said two 14-2s, but there's a 14-3 too"),
        (MIXED, "same as I told you, two 14-3s"),
        (TWO, "four 14, one 14 ground, one switch, 18 cube, no clamps"),
        (TWO, "one of the switches is on the fourteen, the other two are on the twelve"),
        (
            TWO,
            "ten 14 AWG conductors enter the box, of which five leave, no grounds, 20 cubic inches",
        ),
        (TWO, "14, 14, 14, 14"),
    ],
)
def test_what_is_not_there_is_never_taken_for_told_over(box: str, said: str) -> None:
    before, reply = after(box), after(box, said)
    assert reply.sheet.total > before.sheet.total or reply.verdict == "incomplete", reply.said
