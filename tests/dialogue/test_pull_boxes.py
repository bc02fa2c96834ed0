"""Pull boxes by talk, 314.28: the sizes that were once too small, and what is asked.

The figures follow 314.28(A)(1) and (2) as EC&M, March 2022, and Mike Holt forum 127045 state them:
eight times the largest of a straight pull; six times the largest of a row plus the others of that
row, each row by itself; six times the larger between raceways of the same conductors; opposite a
removable cover Table 312.6(A), one wire per terminal (studylib 18090336).
"""

from __future__ import annotations

from typing import Any

import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.dialogue.box_dialogue import Talk


def told(*said: str) -> Reply:
    """The reply to the last of some utterances."""
    conversation = Conversation()
    for words in said:
        reply = conversation.hear(words)
    return reply


def box(*said: str) -> dict[str, Any]:
    """The pull box after some utterances, as JSON."""
    found = ReplyDocument.of(told(*said)).to_json()["pull_box"]
    assert isinstance(found, dict)
    return found


def sides(*said: str) -> tuple[str | None, str | None, str | None]:
    """The least width, height and depth after some utterances."""
    found = box(*said)
    return found["width_in"], found["height_in"], found["depth_in"]


@pytest.mark.parametrize(
    ("said", "least"),
    [
        # 8 x 3
        ("straight pull with three two inch and two three inch conduits", ("24", None, None)),
        # 6 x 4 + 3 + 2
        ("angle pull, four, three and two inch conduits in one row on each wall",
         ("29", "29", None)),
        # 6 x 3 + 3 + 2
        ("angle pull with two 3 inch conduits and one 2 inch", ("23", "23", None)),
        # row by row: 6 x 4 against 6 x 2 + 2
        ("angle pull in two rows, a 4 inch in the first row and two 2 inch in the second row",
         ("24", "24", None)),
        # 6 x 3 + 1/2: a half inch raceway of the row counts
        ("angle pull with a three inch and a half inch", ("18.5", "18.5", None)),
        # EC&M quizzes 15, Q1, Q3, Q5; eHow; Filo (314.28 recomputed)
        ("straight pull with a 2 inch conduit in and out", ("16", None, None)),
        ("angle pull with one 2 inch conduit", ("12", "12", None)),
        ("u pull with a 2 inch conduit entering and leaving the same wall", ("14", None, None)),
        ("angle pull, a 3 inch and a 2 inch on the left wall, a 3 inch on the top wall",
         ("20", "18", None)),
        ("straight pull, two 1 inch and one 4 inch", ("32", None, None)),
        ("pull box, one 3 inch in a side wall and one 3 inch in the back opposite a removable "
         "cover, 500 kcmil", ("18", None, "6")),
        # both kinds on the left wall in one row: 6 x 4 + 2 is less than 8 x 4
        ("straight pull 4 inch from left to right, angle pull 2 inch from left to top",
         ("32", "12", None)),
        # metric designators 78 and 53
        ("angle pull, metric designator 78 and metric designator 53", ("20", "20", None)),
        # 314.28(A): a cable counts as the raceway that its conductors would need
        ("angle pull with a 2 inch cable", ("12", "12", None)),
    ],
)  # fmt: skip
def test_least_dimensions(said: str, least: tuple[str | None, ...]) -> None:
    assert sides(said) == least
    assert told(said).asks is None
    assert told(said).left_over == ()


def test_every_line_has_its_working_and_section() -> None:
    found = box("angle pull, a 3 inch and a 2 inch from the left to the top")
    lines = [(line["inches"], line["sets"], line["section"]) for line in found["lines"]]
    assert lines == [
        ("20", "width", "314.28(A)(2)"),
        ("20", "height", "314.28(A)(2)"),
        ("18", None, "314.28(A)(2)"),
        ("12", None, "314.28(A)(2)"),
    ]
    assert found["lines"][0]["working"] == "6 x 3 + 2"


def test_the_distance_of_spliced_conductors_is_disputed() -> None:
    """Mike Holt forum 110905: no ruling found."""
    found = box("junction box, a 2 inch on the left and a 2 inch on the right, spliced")
    assert [line["disputed"] for line in found["lines"]] == [False, False, True]
    assert found["width_in"] == "12"


