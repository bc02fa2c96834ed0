"""Whatever happens to the file, the talk goes on, says so, and nothing kept is lost."""

from __future__ import annotations

import os
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from boxaloud.assistant.storage import Session, repository
from boxaloud.assistant.storage.sqlite import journal_file
from boxaloud.assistant.storage.sqlite.journal_file import About, JobFile
from boxaloud.assistant.storage.sqlite.migration import latest, migrate
from boxaloud.assistant.storage.sqlite.storage_errors import TooNew
from boxaloud.assistant.text.problem import Problem
from nobody import as_nobody

ROOT = Path(__file__).parents[2]


@pytest.fixture
def session() -> Session:
    session = Session.start("Heron Street")
    session.hear("two 14-2 cables")
    session.hear("18 cubic inches")
    return session


def path() -> Path:
    return repository.find("heron street").path


def heard(session: Session) -> list[str]:
    return [entry.heard for entry in session.talk.journal]


def rows_on_disk(file: Path) -> int:
    connection = sqlite3.connect(f"{file.as_uri()}?mode=ro", uri=True)
    count = connection.execute("SELECT count(*) FROM journal").fetchone()[0]
    connection.close()
    assert isinstance(count, int)
    return count


# -- the folder ------------------------------------------------------------------------------


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


# -- a full disk -----------------------------------------------------------------------------

FULL = """
import resource, sys
from boxaloud.assistant.storage import Session
session = Session.start("Heron Street")
kept = 0
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[1]), resource.RLIM_INFINITY))
for number in range(200):
    reply = session.hear(f"{number % 9 + 1} 14-2 cables")
    if not session.kept:
        break
    kept += 1
print(reply.said)
resource.setrlimit(resource.RLIMIT_FSIZE, (4096, resource.RLIM_INFINITY))
print(session.hear("a switch").said)
resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
print(session.hear("total").said)
print(kept, len(session.talk.journal))
"""


def test_on_a_full_disk_the_talk_goes_on_and_is_kept_when_there_is_room(data: Path) -> None:
    size = 250_000
    done = subprocess.run(
        [sys.executable, "-c", FULL, str(size)],
        cwd=ROOT, capture_output=True, text=True, env={**os.environ, "BOXALOUD_DATA": str(data)},
    )  # fmt: skip
    assert done.stderr == ""
    first, second, third, counts = done.stdout.splitlines()
    assert "so I cannot keep job Heron Street any more." in first
    assert "cables of 14-2" in first
    assert second.startswith("Not kept. ")
    assert third.startswith("Job Heron Street is kept again")
    kept, total = map(int, counts.split())
    assert kept > 10
    assert total == kept + 3
    assert len(heard(Session.open())) == total


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    disk = tmp_path / "disk"
    disk.mkdir()
    if (
        shutil.which("mount") is None
        or subprocess.run(
            ["mount", "-t", "tmpfs", "-o", "size=600k", "none", str(disk)], capture_output=True
        ).returncode
    ):
        pytest.skip("may not mount a small disk here")
    yield disk
    subprocess.run(["umount", "-l", str(disk)], check=True)


def test_a_disk_that_fills_up_says_so_and_keeps_what_it_acknowledged(
    small_disk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("BOXALOUD_DATA", str(small_disk / "data"))
    session = Session.start("Heron Street")
    kept = 0
    while session.kept and kept < 400:
        said = session.hear(f"{kept % 9 + 1} 14-2 cables").said
        kept += session.kept
    assert said.startswith("The disk is full, so I cannot keep job Heron Street any more.")
    assert rows_on_disk(path()) == kept
    assert 10 < kept < 400
    session._keeper.file.close()  # type: ignore[union-attr]
    assert len(heard(Session.open())) == kept


def test_a_job_started_on_a_full_disk_is_said_not_to_be_kept(
    small_disk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("BOXALOUD_DATA", str(small_disk / "data"))
    (small_disk / "filler").write_bytes(b"x" * 590 * 1024)
    session = Session.start("Heron Street")
    assert not session.kept
    assert session.resume().said.startswith(
        "The disk is full, so I cannot keep job Heron Street. I go on in memory"
    )
    reply = session.hear("two 14-2 cables")
    assert reply.said.startswith("Not kept. ")
    assert str(reply.sheet.total) == "10.00"  # four conductors and the grounds, 2.00 each
    (small_disk / "filler").unlink()
    session.hear("18 cubic inches")
    assert session.kept
    session.close()
    assert heard(Session.open()) == ["two 14-2 cables", "18 cubic inches"]


# -- damage ----------------------------------------------------------------------------------


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


# -- versions --------------------------------------------------------------------------------


def test_a_file_of_a_later_version_is_refused_and_untouched(session: Session) -> None:
    session.close()
    connection = sqlite3.connect(path())
    for version in range(latest() + 1, 100):
        connection.execute(f"INSERT INTO schema_version VALUES ({version}, '2031-01-01T00:00:00Z')")
    connection.commit()
    connection.close()
    before = path().read_bytes()
    with pytest.raises(TooNew, match=f"form 99; this one reads up to {latest()}.*untouched"):
        Session.open("heron street")
    assert path().read_bytes() == before
    assert not list(path().parent.glob("*.damaged-*"))


def put_earlier_version_in_place(place: Path, version: int) -> None:
    old = place.with_name("old")
    connection = sqlite3.connect(old, isolation_level=None)
    migrate(connection, "2026-01-01T00:00:00Z", upto=version)
    connection.execute("ATTACH ? AS new", (str(place),))
    connection.execute("INSERT INTO about SELECT * FROM new.about WHERE key <> 'check'")
    connection.execute("INSERT INTO journal SELECT * FROM new.journal")
    connection.close()
    os.replace(old, place)


def test_a_file_is_sound_wherever_its_bringing_up_was_stopped(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file of form 3 without a check over what it says would be taken for a damaged one."""
    session.close()
    put_earlier_version_in_place(path(), 2)

    def stop(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as stopped:
        stopped.setattr(journal_file, "write_about", stop)
        with pytest.raises(KeyboardInterrupt):
            Session.open("heron street")
    again = Session.open("heron street")
    assert again.take_notes() == ()
    assert heard(again) == ["two 14-2 cables", "18 cubic inches"]
    assert not list(path().parent.glob("*.damaged-*"))


@pytest.mark.parametrize("version", range(1, latest()))
def test_a_file_of_an_earlier_version_is_brought_up_with_all_it_has(
    session: Session, version: int
) -> None:
    session.close()
    put_earlier_version_in_place(path(), version)
    again = Session.open("heron street")
    assert heard(again) == ["two 14-2 cables", "18 cubic inches"]
    again.hear("a switch")
    assert again.kept


def test_the_journal_cannot_be_changed_or_shortened(session: Session) -> None:
    session.close()
    connection = sqlite3.connect(path())
    for change in ("UPDATE journal SET entry = ''", "DELETE FROM journal"):
        with pytest.raises(sqlite3.IntegrityError, match="append-only"):
            connection.execute(change)
    connection.close()


# -- other programs --------------------------------------------------------------------------


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
