"""Conduit bodies with conductors of 4 AWG and larger: 314.28(A) besides the fill of the raceway.

Chapter 9 Table 1, 40 percent; Table 4 EMT 0.864, 2.036, 3.356 (sfasoft); Table 5 THHN 4 AWG 0.0824,
2/0 0.2223, 4/0 0.3237, 350 kcmil 0.5242 (from memory): 0.3456 / 0.0824 is 4.19, 0.8144 / 0.2223 is
3.66, 1.3424 / 0.3237 is 4.15, 1.3424 / 0.5242 is 2.56. 314.28(A)(1): 8 x through a C; (A)(2): 6 x
round the corner of an L; Exception, Table 312.6(A): 4 AWG 2, 2/0 3-1/2, 4/0 4 inches (EC&M, March
2022; studylib 18090336); (A)(3): smaller where its maker marked it (Mike Holt forum 127045).
"""

from __future__ import annotations

from typing import Any

import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.reports.batch import work
from boxaloud.assistant.reports.batch.batch_row import Row

LB = "LB with three 2/0 THHN in inch and a half EMT, no splices"
C = "C conduit body, 2 inch EMT, four 4/0 THHN, no splices"


def told(*said: str) -> Reply:
    conversation = Conversation()
    for words in said:
        reply = conversation.hear(words)
    return reply


def body(reply: Reply) -> dict[str, Any]:
    found: dict[str, Any] = ReplyDocument.of(reply).to_json()["conduit_body"]
    return found


@pytest.mark.parametrize(
    ("said", "verdict", "asks"),
    [
        ((LB,), "incomplete", "body_inside"),
        ((LB, "marked for three 4/0"), "fits", None),
        ((LB, "it is marked for three 2/0"), "fits", None),
        ((LB, "it's listed for these conductors"), "fits", None),
        (("2 inch LB, four 3/0 XHHW, EMT, no splices, marked max four 3/0",), "fits", None),
        # 3 x 0.2223 + 3 x 0.0824 = 0.9141 of 0.8144: they are in it, and no marking
        ((LB, "it is not marked, three number 4 are in it too"), "over", None),
        ((LB, "marked for three number 4"), "incomplete", "body_inside"),
        ((LB, "marked for two 4/0"), "incomplete", "body_inside"),
        ((LB, "9 inches long and 3-1/2 inches deep"), "fits", None),
        ((LB, "9 inches long and 3 inches deep"), "over", None),
        ((LB, "8 inches long and 4 inches deep"), "over", None),
        ((LB, "9 inches long"), "incomplete", "body_inside"),
        ((LB, "skip"), "incomplete", None),
        ((C,), "incomplete", "body_inside"),
        ((C, "16 inches long"), "fits", None),
        ((C, "it is 12 inches long"), "over", None),
        # too many of them: no dimension makes up for it
        (("C body, two inch EMT, three 350 kcmil THHN",), "over", None),
        (("C body, two inch EMT, three 350 kcmil THHN", "16 inches long"), "over", None),
        (("LL with three 2/0 thhn in 2 inch emt, 12 by 12 by 4",), "fits", None),
        (("LL with three 2/0 thhn in 2 inch emt, 12 by 11 by 4",), "over", None),
        (("conduit body, 2 inch EMT, three 4/0 THHN, no splices",), "incomplete", "body_shape"),
        (("conduit body, 2 inch EMT, three 4/0 THHN, no splices", "C", "16 inches long"),
         "fits", None),
        # spliced ones are not worked out, and nothing fits over them
        (("LB with three 2/0 THHN spliced, marked 100 cubic inches", "nothing else"),
         "incomplete", None),
    ],
)  # fmt: skip
def test_what_it_comes_to(said: tuple[str, ...], verdict: str, asks: str | None) -> None:
    found = told(*said)
    assert found.verdict == verdict
    if asks is not None or verdict != "incomplete":
        assert found.asks == asks


def test_each_dimension_is_told_with_its_section() -> None:
    found = told(LB)
    of = {one["sets"]: (one["inches"], one["section"]) for one in body(found)["dimensions"]}
    assert of == {
        "width": ("9", "314.28(A)(2)"),
        "depth": ("3.5", "314.28(A)(2) Exception, Table 312.6(A)"),
        None: ("9", "314.28(A)(2)"),
    }
    assert "from memory" in found.said
    assert body(found)["large"] == ("2/0",) * 3
    (line,) = body(found)["lines"]
    assert (line["have"], line["limit"], line["section"]) == ("3", "3", "Chapter 9 Table 1")