@pytest.mark.parametrize(
    ("said", "asks", "answer", "least"),
    [
        ("angle pull", "pull_size", "two 3 inch", ("21", "21", None)),
        ("angle pull with three conduits", "pull_size", "2", ("16", "16", None)),
        ("pull box with two 3 inch conduits", "pull_kind", "angle", ("21", "21", None)),
        # conduits, and nobody said how many
        ("angle pull with 2 inch conduits", "confirm", "three", ("16", "16", None)),
        ("angle pull in two rows, two 3 inch and a 4 inch", "pull_rows",
         "first row two 3 inch, second row a 4 inch", ("24", "24", None)),
        # two walls, and the rows of one alone: 6 x 4 + 3 + 3 at the bottom
        ("angle pull in two rows, a 4 inch and two 3 inch on the left, a 4 inch and two 3 inch on "
         "the bottom", "pull_rows",
         "first row a 4 inch on the left, second row two 3 inch on the left, "
         "first row a 4 inch on the bottom, second row two 3 inch on the bottom",
         ("24", "24", None)),
        ("angle pull in two rows, two 3 inch and a 4 inch", "pull_rows", "all in one row",
         ("30", "30", None)),
        ("angle pull in two rows, two 3 inch and a 4 inch", "pull_rows", "skip",
         ("30", "30", None)),
        ("u pull with a 3 inch and a 2 inch", "pull_returns", "yes", ("20", None, None)),
        ("u pull with a 3 inch and a 2 inch", "pull_returns", "no", ("25", None, None)),
        ("u pull with a 3 inch and a 2 inch", "pull_returns", "skip", ("25", None, None)),
        ("splice box with two 3 inch conduits", "pull_walls", "left and right", ("21", None, None)),
        ("splice box with two 3 inch conduits", "pull_walls", "skip", ("21", "21", None)),
        ("pull box, a 3 inch on the left and a 3 inch in the back, 500 kcmil", "pull_cover", "yes",
         ("18", None, "6")),
        ("pull box, a 3 inch on the left and a 3 inch in the back, 500 kcmil", "pull_cover", "no",
         ("18", None, "18")),
        ("pull box, a 3 inch on the left and a 3 inch in the back, removable cover",
         "pull_conductor", "four ought", ("18", None, "4")),
        ("pull box, a 3 inch on the left and a 3 inch in the back, removable cover",
         "pull_conductor", "500", ("18", None, "6")),
        ("angle pull, a 3 inch on the left, a 3 inch on the top and a 2 inch", "pull_wall",
         "the left wall", ("20", "18", None)),
        ("straight pull 4 inch, angle pull 2 inch", "pull_walls", "left and top",
         ("32", "12", None)),
        ("straight pull 4 inch, angle pull 2 inch", "pull_walls", "skip", ("32", "32", None)),
    ],
)  # fmt: skip
def test_what_is_missing_is_asked(
    said: str, asks: str, answer: str, least: tuple[str | None, ...]
) -> None:
    assert told(said).asks == asks
    assert sides(said) == (None, None, None)
    assert sides(said, answer) == least
    assert told(said, answer).asks is None


@pytest.mark.parametrize(
    "said",
    [
        "angle pull with a three inch and a blorp inch",
        "angle pull with two three and four inch conduits",
        "angle pull with a three inch and a jumbo conduit",
        "straight pull with a to inch conduit and a 1 inch",
        "angle pull, 3 inch and some 2 inch",
        "angle pull with a three inch and four more",
        "straight pull with a three inch and a half",
        "angle pull with two 1/2 inch",
        "angle pull with a 3 inch, except one",
        "straight pull 3 inch, hinged cover, and 2",
        "straight pull, 4 and two 2 inch",
    ],
)
def test_no_dimension_over_words_that_weigh(said: str) -> None:
    """The worst that can be said of a pull box is a size that is too small."""
    found = told(said)
    assert found.left_over
    assert found.asks in ("unread", "pull_size", "contents")
    assert (ReplyDocument.of(found).to_json()["pull_box"] or {}).get("width_in") is None


@pytest.mark.parametrize(
    "said",
    [
        "what if it were an angle pull with a 4 inch",
        "no straight pull",
        "the straight pull is not 3 inch",
        "remove the 4 inch conduit",
        "what if we take out the 2 inch",
        "do not take out the 2 inch",
    ],
)
def test_what_is_supposed_or_denied_enters_nothing(said: str) -> None:
    conversation = Conversation()
    conversation.hear("straight pull with a 2 inch conduit")
    before = conversation.talk.state.pulls
    conversation.hear(said)
    assert conversation.talk.state.pulls == before


def test_a_supposition_is_worked_out_on_a_copy() -> None:
    found = told("straight pull, 2 inch", "what if it were a straight pull with a 4 inch")
    assert "32 inches" in found.said


@pytest.mark.parametrize(
    ("said", "least"),
    [
        (("straight pull with a 2 inch, no, a 3 inch",), ("24", None, None)),
        (("straight pull with a 2 inch", "no, a 3 inch"), ("24", None, None)),
        (("straight pull with a 2 inch", "make that 3 inch"), ("24", None, None)),
        (("straight pull with a 2 inch", "actually angle pull"), ("12", "12", None)),
        (("angle pull with a 3 inch", "and a 2 inch"), ("20", "20", None)),
        (("angle pull with a 3 inch", "and a 2 inch", "undo"), ("18", "18", None)),
        (("angle pull with two 3 inch and a 2 inch", "take out the 2 inch"), ("21", "21", None)),
        (("angle pull with two 3 inch and a 2 inch", "remove one 3 inch"), ("20", "20", None)),
        (("angle pull with two 3 inch and a 2 inch", "take out the 4 inch"), (None, None, None)),
    ],
)
def test_corrections_and_additions(said: tuple[str, ...], least: tuple[str | None, ...]) -> None:
    assert sides(*said) == least


