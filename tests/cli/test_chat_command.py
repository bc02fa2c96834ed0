"""What the line mode prints: the worksheet where it is due, each caution once a session.

Two 14-2 and a switch come to 7 x 2.00 = 14.00 in3 and, with clamps inside, to 16.00: Table
314.16(B)(1), 314.16(B)(2), (4), (5).
"""

from __future__ import annotations

import operator
from collections.abc import Callable
from pathlib import Path

import pytest
from boxaloud.assistant import dialogue
from boxaloud.assistant.cli import main
from boxaloud.assistant.cli.exit_codes import guarded
from boxaloud.assistant.cli.worksheet_text import Showing
from boxaloud.assistant.dialogue import Reply

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


@pytest.mark.parametrize(
    ("box", "verdict"),
    [("30", "FITS, whatever is still open"), ("20", "OVER, whatever is still open"),
     ("25", "INCOMPLETE")],
)  # fmt: skip
def test_no_margin_stands_beside_a_total_that_is_still_open(
    box: str, verdict: str, chat: Printed
) -> None:
    """NEC 314.16(B)(1) and (5): 4 x 2.00, 3 x 2.25 and 2.25, 17.00; (B)(4): two yokes take 8.00 on
    the 14s or 9.00 on the 12s."""
    lines = chat(f"two 14-2s, a 12-3 and two switches, {box} cubic inches, no clamps")
    assert lines[-2:] == [
        f"  Total so far 17.00 of {box}.0 in³: {verdict}",
        "  Still open: between 25.00 and 26.00 in³",
    ]


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


@pytest.mark.usefixtures("faults_told")
@pytest.mark.parametrize("where", ["conversation.recognise", "box_dialogue.run"])
def test_a_fault_over_one_line_ends_no_chat(
    where: str, chat: Printed, monkeypatch: pytest.MonkeyPatch
) -> None:
    sound = operator.attrgetter(where)(dialogue)

    def faulty(*given: object) -> object:
        if given[1] != () and "poison" in str(getattr(given[0], "heard", given[0])):
            raise RecursionError("too deep")
        return sound(*given)

    monkeypatch.setattr(f"boxaloud.assistant.dialogue.{where}", faulty)
    lines = chat(*TALK[:1], "a poison switch", "a dimmer", *TALK[1:3])
    assert "fault of my own" in lines[1]
    # 4 conductors (1), two devices 4 (4), a ground (5), each 2.00: Table 314.16(B)(1)
    assert any("18.00 of 18.0" in line for line in lines)


def test_a_fault_around_one_line_ends_no_chat(
    chat: Printed, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    shown = Showing.shown

    def faulty(self: Showing, reply: Reply) -> tuple[str, list[str]]:
        if reply.heard.startswith("18"):
            raise ZeroDivisionError("by nothing")
        return shown(self, reply)

    monkeypatch.setattr(Showing, "shown", faulty)
    assert any("14.00 of 18.0, margin 4.00" in line for line in chat(*TALK[:3]))


def test_a_byte_that_is_no_letter_ends_no_chat(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    said = tmp_path / "said.txt"
    said.write_bytes(b"two 14-2 cables\n\xff\xfe\x80\na switch\n")
    with said.open() as stream:
        monkeypatch.setattr("sys.stdin", stream)
        assert guarded(lambda: main.app(["chat"])) == 0
    assert "14.00 so far" in capsys.readouterr().out
