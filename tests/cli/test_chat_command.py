"""What the line mode prints: the worksheet where it is due, each caution once a session.

Two 14-2 and a switch come to 7 x 2.00 = 14.00 in3 and, with clamps inside, to 16.00: Table
314.16(B)(1), 314.16(B)(2), (4), (5).
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from boxaloud.assistant.cli import main
from boxaloud.assistant.cli.exit_codes import guarded

TALK = ("two 14-2 cables and a switch", "18 cubic inch box", "no clamps", "clamps inside")
Printed = Callable[..., list[str]]


@pytest.fixture
def chat(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> Printed:
    """The lines that `boxaloud chat` prints, its greeting left out."""
    monkeypatch.setenv("BOXALOUD_DATA", str(tmp_path))

    def printed(*lines: str, job: str = "") -> list[str]:
        said = tmp_path / "said.txt"
        said.write_text("".join(f"{line}\n" for line in lines))
        with said.open() as stream:
            monkeypatch.setattr("sys.stdin", stream)
            assert guarded(lambda: main.app(["chat", *(["--job", job] if job else [])])) == 0
        return capsys.readouterr().out.splitlines()[1:]

    return printed


def sheets(lines: list[str]) -> int:
    return sum(line.startswith("Worksheet, NEC 314.16") for line in lines)


def cautions(lines: list[str]) -> list[str]:
    return [line for line in lines if line.startswith("  Caution: ")]


def test_no_worksheet_comes_after_each_line(chat: Printed) -> None:
    assert sheets(chat(*TALK)) == 0


@pytest.mark.parametrize("words", ["read it back", "done", "I am done"])
def test_the_worksheet_comes_on_read_back_and_when_done(words: str, chat: Printed) -> None:
    lines = chat(*TALK, words)
    assert sheets(lines) == 1
    assert lines.index("  Total 16.00 of 18.0 in³, margin 2.00: FITS") > len(TALK)


def test_the_whole_cautions_come_with_the_first_verdict_and_never_again(chat: Printed) -> None:
    lines = chat(*TALK, "read it back", "next box", "a 14-2", "12 cubic inch box", "no clamps")
    found = cautions(lines)
    assert len(found) >= 3
    assert len(set(found)) == len(found)
    first = lines.index(found[0])
    assert "18.0" in lines[first - 1], "right under the first verdict"
    assert lines[first : first + len(found)] == found
    assert not any("De-energise and test first" in line for line in lines), "said twice"


def test_a_box_that_is_not_finished_shows_no_cautions(chat: Printed) -> None:
    assert cautions(chat("two 14-2 cables and a switch")) == []


def test_a_resumed_job_is_a_session_of_its_own(chat: Printed) -> None:
    assert len(cautions(chat(*TALK, job="Heron"))) >= 3
    assert len(cautions(chat("clamps outside", job="Heron"))) >= 3


def test_check_shows_the_worksheet_once_at_its_end(capsys: pytest.CaptureFixture[str]) -> None:
    assert guarded(lambda: main.app(["check", *TALK[:3], "read it back", "thanks"])) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[-1] == "  Total 14.00 of 18.0 in³, margin 4.00: FITS"
    assert sheets(lines[lines.index("> read it back") :]) == 2
    assert sheets(lines[: lines.index("> read it back")]) == 0
    assert len(set(cautions(lines))) == len(cautions(lines)) >= 3
