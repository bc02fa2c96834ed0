"""Published worked examples as typed English through the conversation (published.toml)."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation

HERE = Path(__file__)
EXAMPLES = tomllib.loads(HERE.with_name("published.toml").read_text(encoding="utf-8"))["example"]
FACTS = HERE.parents[3] / "shared" / "facts" / "worked_examples.json"


def _told(example: dict[str, Any]) -> object:
    """An example; one that the program does not get right yet must go on failing."""
    mark = pytest.mark.xfail(reason=example.get("fails", ""), strict=True)
    return pytest.param(example, marks=[mark] if "fails" in example else [], id=example["id"])


@pytest.mark.parametrize("edition", ["2017", "2023"])
@pytest.mark.parametrize("example", map(_told, EXAMPLES))
def test_typed_english_gives_the_published_total(example: dict[str, Any], edition: str) -> None:
    reply = Conversation(edition).hear(example["says"])
    assert reply.left_over == ()
    assert ReplyDocument.of(reply).total_in3 == example[f"total_{edition}"]
    if "verdict" in example:
        assert reply.verdict == example["verdict"]


def test_our_numbers_are_those_of_the_collection_of_published_examples() -> None:
    if not FACTS.exists():
        pytest.skip("the collection of published examples is not beside this checkout")
    published = {row["id"]: row for row in json.loads(FACTS.read_text(encoding="utf-8"))}
    for example in EXAMPLES:
        row = published.get(example["id"])
        if row is None:
            continue
        assert float(example["total_2017"]) == row["recomputed_pre2020_in3"], example["id"]
        assert float(example["total_2023"]) == row["recomputed_2020plus_in3"], example["id"]
