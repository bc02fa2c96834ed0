"""`job check` and `job backup`: what is sound, what is lost by its words, and all of it saved."""

from __future__ import annotations

import contextlib
import os
import shutil
import zipfile
from dataclasses import replace
from pathlib import Path

import pytest
from boxaloud.assistant.cli.commands import job_command
from boxaloud.assistant.storage import Session, repository
from boxaloud.assistant.storage.project_details import ProjectDetails
from boxaloud.assistant.storage.sqlite.journal_file import JobFile
from boxaloud.assistant.storage.sqlite.journal_rows import Row, check_of
from boxaloud.assistant.text.problem import Problem


@pytest.fixture
def jobs(data: Path) -> Path:
    for name in ("Heron", "Egret"):
        session = Session.start(name)
        for words in ("two 14-2 cables", "18 cubic inches", f"a switch in {name.lower()}"):
            session.hear(words)
        session.close()
    return data / "jobs"


def break_one(jobs: Path) -> None:
    path = jobs / "heron.boxaloud"
    path.write_bytes(path.read_bytes().replace(b'"heard":"18 cubic', b'"heard":"19 cubic'))


def checked(capsys: pytest.CaptureFixture[str], name: str = "") -> tuple[int, str, str]:
    capsys.readouterr()
    status = job_command.check(name)
    return status, *capsys.readouterr()


def test_sound_jobs_are_said_to_be_so(jobs: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, out, err = checked(capsys)
    assert status == 0
    assert "Heron: sound, 3 statements" in out
    assert "Egret: sound, 3 statements" in out
    assert err == ""
    assert checked(capsys, "heron")[0] == 0


def test_a_damaged_job_is_mended_and_its_loss_told_each_time(
    jobs: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    break_one(jobs)
    status, out, err = checked(capsys)
    assert status == 3
    assert "Egret: sound" in out
    assert "carried over 1 of its statements" in err
    assert "“a switch in heron”" in err
    status, out, err = checked(capsys)
    assert status == 3
    assert "Heron: sound, 1 statement." in out
    assert "set aside as damaged: 1 statement of it" in err
    assert "“a switch in heron”" in err
    session = Session.open("heron")
    session.hear("19 cubic inches")
    session.hear("a switch in heron")
    session.close()
    assert checked(capsys)[0] == 0


def test_what_was_told_of_the_project_is_carried_over_from_a_damaged_file(jobs: Path) -> None:
    repository.describe(repository.find("heron"), ProjectDetails(permit="B-1042"))
    break_one(jobs)
    assert repository.project_of(repository.find("heron")).permit == "B-1042"


def test_a_row_that_cannot_be_read_is_told_by_its_place(
    jobs: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with contextlib.closing(JobFile.open(jobs / "heron.boxaloud")) as file:
        mark = file.mark()
        bare = Row(mark.position + 1, "2026-01-02T00:00:00Z", "entry", "hall", "", "", "{}", 0)
        file.append([replace(bare, check=check_of(bare, mark.check))], mark)
    status, _, err = checked(capsys)
    assert status == 3
    assert "Heron: row 4, of box hall, said 2026-01-02" in err


def test_odd_entries_are_told(jobs: Path, capsys: pytest.CaptureFixture[str]) -> None:
    os.mkfifo(jobs / "pipe.boxaloud")
    status, out, err = checked(capsys)
    assert status == 3
    assert "pipe.boxaloud" in err
    assert "Heron: sound" in out


def test_a_backup_brings_everything_back(jobs: Path, data: Path, tmp_path: Path) -> None:
    repository.remove(repository.find("egret"))
    repository.describe(repository.find("heron"), ProjectDetails(permit="B-1042"))
    talk = Session.open("Heron")
    talk.hear("no clamps")  # in the log only: the job is open
    (data / "own_words.toml").write_text('"blue" = "18 cubic inches"\n')
    archive = tmp_path / "all.zip"
    assert job_command.back_up(archive) == 0
    talk.close()
    shutil.rmtree(data)
    with zipfile.ZipFile(archive) as packed:
        packed.extractall(data)
    again = Session.open("Heron")
    assert [entry.heard for entry in again.talk.journal][-1] == "no clamps"
    again.close()
    assert repository.project_of(repository.find("heron")).permit == "B-1042"
    assert repository.restore("egret") == "Egret"
    assert (data / "own_words.toml").exists()


def test_what_is_damaged_is_backed_up_as_it_lies_and_told(
    jobs: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    break_one(jobs)
    before = (jobs / "heron.boxaloud").read_bytes()
    assert job_command.back_up(tmp_path / "all.zip") == 0
    out, err = capsys.readouterr()
    assert "heron.boxaloud cannot be opened" in err
    assert "1 job," in out
    with zipfile.ZipFile(tmp_path / "all.zip") as packed:
        assert packed.read("jobs/heron.boxaloud") == before
    assert (jobs / "heron.boxaloud").read_bytes() == before


def test_a_backup_is_an_archive_by_its_name(jobs: Path, tmp_path: Path) -> None:
    with pytest.raises(Problem, match="does not end with"):
        job_command.back_up(tmp_path / "all.tar")
