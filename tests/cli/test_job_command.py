"""The commands about jobs, as typed."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from boxaloud.assistant.cli import main
from boxaloud.assistant.cli.exit_codes import guarded
from boxaloud.assistant.storage import Session, repository
from boxaloud.assistant.storage.sqlite.journal_file import JobFile


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    """Exit status, standard output, standard error of `boxaloud WORDS`."""
    status = guarded(lambda: main.app(list(words)))
    told = capsys.readouterr()
    return status, told.out, told.err


def test_a_job_is_started_listed_shown_renamed_copied_removed_and_brought_back(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run(capsys, "job", "list")[1] == "No job is kept yet.\n"
    assert run(capsys, "job", "start", "Heron Street", "--edition", "2020")[0] == 0
    session = Session.open()
    # BF01, DIY Chatroom thread 102858: 18.00 with no clamps, exactly full
    for words in ("18 cubic inch box", "three 14-2 cables", "a receptacle", "no clamps"):
        session.hear(words)
    session.close()
    assert run(capsys, "job", "list")[1] == (
        "Heron Street: 1 box, 1 fit, 0 over, 0 not finished. Edition 2020.\n"
    )
    shown = run(capsys, "job", "show", "heron")[1]
    assert "box 1: fits, total 18.00 of 18.0 in³, margin 0.00, edition 2020" in shown
    assert run(capsys, "job", "rename", "heron", "Barn Lane")[0] == 0
    assert run(capsys, "job", "copy", "barn", "Mill Lane")[0] == 0
    assert {place.name for place in repository.places()} == {"Barn Lane", "Mill Lane"}
    assert run(capsys, "job", "remove", "mill")[0] == 0
    assert [place.name for place in repository.places()] == ["Barn Lane"]
    assert "can be restored: Mill Lane" in run(capsys, "job", "list")[1]
    assert run(capsys, "job", "restore", "mill lane")[0] == 0
    assert "18.00 of 18.0" in run(capsys, "job", "show", "mill")[1]


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("job", "show", "nowhere"), "There is no job called nowhere."),
        (("job", "show"), "There is no job yet."),
        (("job", "start", "  "), "A job needs a name."),
        (("job", "start", "Heron", "--edition", "1999"), "The 1999 edition is not held"),
        (("job", "start", "Heron", "--units", "litres"), "in in3 or cm3, not in “litres”"),
        (("job", "restore", "nowhere"), "No removed job is called nowhere."),
        (("report", "nowhere", "-o", "x.html"), "There is no job called nowhere."),
        (("report", "nowhere", "-o", "x.doc"), "end it with .html, .pdf, .csv or .json"),
        (("share", "hall"), "There is no job yet."),
        (("batch", "nowhere.csv"), "nowhere.csv cannot be read"),
        (("schema", "nothing"), "There is no schema"),
    ],
)
def test_what_cannot_be_done_is_said_in_a_sentence(
    words: tuple[str, ...], why: str, capsys: pytest.CaptureFixture[str]
) -> None:
    status, out, err = run(capsys, *words)
    assert (status, out) == (2, "")
    assert why in err
    assert "fault of its own" not in err


def test_a_project_is_told_shown_and_reported(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    run(capsys, "job", "start", "Heron")
    assert "Nothing is told" in run(capsys, "job", "about", "heron")[1]
    words = ("--site", "Plot 7", "--permit", "E-2041", "--license", "J-118", "--prepared-by", "Ada")
    told = run(capsys, "job", "about", "heron", *words, "--date", "2026-11-20")
    assert told[0] == 0
    assert told[1].splitlines()[1:] == [
        "  Site: Plot 7", "  Permit: E-2041", "  Prepared by: Ada", "  Licence: J-118",
        "  Date: 2026-11-20",
    ]  # fmt: skip
    assert "Permit" not in run(capsys, "job", "about", "--permit", "")[1]
    status, _, err = run(capsys, "job", "about", "--date", "20/11/2026")
    assert (status, err) == (2, "20/11/2026 is no day written as YYYY-MM-DD.\n")
    session = Session.open()
    session.hear("two 14-2 cables")
    session.close()
    assert "Site: Plot 7" in run(capsys, "share")[1]
    page = tmp_path / "heron.html"
    run(capsys, "report", "heron", "-o", str(page))
    assert "<dd>Plot 7</dd>" in page.read_text("utf-8")


def test_a_name_that_is_taken_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    run(capsys, "job", "start", "Heron")
    assert "already is a job called HERON" in run(capsys, "job", "start", "HERON")[2]
    run(capsys, "job", "start", "Heron Two")
    assert "There already is" in run(capsys, "job", "rename", "heron two", "heron")[2]
    assert "Say more of the name" in run(capsys, "job", "show", "her")[2]


def test_a_job_that_is_open_elsewhere_is_not_taken_away(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("boxaloud.assistant.storage.sqlite.job_connection.WAIT_SECONDS", 0.05)
    session = Session.start("Heron Street")
    session.hear("two 14-2 cables")
    status, _, err = run(capsys, "job", "remove", "heron")
    assert status == 2
    assert "Job Heron Street is open in another window." in err
    session.hear("a switch")
    assert session.kept
    session.close()
    assert run(capsys, "job", "remove", "heron")[0] == 0


def test_a_box_is_removed_and_brought_back(capsys: pytest.CaptureFixture[str]) -> None:
    run(capsys, "demo")
    assert "Removed box porch light" in run(capsys, "job", "remove", "quill", "--box", "porch")[1]
    assert "13 boxes" in run(capsys, "job", "list")[1]
    run(capsys, "job", "restore", "quill", "--box", "porch light")
    assert "14 boxes" in run(capsys, "job", "list")[1]
    assert "no box called shed" in run(capsys, "job", "remove", "quill", "--box", "shed")[2]


def test_the_demo_its_report_and_a_box_to_share(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    assert "Built job Quillback House: 14 boxes." in run(capsys, "demo")[1]
    assert "Built job Quillback House 2" in run(capsys, "demo")[1]
    path = tmp_path / "report.json"
    assert run(capsys, "report", "Quillback House", "-o", str(path))[0] == 0
    assert len(json.loads(path.read_text(encoding="utf-8"))["boxes"]) == 14
    shared = run(capsys, "share", "island", "--job", "Quillback House")[1]
    assert shared.startswith("Box fill: Kitchen island\nOver by 1.50 in³ under 314.16")
    table = run(capsys, "share", "island", "--job", "Quillback House", "--markdown")[1]
    assert table.startswith("## Box fill: Kitchen island")


def test_a_margin_that_an_open_answer_can_still_change_is_said_to_be_the_least(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Two 14-2 and a switch: 14.00 (314.16(B), 2.00 each), and 2.00 more for inside clamps."""
    session = Session.start("Heron Street")
    for words in ("18 cubic inch box", "two 14-2 cables", "a switch"):
        session.hear(words)
    session.close()
    assert (
        "fits, total at most 16.00 of 18.0 in³, margin at least 2.00"
        in (run(capsys, "job", "show")[1])
    )


def test_every_schema_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    found = json.loads(run(capsys, "schema")[1])
    assert set(found) == {"reply", "box", "worksheet", "row", "result", "report"}
    assert json.loads(run(capsys, "schema", "row")[1]) == found["row"]


def test_jobs_are_listed_without_being_opened(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Past defect: each job was opened and folded for its line, and for that of every other."""
    for name, volume in (("Heron", "18"), ("Barn", "12.5")):
        session = Session.start(name)
        for words in ("two 14-2 cables and a switch", "no clamps", f"{volume} cubic inches"):
            session.hear(words)
        session.close()

    def opened(path: Path) -> None:
        raise AssertionError(f"{path} was opened")

    monkeypatch.setattr(JobFile, "open", opened)
    status, told, _ = run(capsys, "job", "list")
    # Table 314.16(B)(1): seven allowances of 2.00 for 14 AWG are 14.00
    rows = dict(line.split(": ", 1) for line in told.splitlines())
    assert status == 0
    assert "1 fit, 0 over" in rows["Heron"]
    assert "0 fit, 1 over" in rows["Barn"]
