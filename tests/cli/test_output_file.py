"""`-o`: written whole or not at all, through links, and never in place of what is no file."""

from __future__ import annotations

import os
import stat
import sys
from pathlib import Path

import pytest
from boxaloud.assistant.text.output_file import output
from boxaloud.assistant.text.problem import Problem


def write(path: Path, text: str = "new") -> None:
    with output(path) as draft:
        draft.write_text(text)


def left_over(folder: Path) -> list[str]:
    return [each.name for each in folder.iterdir() if each.name.startswith(".")]


def test_a_new_file_has_the_mode_that_the_system_gives(tmp_path: Path) -> None:
    before = os.umask(0o027)
    try:
        write(tmp_path / "new.html")
    finally:
        os.umask(before)
    assert stat.S_IMODE((tmp_path / "new.html").stat().st_mode) == 0o640
    assert left_over(tmp_path) == []


@pytest.mark.parametrize("mode", [0o600, 0o664, 0o640])
def test_the_mode_of_a_file_stays(mode: int, tmp_path: Path) -> None:
    path = tmp_path / "old.html"
    path.write_text("old")
    path.chmod(mode)
    write(path)
    assert path.read_text() == "new"
    assert stat.S_IMODE(path.stat().st_mode) == mode


def test_a_link_stays_and_what_it_leads_to_is_written(tmp_path: Path) -> None:
    (tmp_path / "far").mkdir()
    target, first, second = tmp_path / "far" / "real.html", tmp_path / "1", tmp_path / "2"
    target.write_text("old")
    first.symlink_to(target)
    second.symlink_to(first.name)
    write(second)
    assert second.is_symlink()
    assert first.is_symlink()
    assert target.read_text() == "new"
    assert left_over(target.parent) == left_over(tmp_path) == []


def test_a_link_to_nothing_makes_the_file_it_leads_to(tmp_path: Path) -> None:
    link = tmp_path / "link.html"
    link.symlink_to("real.html")
    write(link)
    assert link.is_symlink()
    assert (tmp_path / "real.html").read_text() == "new"


def test_two_names_of_one_file_stay_so(tmp_path: Path) -> None:
    one, two = tmp_path / "1.html", tmp_path / "2.html"
    one.write_text("a much longer text than the new one")
    os.link(one, two)
    write(one)
    assert two.read_text() == "new"
    assert one.samefile(two)


def test_what_is_no_file_is_refused_and_left_as_it_is(tmp_path: Path) -> None:
    pipe, folder, link = tmp_path / "pipe", tmp_path / "folder", tmp_path / "device"
    os.mkfifo(pipe)
    folder.mkdir()
    link.symlink_to("/dev/null")
    loop = tmp_path / "loop"
    loop.symlink_to("loop")
    for path in (pipe, folder, link, loop, Path("/dev/null"), Path("/dev/full")):
        before = path.lstat()
        with pytest.raises(Problem, match="name a file"):
            write(path)
        assert path.lstat().st_mode == before.st_mode
        assert path.lstat().st_ino == before.st_ino
    assert left_over(tmp_path) == []


@pytest.mark.parametrize("name", ["x" * 5000, "x" * 251 + ".csv", "no/such/folder.csv", "a\udcff"])
def test_a_path_that_cannot_be_is_told_or_written(name: str, tmp_path: Path) -> None:
    path = tmp_path / name
    told = ""
    try:
        write(path)
    except Problem as problem:
        told = str(problem)
    if told:
        assert "cannot be written" in told
        assert "\n" not in told
        assert len(told) < 700
    else:
        assert path.read_text() == "new"
    assert left_over(tmp_path) == []


def test_a_fault_in_the_middle_leaves_the_old_file(tmp_path: Path) -> None:
    path = tmp_path / "old.html"
    path.write_text("old")

    def fail() -> None:
        with output(path) as draft:
            draft.write_text("half")
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        fail()
    assert path.read_text() == "old"
    assert left_over(tmp_path) == []


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="needs a device that is full")
def test_a_folder_that_takes_no_more_is_told(tmp_path: Path) -> None:
    with pytest.raises(Problem, match="cannot be written"):
        write(Path("/proc/new.csv"))
