"""A person's own words are kept in a file of theirs, and a file edited by hand is read."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.storage import alias_file
from boxaloud.assistant.storage.memory_session import begin, listening
from boxaloud.grammar.utterance.own_word_refusal import refusal


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


BROKEN = {
    "no TOML": b"blue box = ",
    "no text": b"\xff\xfe\x00\x80",
    "deep": b"x = " + b"[" * 100_000,
    "a number without end": b"x = " + b"9" * 5000,
    "twice": b'a = "b"\na = "c"\n',
    "long": b"#" * (alias_file.MOST_BYTES + 1),
}


@pytest.mark.parametrize("job", ["", "Heron Street"])
@pytest.mark.parametrize("raw", BROKEN.values(), ids=BROKEN)
def test_a_damaged_file_is_set_aside_whole_told_once_and_begun_anew(
    raw: bytes, job: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("BOXALOUD_DATA", str(tmp_path / "data"))
    file = tmp_path / "own_words.toml"
    file.write_bytes(raw)
    with listening(job, "") as (listener, first):
        assert first.count(str(file)) == 1
        listener.hear("when I say blue box I mean 18 cubic inches")
    assert (tmp_path / "own_words.damaged-1.toml").read_bytes() == raw
    assert alias_file.read() == {"blue box": "18 cubic inches"}
    assert alias_file.trouble() == ""


def test_a_damaged_file_met_while_writing_is_never_written_over(tmp_path: Path) -> None:
    file = tmp_path / "own_words.toml"
    for number in (1, 2):
        file.write_text("blue box = ", encoding="utf-8")
        alias_file.write({"a": "b"})
        assert (tmp_path / f"own_words.damaged-{number}.toml").read_text() == "blue box = "
        assert alias_file.read() == {"a": "b"}


@pytest.mark.parametrize("kind", ["folder", "fifo", "endless"])
def test_what_is_no_plain_file_is_told_and_left(kind: str, tmp_path: Path) -> None:
    file = tmp_path / "own_words.toml"
    if kind == "folder":
        file.mkdir()
    elif kind == "fifo":
        os.mkfifo(file)
    else:
        file.symlink_to("/dev/zero")
    assert "no plain file" in alias_file.trouble()
    assert alias_file.read() == {}
    alias_file.write({"a": "b"})
    assert file.exists()
    assert not file.is_file()


@pytest.mark.parametrize("words", ['say "so"', "back\\slash", "tab\tand\nline", "cable ½ \x7f"])
def test_any_words_come_back_as_they_were(words: str) -> None:
    alias_file.write({words: words})
    assert alias_file.read() == {words: words}


NEVER = [
    "two", "14", "fourteen", "14-2", "fourteen two", "the twelves", "1/2", "half", "a dozen",
    "hundred", "inch", "cubic inches", "gauge", "undo", "done", "yes", "no", "skip", "next box",
    "start over", "not", "no clamps", "without", "inside", "outside", "none", "help", "total",
    "what if", "the", "and", "um", "", "?", "#", "2½", "18,5", "redo", "read it back", "never",
]  # fmt: skip


@pytest.mark.parametrize("word", NEVER)
def test_no_number_and_no_command_is_given_another_meaning(word: str, tmp_path: Path) -> None:
    talking = Conversation()
    talking.hear(f"when I say {word} I mean switch")
    assert talking.aliases == {}
    assert refusal(word, "switch")
    quoted = alias_file._quoted(word)
    (tmp_path / "own_words.toml").write_text(f'{quoted} = "switch"\n', encoding="utf-8")
    listener = begin("")
    assert listener.conversation.aliases == {}
    with listening("", "") as (_, first):
        assert f"“{word}”" in first


@pytest.mark.parametrize("word", ["blue box", "the usual", "my dimmer", "smurf", "hall light"])
def test_other_words_may_mean_what_they_are_told_to(word: str) -> None:
    talking = Conversation()
    talking.hear(f"when I say {word} I mean single gang 18 cubic inches")
    assert talking.aliases == {word: "single gang 18 cubic inches"}


def test_a_number_keeps_its_worth_after_one_tried_to_change_it() -> None:
    """Two 14-2 are 4 conductors and a ground of 2.00 each: NEC 2023 Table 314.16(B)(1)."""
    talking = Conversation()
    assert "keeps its own meaning" in talking.hear("when I say two I mean twenty").said
    assert ReplyDocument.of(talking.hear("two 14-2 cables")).total_in3 == "10.00"
