"""Questions that a number answers: it stands in the reply as data, and nothing is entered."""

from __future__ import annotations

import json
import tomllib
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from boxaloud import Conversation
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue.answer_figures import Figure
from boxaloud.assistant.dialogue.reply import Reply

_DATA = tomllib.loads((Path(__file__).parent / "asked_figures.toml").read_text(encoding="utf-8"))


def _named(row: dict[str, Any]) -> str:
    return " / ".join(row["say"])


def _heard(row: dict[str, Any]) -> Reply:
    conversation = Conversation()
    for words in row["say"]:
        reply = conversation.hear(words)
    return reply


def _figures(reply: Reply) -> list[Figure]:
    return [figure for act in reply.acts for figure in act.figures]


def _stands(reply: Reply, row: dict[str, Any]) -> None:
    assert reply.sheet.total == Decimal(row.get("total", 0))
    box = row.get("box")
    assert reply.sheet.capacity == (None if box is None else Decimal(box))


@pytest.mark.parametrize("row", _DATA["case"], ids=_named)
def test_a_question_is_answered_by_a_number_and_enters_nothing(row: dict[str, Any]) -> None:
    reply = _heard(row)
    most = Decimal(row["most"])
    least = Decimal(row.get("least", most))
    found = [(one.of, one.least, one.most) for one in _figures(reply)]
    if "allowances" in row:
        assert found.pop(0) == ("takes", row["allowances"], row["allowances"])
    assert found == [(row["of"], least, most)]
    _stands(reply, row)


@pytest.mark.parametrize("row", _DATA["told"], ids=_named)
def test_what_is_told_is_no_such_question(row: dict[str, Any]) -> None:
    reply = _heard(row)
    assert _figures(reply) == []
    _stands(reply, row)


def test_the_number_leaves_as_data_too() -> None:
    reply = Conversation().hear(
        "how many 14s can I put in a 4 by 1-1/2 octagon, nothing else in it"
    )
    left = json.loads(json.dumps(ReplyDocument.of(reply).to_json()))
    answered = next(act for act in left["acts"] if act["act"] == "answer")
    # seven: the printed count of NEC 2023 Table 314.16(A)
    assert answered["figures"] == [{"of": "room", "least": "7", "most": "7", "unit": "count"}]


def test_a_box_named_without_its_depth_is_answered_for_each() -> None:
    reply = Conversation().hear("how many 12s can I put in a 4 square")
    # 18.0, 21.0 and 30.3 by NEC 2023 Table 314.16(A), its printed counts of 12 AWG
    assert [one.most for one in _figures(reply)] == [8, 9, 13]
    assert reply.sheet.capacity is None
