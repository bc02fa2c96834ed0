"""The rules beyond the plain box, reached by talk (see rules_in_reach.toml).

Each case has the figures that are due; what it says nothing of is not looked at.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation

CASES = tomllib.loads(Path(__file__).with_name("rules_in_reach.toml").read_text(encoding="utf-8"))[
    "case"
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_what_is_said_comes_out_as_the_rule_has_it(case: dict[str, Any]) -> None:
    assert case["source"]
    conversation = Conversation(case.get("begins", "2023"))
    for words in case["says"]:
        reply = conversation.hear(words)
    out = ReplyDocument.of(reply)
    assert bool(out.left_over) == case.get("unread", False)
    for key, found in (
        ("total", out.total_in3),
        ("capacity", out.capacity_in3),
        ("verdict", out.verdict),
        ("edition", out.edition),
    ):
        if key in case:
            assert found == case[key], key
    if "asks" in case:
        assert (out.asks or "") == case["asks"]
    for axis, inches in case.get("pull", {}).items():
        assert out.pull_box is not None
        assert getattr(out.pull_box, f"{axis}_in") == inches, axis
    for word in case.get("tells", ()):
        assert word in out.reply