@pytest.mark.parametrize(
    ("said", "have", "limit"),
    [
        ("LB with three number 4 THHN passing through, 1 inch EMT", "3", "4"),
        ("LB, 1 inch EMT, four #4 THHN, nothing spliced", "4", "4"),
        ("a C body in two inch EMT, four 4/0 THHN pulled through", "4", "4"),
        ("LR, 2 inch EMT, 2 350 kcmil THHN no splices", "2", "2"),
        ("one and a half inch EMT into an LB, three two ought THHN, no splices", "3", "3"),
    ],
)
def test_ways_of_saying_it(said: str, have: str, limit: str) -> None:
    found = told(said)
    assert found.left_over == ()
    (line,) = body(found)["lines"]
    assert (line["have"], line["limit"], line["unit"]) == (have, limit, "conductors")


@pytest.mark.parametrize(
    "said",
    [
        "LB with six number 12 THHN passing through, no splices, three quarter EMT",
        "LB, half inch EMT, three 14 THHN, no splices",
        "C body, 1 inch EMT, two number 6 THHN passing through",
    ],
)
def test_smaller_ones_go_by_the_raceway_alone(said: str) -> None:
    found = told(said)
    assert found.verdict == "fits"
    assert not body(found)["large"]
    assert not body(found)["dimensions"]


def test_a_correction_takes_their_place() -> None:
    found = told(LB, "no, two 2/0")
    assert body(found)["large"] == ("2/0",) * 2
    more = told("LB, 2 inch EMT, THHN, no splices", "three 2/0", "and a number 4")
    assert body(more)["large"] == ("2/0", "2/0", "2/0", "4")


@pytest.mark.parametrize(
    ("said", "number"),
    [
        (("how many 4/0 THHN in 2 inch EMT",), "4"),
        (("how many number 4 THHN in 1 inch EMT",), "4"),
        (("C body, half inch rigid, no splices", "how many number ten THHN may I pull"), "6"),
        (("LB, three quarter EMT, six 12 THHN, no splices", "how many 12 THHN can I pull"), "16"),
        (("max #10 THHN thru a 1/2 type C body, 1/2 RMC, pulled straight, nothing spliced",),
         "6"),
        (("how many number 10 THHN can I pull through a half inch LB on EMT",), "5"),
        (("3/4 LB, EMT, no splices", "how many number 12 THHN fit"), "16"),
    ],
)  # fmt: skip
def test_how_many_may_pass(said: tuple[str, ...], number: str) -> None:
    """0.4 x 0.314 / 0.0211 is 5.95, 6 by Note 7; 0.4 x 0.304 / 0.0211 is 5.76."""
    found = told(*said)
    assert f"{number} THHN at most" in found.said
    assert "Chapter 9 Table 1" in found.said


def test_how_many_may_be_spliced_goes_by_the_volume() -> None:
    """6.0 / 2.25 is 2.67."""
    found = told("Half inch conduit body, marked 6 cubic inches", "how many 12s can I splice in it")
    (room,) = (figure for act in found.acts for figure in act.figures)
    assert room.of == "room"
    assert room.least == room.most == 2


def test_a_row_and_a_journal_have_the_same() -> None:
    (row,) = work([Row(1, {"says": [LB, "marked for three 4/0"]})])
    assert (row.verdict, row.open) == ("fits", ())
    assert "314.28(A)(3)" in row.told
    conversation = Conversation()
    for words in (LB, "9 inches long and 4 deep"):
        conversation.hear(words)
    talk = conversation.talk
    assert Talk.fold(talk.journal, talk.state.edition).state == talk.state


def test_they_do_not_vanish_with_the_body() -> None:
    found = told("LB with three 4/0 THHN, 2 inch EMT, no splices", "no, it is a 4 square 2-1/8 box")
    assert found.verdict == "incomplete"


@pytest.mark.parametrize(
    ("said", "way"),
    [
        (("C body, two inch EMT, three 350 kcmil THHN",), "2-1/2 inch EMT"),
        ((C, "it is 12 inches long"), "314.28(A)(3)"),
        (("LL, half inch EMT, ten 12 THHN passing through",), "3/4 inch EMT"),
    ],
)
def test_what_would_help(said: tuple[str, ...], way: str) -> None:
    """0.4 x 5.858 / 0.5242 is 4.47; 0.4 x 0.533 / 0.0133 is 16.03."""
    assert way in told(*said, "what can I do about it").said
