"""A report asked for in a talk is a file, and the reply says where; a talk without a job says
what to do instead."""

from __future__ import annotations

import io
import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from boxaloud.assistant.cli.commands import chat_command
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.reports.report_delivery import delivered
from boxaloud.assistant.storage import Session
from boxaloud.assistant.text.problem import Problem

TOLD = "two 14-2s and a switch, 18 cubic inches, no clamps"


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder that the talk is begun in."""
    monkeypatch.setenv("BOXALOUD_DATA", str(tmp_path / "data"))
    here = tmp_path / "here"
    here.mkdir()
    monkeypatch.chdir(here)
    return here


@pytest.fixture
def session(place: Path) -> Iterator[Session]:
    begun = Session.start("Heron / Street")
    begun.hear(TOLD)
    yield begun
    begun.close()


def files(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_report_is_a_file_of_every_box_and_the_reply_says_where(
    session: Session, place: Path
) -> None:
    session.hear("next box den, three 12-2s and a receptacle, 18 cubic inches, no clamps")
    before = session.talk.state
    reply = delivered(session.hear("report as a web page"), session)
    assert files(place) == ["Heron - Street report.html"]
    assert reply.written == str(place / "Heron - Street report.html")
    assert reply.written in reply.said
    page = Path(reply.written).read_text(encoding="utf-8")
    assert page.count("<article") == 2
    assert session.talk.state == before


@pytest.mark.parametrize(
    ("said", "name", "begins"),
    [
        ("print it out", "Heron - Street report.pdf", b"%PDF-"),
        ("save the report", "Heron - Street report.pdf", b"%PDF-"),
        ("send a worksheet", "Heron - Street box 1 worksheet.pdf", b"%PDF-"),
        ("export it as a spreadsheet", "Heron - Street report.csv", b"row,job,"),
        ("report as json", "Heron - Street report.json", b"{"),
    ],
)
def test_each_form_that_is_asked_for(
    said: str, name: str, begins: bytes, session: Session, place: Path
) -> None:
    reply = delivered(session.hear(said), session)
    assert files(place) == [name]
    assert (place / name).read_bytes().startswith(begins)
    assert [act.act for act in reply.acts].count("report") == 1


def test_a_worksheet_is_of_the_box_at_hand_alone(session: Session, place: Path) -> None:
    session.hear("next box den, three 12-2s and a receptacle, 18 cubic inches, no clamps")
    reply = delivered(session.hear("send the worksheet as json"), session)
    boxes = json.loads(Path(reply.written).read_text(encoding="utf-8"))["boxes"]
    assert [box["name"] for box in boxes] == ["den"]


def test_no_file_is_written_over(session: Session, place: Path) -> None:
    (place / "Heron - Street report.pdf").write_text("mine")
    for _ in range(2):
        delivered(session.hear("report"), session)
    assert files(place) == [
        "Heron - Street report 2.pdf",
        "Heron - Street report 3.pdf",
        "Heron - Street report.pdf",
    ]
    assert (place / "Heron - Street report.pdf").read_text() == "mine"


def test_where_the_folder_takes_nothing_the_data_folder_does(
    session: Session, place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def gone() -> Path:
        raise FileNotFoundError

    monkeypatch.setattr(Path, "cwd", gone)
    reply = delivered(session.hear("report"), session)
    assert files(place) == []
    assert Path(reply.written).parent == place.parent / "data" / "reports"


def test_aloud_the_folder_and_the_name_are_enough(session: Session, place: Path) -> None:
    reply = delivered(session.hear("send the worksheet"), session)
    assert str(place) in reply.said
    assert str(place) not in reply.spoken
    assert "here" in reply.spoken


@pytest.mark.parametrize(
    "said", ["don't send the report", "should I print it", "what if I print it"]
)
def test_what_is_forbidden_asked_or_supposed_writes_nothing(
    said: str, session: Session, place: Path
) -> None:
    assert delivered(session.hear(said), session).written == ""
    assert files(place) == []


def test_a_job_that_cannot_be_read_ends_no_talk(
    session: Session, place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(_: Session) -> None:
        raise Problem("The disk is gone.")

    monkeypatch.setattr(Session, "pictures", property(broken))
    reply = delivered(session.hear("report"), session)
    assert "The disk is gone." in reply.said
    assert reply.written == ""
    assert files(place) == []


def test_of_nothing_no_report_is_written(place: Path) -> None:
    session = Session.start("empty")
    reply = delivered(session.hear("report"), session)
    session.close()
    assert reply.written == ""
    assert files(place) == []


def test_what_is_said_in_the_same_breath_is_in_the_report(session: Session, place: Path) -> None:
    reply = delivered(session.hear("add a dimmer and send the worksheet as json"), session)
    assert "dimmer" in Path(reply.written).read_text(encoding="utf-8")


def test_an_order_for_a_report_is_kept_and_writes_nothing_when_it_is_folded(
    session: Session, place: Path
) -> None:
    delivered(session.hear("report"), session)
    session.close()
    again = Session.open("Heron / Street")
    assert again.talk.journal[-1].heard == "report"
    again.close()
    assert len(files(place)) == 1


def test_a_talk_without_a_job_says_what_to_do() -> None:
    reply = Conversation().hear("report")
    assert next(act.act for act in reply.acts) == "report"
    assert "--job" in reply.said
    assert reply.written == ""


def test_in_line_mode_by_json(place: Path, capsys: pytest.CaptureFixture[str]) -> None:
    chat_command.run(io.StringIO(f"{TOLD}\nsend the worksheet\n"), "Heron", "", True)
    told, sent = map(json.loads, capsys.readouterr().out.splitlines())
    assert told["written"] is None
    assert sent["written"] == str(place / "Heron box 1 worksheet.pdf")
    assert sent["verdict"] == "fits"
    assert files(place) == ["Heron box 1 worksheet.pdf"]
