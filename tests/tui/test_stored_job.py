"""The screen on a job that is kept: what keys and words enter is there the next time."""

from __future__ import annotations

from pathlib import Path

import pytest
from app_pilot import drive, rows, seen, typed
from boxaloud.assistant.cli.output import with_report
from boxaloud.assistant.storage import Session
from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.tui.app import BoxaloudApp
from boxaloud.assistant.tui.launch import checked
from boxaloud.assistant.tui.session_adapter import JobDesk
from textual.pilot import Pilot


@pytest.fixture(autouse=True)
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("BOXALOUD_DATA", str(tmp_path / "data"))
    return tmp_path / "data"


def test_what_was_said_by_words_and_keys_is_there_again() -> None:
    desk = JobDesk()

    async def begin(pilot: Pilot[None]) -> None:
        await pilot.press("2")
        await pilot.pause()
        await typed(pilot, "18 cubic inch box")
        await pilot.press("alt+3", "f3", "3")
        await pilot.pause()

    drive(BoxaloudApp(desk), begin)
    desk.close()
    again = JobDesk()
    app = BoxaloudApp(again)

    async def resume(pilot: Pilot[None]) -> None:
        assert "first job" in rows(app)[0]
        assert "18.00 of 18.0" in seen(app)
        await pilot.press("ctrl+z")
        await pilot.pause()
        assert "14.00 of 18.0" in seen(app)

    drive(app, resume)
    again.close()


def test_a_named_job_is_opened_or_begun() -> None:
    Session.start("Heron Street").close()
    desk = JobDesk("Mill Lane")
    assert desk.label == "Mill Lane"
    desk.close()
    desk = JobDesk("Heron Street")
    assert desk.label == "Heron Street"
    desk.close()


def test_another_job_begun_by_words_is_the_one_shown() -> None:
    desk = JobDesk("Heron Street")
    desk.hear("two 14-2 cables")
    app = BoxaloudApp(desk)

    async def play(pilot: Pilot[None]) -> None:
        await typed(pilot, "new job mill lane")
        assert "mill lane" in rows(app)[0].lower()
        assert "nothing said yet" in seen(app)

    drive(app, play)
    desk.close()


def test_colours_that_do_not_exist_are_refused_by_name() -> None:
    with pytest.raises(Problem, match="no colours called pink: choose dark, light, contrast"):
        checked("pink")


@pytest.mark.parametrize("way", ["said", "command"])
def test_a_worksheet_is_written_and_the_card_says_where(
    way: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    here = tmp_path / "here"
    here.mkdir()
    monkeypatch.chdir(here)
    session = Session.start("Heron")
    session.hear("two 14-2s and a switch, 18 cubic inches, no clamps")
    session.close()
    desk = JobDesk("Heron", with_report)
    app = BoxaloudApp(desk)

    async def play(pilot: Pilot[None]) -> None:
        if way == "said":
            await typed(pilot, "send the worksheet")
        else:
            await pilot.press("ctrl+p")
            await pilot.pause(0.3)
            await typed(pilot, "send this worksheet", enter=False)
            await pilot.pause(0.5)
            await pilot.press("enter")
            await pilot.pause(0.3)
        assert "Worksheet of box 1 written" in seen(app)
        assert "FITS" in seen(app) or "fits" in seen(app)

    drive(app, play, (120, 36))
    desk.close()
    assert [path.name for path in here.iterdir()] == ["Heron box 1 worksheet.pdf"]
