"""The log beside a job that was not closed: played whole, or its loss is told."""

from __future__ import annotations

import random
import shutil
from pathlib import Path

import pytest
from boxaloud.assistant.storage import Session, repository
from boxaloud.assistant.storage.sqlite.journal_file import log_of
from boxaloud.assistant.storage.sqlite.write_ahead_log import FRAME_HEAD, HEAD
from damaged_jobs import FLIPS, LINES, PAGE, flip, heard, put_back, told_of


@pytest.fixture
def crashed(data: Path, tmp_path: Path) -> Path:
    """The same as a talk left it that was killed: the last rows are in the log."""
    session = Session.start("Heron Street")
    for words in LINES:
        session.hear(words)
    path = repository.find("heron").path
    for each in (path, log_of(path)):
        shutil.copy(each, tmp_path / each.name)
    session.close()
    for each in (path, log_of(path)):
        shutil.copy(tmp_path / each.name, each)
    return path


def frames(path: Path) -> int:
    return (log_of(path).stat().st_size - HEAD) // (FRAME_HEAD + PAGE)


def test_a_log_that_is_whole_is_played_without_a_word(crashed: Path) -> None:
    assert frames(crashed) > 4
    session = Session.open("heron")
    assert told_of(session) == ""
    assert len(heard(session)) == len(LINES)


def test_a_frame_that_was_not_finished_is_no_damage(crashed: Path) -> None:
    """A talk killed in the middle of a write; that statement was not acknowledged."""
    log = log_of(crashed)
    log.write_bytes(log.read_bytes()[: -PAGE // 2])
    session = Session.open("heron")
    assert told_of(session) == ""
    assert len(heard(session)) == len(LINES) - 1


@pytest.mark.parametrize("at", ["head", "salt", "page number", "content"])
@pytest.mark.parametrize("number", ["first", "middle", "last"])
def test_frames_behind_one_that_cannot_be_read_are_noticed_and_told(
    number: str, at: str, crashed: Path
) -> None:
    log, size = log_of(crashed), FRAME_HEAD + PAGE
    raw = bytearray(log.read_bytes())
    frame = {"first": 0, "middle": frames(crashed) // 2, "last": frames(crashed) - 1}[number]
    place = HEAD + frame * size + {"salt": 9, "page number": 2, "content": 3000, "head": 0}[at]
    if at == "head":
        place = {"first": 0, "middle": 10, "last": 26}[number]
    raw[place] ^= 16
    log.write_bytes(raw)
    session = Session.open("heron")
    notes = told_of(session)
    assert "was damaged" in notes
    kept = len(heard(session))
    if at in ("head", "salt") or number != "last":
        # every page of this small job is written again behind it, or was only mislabelled
        assert kept == len(LINES), notes
    else:
        assert kept >= len(LINES) - 1
    aside = [each for each in crashed.parent.iterdir() if each.name.endswith("-wal")]
    assert raw in [each.read_bytes() for each in aside]


def test_a_flipped_bit_in_the_log_is_told_or_costs_nothing(crashed: Path, tmp_path: Path) -> None:
    shutil.copytree(crashed.parent, tmp_path / "kept")
    session = Session.open("heron")
    whole = heard(session)
    session.close()
    chance, told = random.Random(3), 0
    for _ in range(FLIPS):
        put_back(crashed.parent, tmp_path / "kept")
        log = log_of(crashed)
        bit = chance.randrange(log.stat().st_size * 8)
        flip(log, bit)
        session = Session.open("heron")
        notes, kept = told_of(session), heard(session)
        session.close()
        assert kept == whole[: len(kept)], f"bit {bit}"
        assert len(kept) == len(whole) or f"carried over {len(kept)}" in notes, f"bit {bit}"
        told += bool(notes)
    assert told > FLIPS // 2
