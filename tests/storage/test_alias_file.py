"""A person's own words are kept in a file of theirs, and a file edited by hand is read."""

from __future__ import annotations

from pathlib import Path

import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.storage import alias_file
from boxaloud.assistant.storage.memory_session import begin


@pytest.fixture(autouse=True)
def _elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOXALOUD_CONFIG", str(tmp_path))


def test_what_is_said_once_holds_the_next_time() -> None:
    begin("").hear("when I say blue box I mean single gang eighteen cubic inches")
    reply = begin("").hear("two 14-2 cables in a blue box, no clamps")
    assert ReplyDocument.of(reply).capacity_in3 == "18.0"


def test_a_file_written_by_hand_is_read(tmp_path: Path) -> None:
    (tmp_path / "own_words.toml").write_text('"my dimmer" = "dimmer"\n', encoding="utf-8")
    assert alias_file.read() == {"my dimmer": "dimmer"}


def test_a_broken_file_is_told_of_and_left_alone(tmp_path: Path) -> None:
    file = tmp_path / "own_words.toml"
    file.write_text("blue box = ", encoding="utf-8")
    alias_file.write({"a": "b"})
    assert file.read_text(encoding="utf-8") == "blue box = "
    assert str(file) in alias_file.unreadable()


@pytest.mark.parametrize("words", ['say "so"', "back\\slash", "tab\tand\nline", "cable ½ \x7f"])
def test_any_words_come_back_as_they_were(words: str) -> None:
    alias_file.write({words: words})
    assert alias_file.read() == {words: words}
