"""Cables in a pull box by the raceway that their conductors would need, 314.28(A) (from memory).

Areas of Chapter 9 Table 5 from 4 AWG on, RMC and PVC of Table 4 from memory: 3 x 0.3237 (4/0 THHN)
is 0.97, which 0.4 x 3.291 (2 inch PVC) and 0.4 x 3.356 (2 inch EMT) take; 3 x 0.7073 (500 kcmil)
needs 2-1/2 inch EMT and 3 inch rigid; 3 x 0.1158 + 0.0824 (2 and 4 AWG) 1-1/4 inch. 314.28(A)(1):
8 x; (A)(2): 6 x and the others (EC&M, March 2022).
"""

from __future__ import annotations

from typing import Any

import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.reports.batch import work
from boxaloud.assistant.reports.batch.batch_row import Row


def told(*said: str) -> Reply:
    conversation = Conversation()
    for words in said:
        reply = conversation.hear(words)
    return reply


def pull(reply: Reply) -> dict[str, Any]:
    found: dict[str, Any] = ReplyDocument.of(reply).to_json()["pull_box"]
    return found


@pytest.mark.parametrize(
    ("said", "raceway", "width"),
    [
        (("straight pull with one 3 conductor 4/0 cable",), "2", "16"),
        (("straight pull, three cables of 3 conductor 4/0",), "2", "16"),
        (("straight pull, two MC cables with three 4/0 each",), "2", "16"),
        (("straight pull with a 4/0-3 MC cable",), "2", "16"),
        (("angle pull, two 2-2-2-4 SER cables from left to top",), "1.25", "8.75"),
        (("angle pull with three cables of 3 conductor 500 kcmil",), "3", "24"),
        (("straight pull, a cable of four 500 kcmil THHN and a 2 inch conduit",), "3", "24"),
        (("angle pull, a 3 conductor 4/0 cable and a 3 inch conduit",), "2", "20"),
        (("straight pull, a 4/0-3 MC cable with ground", "THHN"), "2", "16"),
        (("straight pull, a 4/0-3 MC cable with ground", "skip"), "2.5", "20"),
        (("straight pull, a 4/0 cable", "three 4/0"), "2", "16"),
        (("straight pull, a 4/0 cable", "three 4/0 and a 2/0 ground", "XHHW"), "2", "16"),
        (("straight pull, a 4/0 cable", "3 inch"), "3", "24"),
        (("straight pull with one 3 conductor 4/0 cable", "make that 3 inch"), "3", "24"),
        (("pull box with a 3/C 500 MC cable in one side and out the other",), "3", "24"),
        # 3 x 0.3970 + 0.3970 = 1.588: 0.4 x 4.866 is rigid of 2-1/2; by every insulation
        (("straight pull, MC cable, 3 conductors of 250 kcmil plus ground",), "2.5", "20"),
        (("straight pull, two cables, three 4/0 THHN in each",), "2", "16"),
        # 3 x 0.2223 + 0.1562 = 0.8231: 0.4 x 1.986 is PVC of 1-1/2, 0.4 x 3.291 of 2
        (("angle pull, type SER 2/0-2/0-2/0-1 cable",), "2", "12"),
        # 3 x 0.1158 + 0.0507 = 0.3981: 0.4 x 1.453 is PVC of 1-1/4
        (("straight pull, a cable with 3 number 2s and a number 6 ground",), "1.25", "10"),
    ],
)
def test_the_raceway_that_a_cable_counts_as(
    said: tuple[str, ...], raceway: str, width: str
) -> None:
    found = told(*said)
    assert found.left_over == ()
    assert [one["raceway_in"] for one in pull(found)["cables"]] == [raceway]
    assert pull(found)["width_in"] == width


@pytest.mark.parametrize(
    ("said", "asks"),
    [
        # the number of its conductors, or what they are, was not said
        ("straight pull, two 4/0 SER cables", "pull_size"),
        ("straight pull, a 4/0 cable with ground", "pull_size"),
        # three 4/0 and a ground: 2 inch by THHN, 2-1/2 by THW
        ("straight pull, a 3 conductor 4/0 cable with ground", "pull_insulation"),
        # 3 x 1.3478 and as much again: more than any raceway that is held takes by THW
        ("straight pull, a cable of six 2000 kcmil", "pull_size"),
    ],
)
def test_what_the_data_does_not_settle_is_asked(said: str, asks: str) -> None:
    found = told(said)
    assert found.asks == asks
    assert pull(found)["width_in"] is None


def test_what_is_from_memory_is_said() -> None:
    found = told("angle pull with three cables of 3 conductor 500 kcmil")
    assert "From memory: Table 5, 500 kcmil and Table 4, rigid." in found.said
    (cable,) = pull(found)["cables"]
    assert list(cable["from_memory"]) == ["Table 5, 500", "Table 4, rmc"]
    assert list(cable["by_kind"]) == ["emt 2.5", "imc 2.5", "rmc 3", "pvc40 3"]
    assert "314.28(A)" in cable["section"]
    assert "3 x 0.7073 of 0.4 x 7.499" in cable["working"]


@pytest.mark.parametrize(
    "said",
    [
        "pull box, two 3 inch conduits with four 500 kcmil, straight pull",
        "straight pull, three 500 kcmil in a 3 inch conduit",
        "straight pull, a 3 inch, the largest is 4/0",
    ],
)
def test_conductors_of_a_raceway_are_no_cable(said: str) -> None:
    found = told(said)
    assert not pull(found)["cables"]
    assert pull(found)["width_in"] == "24"


def test_a_row_and_a_journal_have_the_same() -> None:
    said = ["angle pull with a 4/0-3 MC cable with ground", "THHN"]
    (row,) = work([Row(1, {"says": said})])
    assert (row.least_width_in, row.open) == ("12", ())
    assert "from memory" in row.told.lower()
    conversation = Conversation()
    for words in said:
        conversation.hear(words)
    talk = conversation.talk
    assert Talk.fold(talk.journal, talk.state.edition).state == talk.state
