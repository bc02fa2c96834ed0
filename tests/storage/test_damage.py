"""Whatever bit of a job's file is turned: every loss is told, and nothing readable is lost.

A longer run: `BOXALOUD_FLIPS=1000 python -m pytest tests/storage/test_damage.py`.
"""

from __future__ import annotations

import contextlib
import random
import shutil
import sqlite3
from pathlib import Path

import pytest
from boxaloud.assistant.cli.commands import job_command
from boxaloud.assistant.dialogue import Entry
from boxaloud.assistant.storage import Session, repository
from boxaloud.assistant.storage.sqlite.journal_file import JobFile
from boxaloud.assistant.storage.sqlite.journal_rows import START, Row, check_of
from boxaloud.assistant.text.problem import Problem
from damaged_jobs import FLIPS, LINES, PAGE, flip, heard, look_at, put_back, told_of


@pytest.fixture
def job(data: Path) -> Path:
    """A job of three boxes, closed, and another beside it."""
    other = Session.start("Barn Lane")
    other.hear("three 12-2 cables")
    other.close()
    session = Session.start("Heron Street")
    for words in LINES:
        session.hear(words)
    session.close()
    return repository.find("heron").path


def test_a_closed_job_that_nothing_happened_to_is_not_said_to_be_damaged(job: Path) -> None:
    assert told_of(Session.open("heron")) == ""


def test_a_flipped_bit_loses_nothing_that_can_be_read_and_every_loss_is_told(
    job: Path, tmp_path: Path
) -> None:
    session = Session.open("heron")
    whole, other = heard(session), repository.find("barn").path.read_bytes()
    session.close()
    shutil.copytree(job.parent, tmp_path / "kept")
    chance, size, lost = random.Random(11), job.stat().st_size, 0
    for _ in range(FLIPS):
        bit = chance.randrange(size * 8)
        flip(job, bit)
        before = job.read_bytes()
        try:
            notes = look_at(job, whole, before)
        except Exception as fault:
            raise AssertionError(f"bit {bit} (byte {bit // 8})") from fault
        lost += "carried over" in notes
        assert repository.find("barn").path.read_bytes() == other
        put_back(job.parent, tmp_path / "kept")
    assert 0 < lost < FLIPS


def test_bits_of_the_layout_cost_no_row(job: Path, tmp_path: Path) -> None:
    """The first page says where everything is; it is the same in all files."""
    session = Session.open("heron")
    whole = heard(session)
    session.close()
    shutil.copytree(job.parent, tmp_path / "kept")
    chance = random.Random(5)
    for _ in range(max(20, FLIPS // 4)):
        bit = chance.randrange(PAGE * 8)
        flip(job, bit)
        session = Session.open_at(
            next(each for each in repository.places() if each.path.name != "barn-lane.boxaloud")
        )
        assert heard(session) == whole, f"bit {bit}"
        session.close()
        put_back(job.parent, tmp_path / "kept")


def test_a_file_cut_short_anywhere_is_told(job: Path, tmp_path: Path) -> None:
    session = Session.open("heron")
    whole = heard(session)
    session.close()
    shutil.copytree(job.parent, tmp_path / "kept")
    for size in range(0, job.stat().st_size, 512):
        raw = job.read_bytes()[:size]
        job.write_bytes(raw)
        assert "was damaged" in look_at(job, whole, raw), size
        put_back(job.parent, tmp_path / "kept")


def test_words_left_behind_are_told(job: Path) -> None:
    raw = job.read_bytes()
    job.write_bytes(raw.replace(b'"heard":"no clamps"', b'"heard":"no clamqs"'))
    notes = told_of(Session.open("heron"))
    assert "carried over 3 of its statements" in notes
    assert "“three 12-2 cables”" in notes


def test_text_that_is_no_text_is_damage_like_any_other(job: Path) -> None:
    raw = job.read_bytes()
    job.write_bytes(raw.replace(b'"heard":"a switch"', b'"heard":"a \xffwitch"'))
    session = Session.open("heron")
    assert "carried over 2 of its statements" in told_of(session)
    assert len(heard(session)) == 2


@pytest.mark.parametrize(
    "entry", ["", "no json", "[]", "{}", '{"heard": 3}', "[" * 5000, '{"heard": "a", "acts": 7}']
)
def test_a_row_whose_check_holds_and_whose_entry_is_none_stops_nothing(
    entry: str, job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with contextlib.closing(JobFile.open(job)) as file:
        mark = file.mark()
        bare = Row(mark.position + 1, "2026-01-01T00:00:00Z", "entry", "hall", "", "", entry, 0)
        row = Row(*(*(getattr(bare, n) for n in Row.__slots__[:-1]), check_of(bare, mark.check)))
        file.append([row], mark)
    assert job_command.listed() == 0
    assert "Heron Street: 3 boxes" in capsys.readouterr().out
    session = Session.open("heron")
    assert session.conversation.boxes.verdict("hall") == "incomplete"
    assert len(heard(session)) == len(LINES) + 1


@pytest.mark.parametrize(
    "change",
    [
        "UPDATE verdicts SET verdict = 'fits'",
        "UPDATE verdicts SET position = 3",
        "UPDATE verdicts SET box = 'porch' WHERE box = 'hall'",
        "UPDATE verdicts SET verdict = 'fits', chk = NULL",
        "DELETE FROM verdicts",
    ],
)
def test_a_remembered_verdict_that_was_edited_is_not_believed(
    change: str, job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    # 14-2: 4 x 2.00, grounds 2.00, a switch 4.00: 14.00 of 18.0, fits; porch 12-2: 6 x 2.25,
    # grounds 2.25, a receptacle 4.50: 20.25 of 20.0, over. NEC 314.16(B)(1), (4), (5), 2023.
    assert job_command.listed() == 0
    right = next(li for li in capsys.readouterr().out.splitlines() if li.startswith("Heron"))
    assert "3 boxes, 1 fit, 1 over, 1 not finished" in right
    connection = sqlite3.connect(job)
    try:
        connection.execute(change.replace("UPDATE verdicts", "UPDATE OR REPLACE verdicts"))
        connection.commit()
    except sqlite3.IntegrityError:
        pytest.skip("the file refuses it")
    finally:
        connection.close()
    assert job_command.listed() == 0
    assert right in capsys.readouterr().out


@pytest.mark.parametrize("key", ["name", "edition", "units", "begun", "check"])
def test_what_a_job_says_of_itself_is_checked(key: str, job: Path) -> None:
    connection = sqlite3.connect(job)
    connection.execute("UPDATE about SET value = '2011' WHERE key = ?", (key,))
    connection.commit()
    connection.close()
    place = next(each for each in repository.places() if each.path == job)
    session = Session.open_at(place)
    assert "was damaged" in told_of(session)
    assert len(heard(session)) == len(LINES)


def test_a_bad_job_is_opened_by_no_other_name(job: Path) -> None:
    with pytest.raises(Problem):
        Session.open("no such job")


def test_the_words_of_an_entry_are_where_salvage_looks_for_them() -> None:
    assert next(iter(Entry("a switch", ()).to_json())) == "heard"
    assert START.position == 0
