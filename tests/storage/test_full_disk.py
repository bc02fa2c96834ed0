"""A disk that is full, or fills up: the talk goes on, says so, and nothing kept is lost."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from boxaloud.assistant.storage import Session
from kept_rows import heard, path, rows_on_disk

ROOT = Path(__file__).parents[2]
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
