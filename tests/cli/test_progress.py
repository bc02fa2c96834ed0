"""Waiting is told on a terminal, in plain characters, and nowhere else."""

from __future__ import annotations

import os
import pty
import select
import subprocess
import sys
from pathlib import Path

import pytest
from boxaloud.assistant.asr.asr_messages import say
from boxaloud.assistant.text.progress import bar

RUN = "from boxaloud.assistant.cli.start import main; main()"
BOX = "den,18,2 x 14-2,switch,none\n"
HEAD = "name,volume,cables,devices,clamps\n"


@pytest.mark.parametrize(
    ("done", "size", "percent"),
    [(0, 10, "0 %"), (5, 10, "50 %"), (10, 10, "100 %"), (11, 10, "100 %"), (0, 0, "100 %")],
)
def test_the_bar_tells_how_much_is_worked_through(done: int, size: int, percent: str) -> None:
    drawn = bar("boxes.csv", done, size)
    assert drawn.startswith("boxes.csv  [")
    assert drawn.endswith(f"  {percent}")
    assert len(drawn.split("[")[1].split("]")[0]) == 36
    assert drawn.count("#") == int(percent[:-2]) * 36 // 100


def on_a_terminal(folder: Path, *args: str, out: bool) -> str:
    """What a terminal gets on standard error, and on standard output too where `out`."""
    ours, theirs = pty.openpty()
    environment = {**os.environ, "BOXALOUD_DATA": str(folder / "data"), "NO_COLOR": "1"}
    process = subprocess.Popen(
        [sys.executable, "-c", RUN, *args],
        stdin=subprocess.DEVNULL,
        stdout=theirs if out else subprocess.DEVNULL,
        stderr=theirs,
        cwd=folder,
        env=environment,
    )
    os.close(theirs)
    seen = b""
    while select.select([ours], [], [], 60)[0]:
        try:
            piece = os.read(ours, 4096)
        except OSError:  # the other end is closed
            break
        if not piece:
            break
        seen += piece
    process.wait(60)
    os.close(ours)
    return seen.decode()


@pytest.fixture
def rows(tmp_path: Path) -> Path:
    (tmp_path / "boxes.csv").write_text(HEAD + BOX * 400)
    return tmp_path


@pytest.mark.parametrize("out", [True, False])
def test_batch_into_a_file_shows_a_bar(out: bool, rows: Path) -> None:
    seen = on_a_terminal(rows, "batch", "boxes.csv", "-o", "results.csv", out=out)
    assert "boxes.csv  [" in seen
    assert f"[{'#' * 36}]  100 %" in seen
    assert "\x1b" not in seen


def test_batch_onto_the_terminal_shows_none(rows: Path) -> None:
    seen = on_a_terminal(rows, "batch", "boxes.csv", out=True)
    assert "den" in seen
    assert "%" not in seen


@pytest.mark.parametrize("form", ["html", "pdf", "csv"])
def test_a_report_shows_a_bar(form: str, tmp_path: Path) -> None:
    on_a_terminal(tmp_path, "demo", out=True)
    seen = on_a_terminal(tmp_path, "report", "Quillback", "-o", f"r.{form}", out=True)
    assert f"r.{form}  [" in seen
    assert "] 50 %" in seen or form != "html" or "  50 %" in seen
    assert f"[{'#' * 36}]  100 %" in seen
    assert "\x1b" not in seen


def test_hear_says_that_the_ear_is_prepared_and_how_far_it_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    sound = next((Path(__file__).parents[2] / "audio_fixtures" / "demo").glob("*.wav"))
    first = on_a_terminal(tmp_path, "hear", str(sound), out=True)
    assert say("in_use.preparing") in first
    assert "recordings  [" in first
    again = on_a_terminal(tmp_path, "hear", str(sound), out=True)
    assert say("in_use.preparing") not in again


def test_where_there_is_no_terminal_nothing_is_shown(rows: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-c", RUN, "batch", "boxes.csv", "-o", "results.csv"],
        cwd=rows, capture_output=True, text=True, timeout=60,
    )  # fmt: skip
    assert "%" not in done.stderr
    assert "\r" not in done.stderr
