"""Every question there is has its sentences, and every item of a worksheet its rule."""

from __future__ import annotations

from typing import get_args

import pytest
from boxaloud.assistant.dialogue.nlg.sentences import say, sentences
from boxaloud.assistant.dialogue.question_slots import QuestionSlot
from boxaloud.rules.data import all_rules, table
from boxaloud.rules.worksheet import WorksheetItem


@pytest.mark.parametrize("slot", get_args(QuestionSlot))
def test_every_question_can_be_put(slot: str) -> None:
    assert slot in sentences()["ask"] or slot == "confirm"
    assert say(f"open.{slot}")


def test_every_item_is_counted_by_a_rule() -> None:
    others = {"volume", "refused"}
    found = {rule.item for rule in all_rules().values()} - others
    found |= {row["item"] for row in table("canada")["rule"].values()}
    assert found == set(get_args(WorksheetItem))
