"""Whatever lies in the folder of the jobs, every job in it is found, opened and listed."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from boxaloud.assistant.cli.commands import job_command
from boxaloud.assistant.storage import Session, repository
from boxaloud.assistant.storage.data_folders import SUFFIX
from boxaloud.assistant.storage.sqlite.write_ahead_log import log_of
from boxaloud.assistant.text.problem import Problem
from nobody import as_nobody


@pytest.fixture
def jobs(data: Path) -> Path:
    session = Session.start("Heron Street")
    session.hear("two 14-2 cables")
    session.close()
    return data / "jobs"


def a_folder(path: Path) -> None:
    path.mkdir()


def a_pipe(path: Path) -> None:
    os.mkfifo(path)


def a_link_to_nothing(path: Path) -> None:
    path.symlink_to("nowhere")


def a_link_to_itself(path: Path) -> None:
    path.symlink_to(path.name)


def an_endless_device(path: Path) -> None:
    path.symlink_to("/dev/zero")


def an_empty_file(path: Path) -> None:
    path.touch()


def words(path: Path) -> None:
    path.write_text("not a job\n" * 900)


def another_program(path: Path) -> None:
    with sqlite3.connect(path) as connection:
        connection.execute("CREATE TABLE about (key TEXT, value BLOB)")
        connection.execute("INSERT INTO about VALUES ('name', x'ff'), ('edition', 7)")
    connection.close()


def without_a_name(path: Path) -> None:
    Session.start("barn").close()
    found = repository.find("barn").path
    found.rename(path)
    with sqlite3.connect(path) as connection:
        connection.execute("DELETE FROM about WHERE key = 'name'")
    connection.close()


ODD = [
    a_folder, a_pipe, a_link_to_nothing, a_link_to_itself, an_endless_device, an_empty_file,
    words, another_program, without_a_name,
]  # fmt: skip


@pytest.mark.parametrize("name", ["odd", ""])
@pytest.mark.parametrize("make", ODD, ids=lambda make: make.__name__)
def test_an_odd_entry_stops_no_command_and_is_named(
    make: object, name: str, jobs: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    make(jobs / f"{name}{SUFFIX}")  # type: ignore[operator]
    assert Session.open_or_start("Heron Street").talk.journal
    Session.start("Barn Lane").close()
    assert job_command.listed() == 0
    out, err = capsys.readouterr()
    assert "Heron Street: 1 box" in out
    assert "Barn Lane" in out
    named = name or SUFFIX
    assert named in out + err
    job_command.rename("heron", "Egret Street")
    assert Session.open("egret").talk.journal


def test_a_job_is_never_begun_in_silence_beside_a_file_of_its_name_that_cannot_be_read(
    jobs: Path,
) -> None:
    a_folder(jobs / f"mill-lane{SUFFIX}")
    session = Session.open_or_start("Mill Lane")
    assert f"mill-lane{SUFFIX}" in session.resume().said
    assert session.kept


@pytest.mark.skipif(os.name != "posix" or os.geteuid() != 0, reason="needs to become another user")
def test_a_file_that_may_not_be_read_is_named(jobs: Path, tmp_path: Path) -> None:
    secret = jobs / f"secret{SUFFIX}"
    Session.start("secret").close()
    secret.chmod(0)
    for folder in (tmp_path.parent.parent, tmp_path.parent, tmp_path, jobs.parent, jobs):
        folder.chmod(0o755)
    (jobs / f"heron-street{SUFFIX}").chmod(0o644)

    def looked() -> list[str]:
        known = [place.name for place in repository.places()]
        return [*known, *(str(odd) for odd in repository.odd_entries())]

    found = as_nobody(looked)
    assert found[0] == "Heron Street"
    assert len(found) == 2
    assert secret.name in found[1]


def test_two_jobs_of_one_name_are_both_in_reach(jobs: Path) -> None:
    """Such pairs were left behind by processes that began one job at once."""
    Session.start("Barn Lane").close()
    other = repository.find("barn")
    repository.rename(other, "Heron Street 9")
    session = Session.open("Heron Street 9")
    assert session._keeper.file is not None
    session._keeper.file.tell({"name": "Heron Street"})
    session.close()
    with pytest.raises(Problem, match=r"(heron-street|barn-lane)\.boxaloud, "):
        Session.open("Heron Street")
    assert Session.open("heron-street.boxaloud").talk.journal
    assert not Session.open("barn-lane.boxaloud").talk.journal
    repository.rename(repository.find("barn-lane.boxaloud"), "Barn Lane")
    assert Session.open("Heron Street").talk.journal


RACE = """
import os, sys
from boxaloud.assistant.storage import Session
start = open(sys.argv[1])
sys.stdout.write("ready\\n"); sys.stdout.flush()
sys.stdin.readline()
session = Session.open_or_start("Mill Lane")
for number in range(int(sys.argv[3])):
    session.hear(f"next box {sys.argv[2]} {number}")
assert session.kept
session.close()
"""


@pytest.mark.parametrize("writers", [2, 4])
def test_several_that_begin_one_job_at_once_are_in_one_file(writers: int, data: Path) -> None:
    for _ in range(int(os.environ.get("BOXALOUD_RACES", "3"))):
        talks = [
            subprocess.Popen(
                [sys.executable, "-c", RACE, os.devnull, name, "3"],
                stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
            )
            for name in ("north", "south", "east", "west")[:writers]
        ]  # fmt: skip
        for talk in talks:
            assert talk.stdout is not None
            assert talk.stdout.readline() == "ready\n"
        for talk in talks:
            assert talk.stdin is not None
            talk.stdin.write("go\n")
            talk.stdin.flush()
        for talk in talks:
            talk.communicate()
            assert talk.returncode == 0
        assert len(list((data / "jobs").glob(f"*{SUFFIX}"))) == 1
        session = Session.open("Mill Lane")
        assert len(session.conversation.boxes.names) >= 3 * writers
        session.close()
        repository.remove(repository.find("Mill Lane"))
        for path in (data / "removed").iterdir():
            path.unlink()


BESIDE = """
import sys
from boxaloud.assistant.storage import Session
session = Session.open("Mill Lane")
session.hear("a switch")
session.close()
"""


def test_a_second_talk_of_one_process_takes_no_lock_from_the_first(data: Path) -> None:
    """On POSIX a file closed by one part of a process loses the locks of all its parts; another
    process would then take the log away under the first talk."""
    first = Session.start("Mill Lane")
    first.hear("two 14-2 cables")
    second = Session.open("Mill Lane")
    subprocess.run([sys.executable, "-c", BESIDE], check=True)
    assert log_of(repository.find("mill").path).exists()
    first.hear("no clamps")
    second.close()
    first.close()
    heard = [entry.heard for entry in Session.open("Mill Lane").talk.journal]
    assert heard == ["two 14-2 cables", "a switch", "no clamps"]
