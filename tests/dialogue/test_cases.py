"""The main job in typed English, against published numbers (see cases.toml)."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation

CASES = tomllib.loads(Path(__file__).with_name("cases.toml").read_text(encoding="utf-8"))["case"]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_the_box_comes_out_as_published(case: dict[str, Any]) -> None:
    assert case["source"]
    conversation = Conversation()
    for words in case["says"]:
        reply = conversation.hear(words)
    out = ReplyDocument.of(reply)
    assert out.left_over == ()
    assert out.total_in3 == case["total"]
    assert out.capacity_in3 == case.get("capacity")
    assert out.margin_in3 == case.get("margin")
    assert out.verdict == case["verdict"]
    assert out.asks == case.get("asks")
