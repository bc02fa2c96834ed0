"""Whatever happens to the file, the talk goes on, says so, and nothing kept is lost."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path

import pytest
from boxaloud.assistant.storage import Session, repository
from boxaloud.assistant.storage.sqlite.journal_file import About, JobFile
from boxaloud.assistant.text.problem import Problem
from kept_rows import heard, path
from nobody import as_nobody

ROOT = Path(__file__).parents[2]


def test_a_folder_pulled_away_and_put_back_has_everything_again(
    session: Session, data: Path, tmp_path: Path
) -> None:
    away = tmp_path / "away"
    data.rename(away)
    said = session.hear("a switch").said
    assert said.startswith(f"The folder {data / 'jobs'} is gone, so I cannot keep job Heron Street")
    assert "One switch." in said
    assert not session.kept
    assert session.hear("no clamps").said.startswith("Not kept. ")
    away.rename(data)
    said = session.hear("total").said
    assert said.startswith("Job Heron Street is kept again, with what was said meanwhile.")
    assert session.kept
    session.close()
    assert heard(Session.open()) == [
        "two 14-2 cables", "18 cubic inches", "a switch", "no clamps", "total"
    ]  # fmt: skip


def test_a_file_deleted_under_a_talk_is_written_anew(session: Session) -> None:
    path().unlink()
    session.hear("a switch")
    said = session.hear("no clamps").said
    assert "wrote it anew" in said or session.kept
    session.close()
    assert heard(Session.open()) == ["two 14-2 cables", "18 cubic inches", "a switch", "no clamps"]


def test_another_job_put_in_the_files_place_is_left_alone(session: Session) -> None:
    other = Session.start("Barn Lane")
    other.hear("three 12-2 cables")
    other.close()
    place, barn = path(), repository.find("barn").path
    os.replace(barn, place)
    before = place.read_bytes()
    session.hear("a switch")
    said = session.hear("no clamps").said
    assert session.kept, said
    session.close()
    assert place.read_bytes() == before
    assert heard(Session.open("heron")) == [
        "two 14-2 cables", "18 cubic inches", "a switch", "no clamps"
    ]  # fmt: skip


@pytest.mark.skipif(os.name != "posix" or os.geteuid() != 0, reason="needs to become another user")
def test_in_a_read_only_folder_the_talk_goes_on_and_says_that_it_is_not_kept(
    session: Session, data: Path, tmp_path: Path
) -> None:
    session.close()
    before, place = path().read_bytes(), path()
    for folder in (tmp_path.parent.parent, tmp_path.parent, tmp_path, data, data / "jobs"):
        folder.chmod(0o755)
    place.chmod(0o644)

    def talk() -> list[str]:
        old, new = Session.open("Heron Street"), Session.start("Barn Lane")
        return [
            old.hear("a switch").said,
            old.hear("total").said,
            new.resume().said,
            new.hear("three 12-2 cables").said,
        ]

    first, second, started, said = as_nobody(talk)
    assert first.startswith(f"{data / 'jobs'} cannot be written to, so I cannot keep job Heron")
    assert "One switch." in first
    assert second.startswith("Not kept. ")
    assert started.startswith(f"{data / 'jobs'} cannot be written to, so I cannot keep job Barn")
    assert said.startswith("Not kept. ")
    assert "12-2" in said
    assert place.read_bytes() == before


def damaged_files(folder: Path) -> list[Path]:
    found = folder.glob("*.damaged-*")
    return sorted(path for path in found if not path.name.endswith(("-wal", "-shm", "-journal")))


def test_a_changed_row_is_seen_and_only_what_is_before_it_is_carried_over(
    session: Session, data: Path
) -> None:
    """A bit flipped in a statement leaves SQLite's own check content; the chain sees it."""
    session.hear("a switch")
    session.close()
    raw = path().read_bytes()
    assert raw.count(b'"heard":"18 cubic inches"') == 1
    broken = raw.replace(b'"heard":"18 cubic inches"', b'"heard":"28 cubic inches"')
    path().write_bytes(broken)
    again = Session.open("heron")
    said = again.resume().said
    (aside,) = damaged_files(data / "jobs")
    assert aside.read_bytes() == broken
    assert said.startswith(
        f"The file of job Heron Street was damaged. I set it aside as {aside}, "
        "and carried over 1 of its statements."
    )
    assert heard(again) == ["two 14-2 cables"]


@pytest.mark.parametrize("what", ["a page of noise", "noise from the start", "cut short", "empty"])
def test_a_damaged_file_is_set_aside_and_named_never_overwritten(
    what: str, session: Session, data: Path
) -> None:
    for number in range(40):
        session.hear(f"next box {number} east")
    session.close()
    raw = bytearray(path().read_bytes())
    noise = os.urandom(4096)
    match what:
        case "a page of noise":
            raw[8192:12288] = noise
        case "noise from the start":
            raw[:4096] = noise
        case "cut short":
            del raw[len(raw) // 2 :]
        case "empty":
            raw.clear()
    place = path()
    place.write_bytes(raw)
    again = Session.open("heron street")
    said = again.resume().said
    (aside,) = damaged_files(data / "jobs")
    assert aside.read_bytes() == bytes(raw)
    assert str(aside) in said
    again.hear("three 12-2 cables")
    assert again.kept
    again.close()
    assert "three 12-2 cables" in heard(Session.open())


def test_a_file_damaged_under_a_talk_is_written_anew_whole(session: Session, data: Path) -> None:
    """SQLite holds the pages in memory and does not look; the check at the end does."""
    session.close()
    session = Session.open("heron")
    session.hear("a switch")
    place = path()
    size = place.stat().st_size
    with place.open("r+b") as out:
        out.write(os.urandom(size))
    session.hear("no clamps")
    session.close()
    assert heard(Session.open()) == ["two 14-2 cables", "18 cubic inches", "a switch", "no clamps"]
    (aside,) = damaged_files(data / "jobs")
    assert aside.stat().st_size >= size


def test_a_file_held_by_another_program_is_waited_for_then_told(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    holder = sqlite3.connect(path(), isolation_level=None)
    holder.execute("BEGIN IMMEDIATE")
    session._keeper.file._connection.execute("PRAGMA busy_timeout = 50")  # type: ignore[union-attr]
    said = session.hear("a switch").said
    assert said.startswith(f"Another program is holding {path()}, so I cannot keep job")
    holder.execute("ROLLBACK")
    holder.close()
    assert session.hear("no clamps").said.startswith("Job Heron Street is kept again")
    assert session.kept


def test_a_new_file_never_takes_the_place_of_another(data: Path) -> None:
    file = data / "jobs" / "heron.boxaloud"
    file.parent.mkdir(parents=True)
    file.write_bytes(b"somebody's")
    with pytest.raises(FileExistsError):
        JobFile.create(file, About("Heron", "2023"))
    assert file.read_bytes() == b"somebody's"
    assert list(file.parent.iterdir()) == [file]


def test_a_job_that_is_not_there_is_said_in_a_sentence() -> None:
    with pytest.raises(Problem, match="There is no job yet"):
        Session.open()
    Session.start("Heron Street").close()
    with pytest.raises(Problem, match="There is no job called barn"):
        Session.open("barn")
