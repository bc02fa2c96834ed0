"""The README tells the truth: set-up lines of the promised shape, a talk that is what is said."""

from __future__ import annotations

import io
import re
import shlex
from collections.abc import Iterator
from glob import glob
from pathlib import Path

import pytest
from boxaloud.assistant.asr.ear_choice import EarChoice
from boxaloud.assistant.cli.commands import hear_command
from boxaloud.assistant.cli.main import app

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```(\w*)\n(.*?)^```$", README, flags=re.M | re.S)
TRANSCRIPTS = [
    (" ".join(text.split()[1:3]), text) for language, text in BLOCKS if language == "console"
]
"""Each command that the README shows with what it prints, and the whole block."""


def test_the_first_two_blocks_are_the_set_up_commands_of_one_line_each() -> None:
    for language, text in BLOCKS[:2]:
        assert language == "sh"
        assert len(text.splitlines()) == 1
        assert text.startswith("python3 -m venv .venv && .venv/bin/pip install")
    assert "boxaloud hear" in BLOCKS[0][1]
    assert "pytest" in BLOCKS[1][1]


def test_the_recordings_of_the_first_command_are_there() -> None:
    pattern = BLOCKS[0][1].split()[-1]
    assert list(Path(__file__).parents[2].glob(pattern))


def test_every_transcript_is_run() -> None:
    """A block of another kind, or of a command that nothing here runs, would be held by nobody."""
    assert {language for language, _ in BLOCKS} == {"sh", "console"}
    assert sorted(command for command, _ in TRANSCRIPTS) == sorted(
        ["boxaloud chat", "boxaloud check", "boxaloud hear"]
    )
    assert all(shown.count("$ ") == 1 for _, shown in TRANSCRIPTS)


@pytest.mark.parametrize(("command", "shown"), TRANSCRIPTS, ids=[c for c, _ in TRANSCRIPTS])
def test_a_transcript_is_what_is_printed(
    command: str,
    shown: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setenv("BOXALOUD_DATA", str(tmp_path))
    monkeypatch.chdir(ROOT)
    # the embedded ear, which the README's first command installs, whatever else is here
    monkeypatch.setattr(hear_command, "choice", lambda: EarChoice("pocketsphinx"))
    lines = shown.splitlines()
    words = list(_arguments(lines.pop(0)))
    if command == "boxaloud chat":
        lines = _said(lines, monkeypatch)
    status = app(words)
    assert capsys.readouterr().out.splitlines() == lines
    assert status == {"boxaloud check": 1}.get(command, 0)


def _arguments(line: str) -> Iterator[str]:
    """The words of a command line behind `$ boxaloud`, with what a shell makes of a star."""
    for word in shlex.split(line)[2:]:
        yield from sorted(glob(word)) if "*" in word else [word]


def _said(lines: list[str], monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What is printed of a chat; what the person types, every other line, goes in."""
    at = next(n for n, line in enumerate(lines) if line.startswith("Worksheet, NEC"))
    typed = "\n".join(lines[1:at:2]) + "\n"
    monkeypatch.setattr("sys.stdin", io.StringIO(typed))
    return [lines[0], *lines[2:at:2], *lines[at:]]


def test_the_figures_are_those_of_the_full_list() -> None:
    """What the README repeats of `tests/README.md` stands there in the same figures."""
    full = (ROOT / "tests" / "README.md").read_text(encoding="utf-8")
    short = README.partition("## Measured\n")[2].partition("\n## ")[0]
    rows = re.findall(r"^\| .* \| (.*) \|$", short, re.M)[2:]
    assert 8 <= len(rows) <= 10
    for figure in re.findall(r"\d[\d,.]*\d|\d+(?= %)", " ".join(rows)):
        assert re.search(rf"(?<![\d.,]){re.escape(figure)}(?!\d|[.,]\d)", full), figure
