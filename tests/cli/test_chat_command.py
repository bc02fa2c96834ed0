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
    return [line for line in lines if "Caution: " in line]


STANDING = (
    "test for absence of voltage",
    "edition adopted where you work and its local amendments",
    "authority having jurisdiction and a licensed electrician",
)


def test_one_line_in_is_one_line_out(chat: Printed) -> None:
    lines = chat(*TALK, "what's the total")
    assert sheets(lines[: len(TALK) + 1]) == 0
    assert sheets(lines) == 1, "at the end"
    assert lines[len(TALK) + 1].startswith("Worksheet, NEC 314.16")


@pytest.mark.parametrize("words", ["read it back", "done", "I am done", "worksheet"])
def test_the_worksheet_comes_where_it_is_asked_for_and_not_again(words: str, chat: Printed) -> None:
    lines = chat(*TALK, words)
    assert sheets(lines) == 1
    assert lines.index("  Total 16.00 of 18.0 in³, margin 2.00: FITS") > len(TALK)


def test_nothing_comes_at_the_end_of_a_talk_about_nothing(chat: Printed) -> None:
    assert len(chat("hello")) == 1


def test_the_whole_cautions_come_in_the_line_of_the_first_verdict_and_never_again(
    chat: Printed,
) -> None:
    lines = chat(*TALK, "read it back", "next box", "a 14-2", "12 cubic inch box", "no clamps")
    (found,) = cautions(lines)
    assert lines.index(found) == 1, "with the first verdict"
    assert all(words in found for words in STANDING)
    assert not any("De-energise and test first" in line for line in lines), "said twice"


def test_a_box_that_is_not_finished_shows_no_cautions(chat: Printed) -> None:
    assert cautions(chat("two 14-2 cables and a switch")) == []


def test_a_resumed_job_is_a_session_of_its_own(chat: Printed) -> None:
    assert len(cautions(chat(*TALK, job="Heron"))) == 1
    assert len(cautions(chat("clamps outside", job="Heron"))) == 1


@pytest.mark.parametrize(
    ("said", "first"),
    [
        (TALK[:3], "FITS, margin 4.00 in³: 14.00 of 18.0 in³, NEC 314.16, edition 2023"),
        (
            TALK[:2],
            "FITS, margin at least 2.00 in³: at most 16.00 of 18.0 in³, NEC 314.16, edition",
        ),
        ((TALK[0], "10 cubic inch box"), "OVER by at least 4.00 in³: at least 14.00 of 10.0 in³"),
        (TALK[:1], "NOT YET: 14.00 in³ so far, the volume of the box is not known"),
    ],
)
def test_check_puts_verdict_and_margin_first_and_cautions_last(
    said: tuple[str, ...], first: str, capsys: pytest.CaptureFixture[str]
) -> None:
    guarded(lambda: main.app(["check", *said]))
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith(first)
    assert sheets(lines) == 1
    if "NOT YET" not in first:
        assert cautions(lines) == lines[-1:]
        assert all(words in lines[-1] for words in STANDING)


def test_check_shows_the_worksheet_once_however_often_it_is_asked_for(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert guarded(lambda: main.app(["check", *TALK[:3], "read it back", "thanks"])) == 0
    lines = capsys.readouterr().out.splitlines()
    assert sheets(lines) == 1
    assert lines[-2] == "  Total 14.00 of 18.0 in³, margin 4.00: FITS"
    assert cautions(lines) == lines[-1:]
