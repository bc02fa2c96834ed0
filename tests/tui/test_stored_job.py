"""The screen on a job that is kept: what keys and words enter is there the next time."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from threading import Semaphore

import pytest
from app_pilot import drive, rows, seen, typed
from boxaloud.assistant.cli.output import report_to_write
from boxaloud.assistant.dialogue import Reply
from boxaloud.assistant.dialogue.reply import SystemAct
from boxaloud.assistant.storage import Session
from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.tui.app import BoxaloudApp
from boxaloud.assistant.tui.launch import checked
from boxaloud.assistant.tui.session_adapter import JobDesk
from boxaloud.grammar import acts
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
    desk = JobDesk("Heron", report_to_write)
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
        app.reports.finish()
        await pilot.pause()
        assert "Worksheet of box 1 written" in seen(app)
        assert "FITS" in seen(app) or "fits" in seen(app)

    drive(app, play, (120, 36))
    desk.close()
    assert [path.name for path in here.iterdir()] == ["Heron box 1 worksheet.pdf"]


class Slow:
    """Writes a report box by box, each when it is let go on."""

    def __init__(self, steps: int, fails: bool = False) -> None:
        self.steps, self.fails = steps, fails
        self.go_on = Semaphore(0)
        self.done = 0

    def __call__(self, reply: Reply, _: Session) -> tuple[int, Callable[..., Reply]] | None:
        if not any(isinstance(act, acts.SendReport) for act in reply.outside):
            return None

        def write(step: Callable[[], None]) -> Reply:
            for _ in range(self.steps):
                assert self.go_on.acquire(timeout=20)
                step()
                self.done += 1
            if self.fails:
                raise ArithmeticError("no ink")
            return reply.saying([SystemAct("report", "It is in the drawer.")])

        return self.steps, write


async def until(pilot: Pilot[None], app: BoxaloudApp, words: str) -> None:
    for _ in range(100):
        if words in seen(app):
            return
        await pilot.pause(0.02)
    raise AssertionError(f"{words!r} is not in {seen(app)!r}")


@pytest.mark.parametrize("size", [(60, 20), (120, 36)])
def test_the_talk_goes_on_while_a_report_is_written_and_a_bar_tells_how_far(
    size: tuple[int, int],
) -> None:
    slow = Slow(steps=4)
    desk = JobDesk("Heron", slow)
    app = BoxaloudApp(desk)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("escape")
        await typed(pilot, "two 14-2s and a switch")
        await typed(pilot, "report")
        await until(pilot, app, "report [----------] 0 %")
        assert "Writing the report" in seen(app)
        slow.go_on.release()
        await until(pilot, app, "report [##--------] 25 %")
        await typed(pilot, "18 cubic inches, no clamps")  # the talk goes on
        assert "FITS" in seen(app) or "fits" in seen(app)
        assert slow.done == 1
        slow.go_on.release(3)
        await until(pilot, app, "It is in the drawer.")
        assert "%" not in rows(app)[0]
        await pilot.press("f9")
        await until(pilot, app, "Writing the report")

    drive(app, play, size)
    app.reports.finish()
    desk.close()


def test_a_report_that_cannot_be_written_is_told_and_the_talk_goes_on() -> None:
    slow = Slow(steps=0, fails=True)
    desk = JobDesk("Heron", slow)
    app = BoxaloudApp(desk)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("escape")
        await typed(pilot, "two 14-2s and a switch")
        await typed(pilot, "report")
        await until(pilot, app, "ArithmeticError: no ink")
        await typed(pilot, "18 cubic inches, no clamps")
        assert "FITS" in seen(app) or "fits" in seen(app)

    drive(app, play, (120, 36))
    desk.close()


def test_a_screen_that_is_left_writes_its_report_to_the_end() -> None:
    slow = Slow(steps=3)
    desk = JobDesk("Heron", slow)
    app = BoxaloudApp(desk)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("escape")
        await typed(pilot, "two 14-2s and a switch")
        await typed(pilot, "report")

    drive(app, play)
    assert slow.done == 0
    slow.go_on.release(3)
    app.reports.finish()
    assert slow.done == 3
    desk.close()