def test_a_correction_that_could_be_of_several_is_not_guessed() -> None:
    found = told("angle pull with a 3 inch and a 2 inch", "no, a 4 inch")
    assert found.asks == "unread"
    assert ReplyDocument.of(found).to_json()["pull_box"]["width_in"] is None


@pytest.mark.parametrize(
    ("inside", "holds"),
    [("24 by 20 by 8", [True]), ("20 x 12 x 8", [True]), ("16x16x6", [False]),
     ("19-15/16 by 12", [False])],
)  # fmt: skip
def test_a_box_at_hand_is_held_against_it(inside: str, holds: list[bool]) -> None:
    """314.28(A)(2): 6 x 3 + 2 is 20 across the one wall named; a margin of zero fits."""
    said = "pull box, 3 inch and 2 inch in the left wall, spliced"
    assert sides(said)[0] == "20"
    found = box(f"{said}, the box is {inside}")
    assert [one["holds"] for one in found["box"]] == holds


@pytest.mark.parametrize(
    ("inside", "holds"),
    [("24 by 24 by 8", [True, True]), ("20 by 23", [True, True]), ("23 by 20", [True, True]),
     ("24 by 12", [True, False]), ("30 by 19", [False, True]), ("16 by 16", [False, False])],
)  # fmt: skip
def test_the_wall_of_a_u_pull_holds_both_entries(inside: str, holds: list[bool]) -> None:
    """314.28(A)(2): 6 x 3 + 2 is 20 across, and 6 x 3 between a 3 inch and a 2 inch takes 23
    along (the layout of electricianmath.com, "Conductors in back of the box")."""
    found = box(f"u pull, 3 inch and 2 inch in all, the box is {inside}")
    assert sorted(one["holds"] for one in found["box"]) == sorted(holds)
    assert all(one["holds"] for one in found["box"]) == all(holds)


@pytest.mark.parametrize(
    "answer",
    ["first row three 3 inch, second row a 4 inch", "first row a 2 inch", "first row two 3 inch"],
)
def test_rows_that_do_not_hold_what_was_said_settle_nothing(answer: str) -> None:
    said = "angle pull in two rows, two 3 inch and a 4 inch"
    assert sides(said, answer) == (None, None, None)
    assert told(said, answer).asks in ("unread", "pull_rows")


def test_racks_blocks_and_listed_boxes() -> None:
    """314.28(B) over 6 feet, (E) over 100 cubic inches, (A)(3): EC&M; Mike Holt forum 127045."""
    found = box("straight pull 3 inch, the box is 80 by 24 by 8")
    assert [one["section"] for one in found["remarks"]] == ["314.28(B)"]
    small = box("straight pull with a half inch and a distribution block", "4 by 5 by 5")
    assert [(one["section"], one["holds"]) for one in small["remarks"]] == [("314.28(E)", False)]
    large = box("straight pull with a half inch and a distribution block", "5 by 5 by 5")
    assert [(one["section"], one["holds"]) for one in large["remarks"]] == [("314.28(E)", True)]
    listed = box("angle pull 3 inch, the box is listed for fewer conductors")
    assert [(one["section"], one["holds"]) for one in listed["remarks"]] == [("314.28(A)(3)", None)]
    assert listed["width_in"] == "18"


def test_the_journal_folded_gives_the_same_box() -> None:
    conversation = Conversation()
    for words in ("pull box, a 3 inch on the left and a 3 inch in the back", "yes", "500 kcmil"):
        conversation.hear(words)
    talk = conversation.talk
    assert Talk.fold(talk.journal, talk.state.edition).state == talk.state
    assert talk.state.pulls is not None


def test_walls_that_do_not_make_the_pull_are_refused() -> None:
    found = box("straight pull, a 3 inch on the left and a 3 inch on the top")
    assert "no straight pull" in found["refused"]
    assert found["width_in"] is None


@pytest.mark.parametrize("said", ["straight pull with two three inch conduits", "LB conduit body"])
def test_a_box_begun_after_a_pull_box_or_a_conduit_body_is_another(said: str) -> None:
    """What was said of the first stays with it, and does not go on under the name of the next."""
    conversation = Conversation()
    conversation.hear(said)
    first = conversation.talk.state
    conversation.hear("next box, cellar")
    assert len(conversation.boxes.names) == 2
    assert (conversation.talk.state.pulls, conversation.talk.state.body) == (
        None,
        type(first.body)(),
    )
    conversation.hear("open box 1")
    assert (conversation.talk.state.pulls, conversation.talk.state.body) == (
        first.pulls,
        first.body,
    )
