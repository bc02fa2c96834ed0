"""A pull box of which the inside is known is settled: large enough by each dimension, or not.

314.28(A)(1): 8 x 3 = 24; (A)(2): 6 x 3 + 3 = 21, entries of the same conductors 6 x 3 = 18 apart;
Exception, Table 312.6(A): 500 kcmil 6 inches (EC&M, March 2022; studylib 18090336); 314.28(E):
blocks only over 100 cubic inches (EC&M 2011, no. 15).
"""

from __future__ import annotations

from typing import Any

import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.dialogue.reply import spoken_of
from boxaloud.assistant.reports.batch import work
from boxaloud.assistant.reports.batch.batch_row import Row
from boxaloud.assistant.tui.presenters.enclosure_view import rows
from boxaloud.assistant.tui.presenters.verdict_view import glance

STRAIGHT = "straight pull, a 3 inch from left to right"
ANGLE = "angle pull, two 3 inch from left to top"
U = "U pull, two 3 inch in the left wall"
BACK = "angle pull, a 3 inch from the left to the back, 500 kcmil, removable cover"


def talk(*said: str) -> tuple[Conversation, Reply]:
    conversation = Conversation()
    for words in said:
        reply = conversation.hear(words)
    return conversation, reply


def pull(reply: Reply) -> dict[str, Any]:
    found: dict[str, Any] = ReplyDocument.of(reply).to_json()["pull_box"]
    return found


@pytest.mark.parametrize(
    ("said", "verdict"),
    [
        ((STRAIGHT, "the box is 24 by 12 by 6"), "fits"),
        ((STRAIGHT, "the box is 23 by 12 by 6"), "over"),
        ((STRAIGHT, "the box is 30 inches wide"), "fits"),
        ((STRAIGHT, "the box is 30 inches high"), "incomplete"),
        ((ANGLE, "the box is 21 by 21 by 4"), "fits"),
        ((ANGLE, "the box is 21 by 20 by 4"), "over"),
        ((ANGLE, "the box is 24 inches wide"), "incomplete"),
        ((ANGLE, "the box is 24 inches wide", "it is 24 inches high"), "fits"),
        ((U, "the box is 24 by 24 by 6"), "fits"),
        ((U, "the box is 24 inches wide"), "incomplete"),
        ((U, "the box is 20 by 20 by 6"), "over"),
        ((BACK, "the box is 18 by 18"), "incomplete"),
        ((BACK, "the box is 18 by 18 by 6"), "fits"),
        ((BACK, "the box is 18 by 18 by 5"), "over"),
        ((ANGLE, "the box is 24 by 24 by 6", "they are 18 inches apart"), "fits"),
        ((ANGLE, "the box is 24 by 24 by 6", "they are 12 inches apart"), "over"),
        # one distance for several pulls: fifteen inches are enough for one of them
        (("angle pull, a 3 inch and a 2 inch from left to top", "the box is 24 by 24 by 6",
          "they are 15 inches apart"), "incomplete"),
        # an open word, size or kind lets nothing stand
        (("pull box with two 3 inch conduits", "the box is 40 by 40 by 12"), "incomplete"),
        (("straight pull", "the box is 40 by 40 by 12"), "incomplete"),
        # a distribution block, 80 and 1152 cubic inches
        (("straight pull, a half inch from left to right, a distribution block in the box",
          "the box is 5 by 4 by 4"), "over"),
        ((f"{STRAIGHT}, a distribution block in the box", "the box is 24 by 12 by 4"), "fits"),
        # its volume counts too: it fits only by both
        (("18 cubic inch box", "two 14-2 cables", "no clamps", STRAIGHT), "incomplete"),
        (("18 cubic inch box", "two 14-2 cables", "no clamps", STRAIGHT,
          "the box is 12 by 12 by 6"), "over"),
        (("2000 cubic inch box", "two 14-2 cables", "no clamps", STRAIGHT,
          "the box is 24 by 12 by 8"), "fits"),
        (("8 cubic inch box", "two 14-2 cables", "no clamps", STRAIGHT,
          "the box is 24 by 12 by 8"), "over"),
        # sides said by name are those of the walls that were named: 8 x 3 = 24 across
        ((STRAIGHT, "the box is 20 wide and 32 high"), "over"),
        ((STRAIGHT, "the box is 32 wide and 20 high"), "fits"),
        ((STRAIGHT, "the box is 20 wide and 32 high", "the box is 20 by 32 by 6"), "fits"),
        (("straight pull, a 3 inch from top to bottom", "32 inches wide and 20 high"), "over"),
        (("straight pull, a 3 inch", "the box is 20 wide and 32 high"), "fits"),
        ((U, "24 wide and 20 high"), "over"),
        ((U, "21 wide and 24 high"), "fits"),
        # smaller ones are permitted where their maker marked them, 314.28(A)(3)
        ((ANGLE, "the box is 12 by 12 by 6", "it's listed and marked for these conductors"),
         "incomplete"),
        ((ANGLE, "the box is 12 by 12 by 6", "the box is listed for fewer conductors"),
         "incomplete"),
        # asked or supposed, it settles nothing
        ((STRAIGHT, "would 30 by 20 by 8 do"), "incomplete"),
        ((STRAIGHT, "is 30 by 20 by 8 big enough"), "incomplete"),
    ],
)  # fmt: skip
def test_what_a_box_at_hand_comes_to(said: tuple[str, ...], verdict: str) -> None:
    _, found = talk(*said)
    assert found.verdict == verdict


@pytest.mark.parametrize(
    ("said", "held"),
    [
        ((STRAIGHT, "the box is 24 by 12 by 6"), {"width": "314.28(A)(1)"}),
        (("straight pull, a 3 inch from top to bottom", "the box is 30 by 30 by 6"),
         {"height": "314.28(A)(1)"}),
        ((ANGLE, "the box is 21 by 21 by 4"), {"width": "314.28(A)(2)", "height": "314.28(A)(2)"}),
        ((U, "the box is 24 by 24 by 6"), {"width": "314.28(A)(2)", "height": "314.28(A)(2)"}),
        ((BACK, "the box is 18 by 18 by 6"),
         {"width": "314.28(A)(2)", "depth": "314.28(A)(2) Exception, Table 312.6(A)"}),
        # a straight pull of 3 inch governs the width, a turning one of 2 inch the height
        ((f"{STRAIGHT}", "and an angle pull, a 2 inch from left to top",
          "the box is 24 by 24 by 6"), {"width": "314.28(A)(1)", "height": "314.28(A)(2)"}),
    ],
)  # fmt: skip
def test_each_dimension_has_its_section(said: tuple[str, ...], held: dict[str, str]) -> None:
    conversation, found = talk(*said)
    entries = pull(found)["box"]
    assert {one["dimension"]: one["section"] for one in entries} == held
    assert pull(found)["verdict"] == "fits"
    for one in entries:
        assert f"{one['least_in']} are needed, {one['section']}" in found.said
    shown = dict(rows(conversation.talk.assessment))
    for axis, section in held.items():
        of_box = [of for what, of in shown.items() if what.startswith(f"{axis} of the box")]
        assert of_box == [section]


def test_it_is_a_verdict_to_every_face() -> None:
    conversation, found = talk(STRAIGHT, "the box is 24 by 12 by 6")
    assert [act.act for act in found.acts].count("verdict") == 1
    assert "314.28(A), 2023" in found.said
    assert glance(conversation.talk.assessment).verdict == "fits"
    (row,) = work([Row(1, {"says": [STRAIGHT, "the box is 24 by 12 by 6"]})])
    assert (row.verdict, row.open, row.least_width_in) == ("fits", (), "24")
    assert "314.28(A)(1)" in row.told


def test_an_edition_that_was_not_read_is_named_with_it() -> None:
    conversation, found = talk("2026 code", STRAIGHT, "the box is 24 by 12 by 6")
    assert found.verdict == "fits"
    assert "provisional" in found.said
    assert "provisional" in glance(conversation.talk.assessment).code


def test_a_side_that_is_not_known_is_asked_for() -> None:
    _, found = talk(ANGLE, "the box is 24 inches wide")
    assert found.asks == "pull_inside"
    _, skipped = talk(ANGLE, "the box is 24 inches wide", "skip")
    assert (skipped.asks, skipped.verdict) == (None, "incomplete")


def test_another_country_has_no_dimensions_of_ours() -> None:
    """314.28 is of the NEC; a rule of the Canadian code for pull boxes is not held."""
    _, found = talk("use the Canadian code", STRAIGHT, "the box is 40 by 40 by 12")
    assert found.verdict == "incomplete"
    assert pull(found)["width_in"] is None
    assert "314.28(A)(1)" not in found.said


def test_the_ear_hears_sections_once_and_no_figure_with_a_point() -> None:
    """ "Three fourteen twenty eight" in the caution alone; sizes of wire as the trade says them."""
    _, found = talk(STRAIGHT, "the box is 20 by 20 by 8")
    ear = spoken_of(found.acts)
    assert "point" not in ear
    assert ear.count("fourteen twenty eight") == 1
    _, body = talk("LB with three 2/0 THHN in 2 inch EMT, no splices", "12 inches long and 4 deep")
    ear = spoken_of(body.acts)
    assert "point" not in ear
    assert "large enough" in ear
    _, cable = talk("straight pull with one 3 conductor 4/0 cable")
    assert "four ought" in spoken_of(cable.acts)
