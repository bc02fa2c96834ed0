"""What must not close the screen: sizes, pastes, faults of ours, noise on descriptors 1 and 2."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest
from app_pilot import app_for, begun, drive, rows, seen, typed
from boxaloud.assistant.dialogue import Reply
from boxaloud.assistant.tui.app import BoxaloudApp
from boxaloud.assistant.tui.session_adapter import MemoryDesk
from boxaloud.assistant.tui.stdio_redirect import kept_quiet
from boxaloud.grammar.lexer.heard_words import Word
from textual import events
from textual.pilot import Pilot

TALK = ("two 14-2 cables and one switch", "18 cubic inch box", "no clamps")


class FaultyDesk(MemoryDesk):
    """A desk with a fault of ours in it: it fails once."""

    failed = False

    def hear(self, words: str | Sequence[Word]) -> Reply:
        if not self.failed:
            self.failed = True
            raise ZeroDivisionError("by nothing")
        return super().hear(words)


@pytest.mark.parametrize("size", [(20, 5), (1, 1), (40, 10), (79, 23), (300, 80)])
def test_any_size_shows_the_verdict_and_takes_words(size: tuple[int, int]) -> None:
    app = app_for(*TALK)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.resize_terminal(*size)
        await pilot.pause()
        if size[0] >= 20:
            shown = seen(app)
            assert "FITS 4.00" in shown or "fits · margin 4.00" in shown
            assert app.card.query_one("#entry").region.height == 1
        await typed(pilot, "14 cubic inch box")
        await pilot.resize_terminal(80, 24)
        await pilot.pause()
        assert "margin 0.00" in seen(app)

    drive(app, play)


def test_every_sheet_survives_a_tiny_terminal() -> None:
    app = app_for(*TALK)

    async def play(pilot: Pilot[None]) -> None:
        for key in ("f1", "f6", "f7"):
            await pilot.press(key)
            await pilot.resize_terminal(20, 5)
            await pilot.pause()
            assert app.screen is not app.card
            await pilot.resize_terminal(80, 24)
            await pilot.press("escape")
            await pilot.pause()
            assert app.screen is app.card

    drive(app, play)


def test_a_paste_of_a_hundred_kilobytes_is_refused_in_one_sentence() -> None:
    app = app_for(*TALK)

    async def play(pilot: Pilot[None]) -> None:
        app.card.query_one("#entry").post_message(events.Paste("two 14-2 cables " * 6400))
        await pilot.pause()
        assert "That was 102400 characters; I take 2000 at a time" in seen(app)
        await typed(pilot, "clamps outside")
        assert "Heard: clamps outside" in seen(app)

    drive(app, play)


def test_a_paste_into_a_list_goes_to_the_line() -> None:
    app = app_for("18 cubic inch box")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f4")
        assert app.focused is not None
        app.focused.post_message(events.Paste("two 14-2 cables"))
        await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()
        assert "Heard: two 14-2 cables" in seen(app)

    drive(app, play)


def test_a_paste_of_several_lines_is_one_line() -> None:
    app = app_for("18 cubic inch box")

    async def play(pilot: Pilot[None]) -> None:
        app.card.query_one("#entry").post_message(events.Paste("two 14-2 cables\nand one switch\n"))
        await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()
        assert "Heard: two 14-2 cables and one switch" in seen(app)

    drive(app, play)


def test_a_fault_of_ours_is_one_sentence_and_the_box_stands() -> None:
    app = BoxaloudApp(FaultyDesk(begun(*TALK)))

    async def play(pilot: Pilot[None]) -> None:
        await typed(pilot, "one more switch")
        assert "That was not entered, by a fault of mine (ZeroDivisionError: by nothing)" in seen(
            app
        )
        await typed(pilot, "one more switch")
        assert "18.00 of 18.0" in seen(app)

    drive(app, play)


def test_noise_on_descriptors_one_and_two_goes_to_the_log(tmp_path: Path) -> None:
    code = (
        "import os, sys\n"
        "from pathlib import Path\n"
        "from boxaloud.assistant.tui.stdio_redirect import kept_quiet\n"
        f"with kept_quiet(Path({str(tmp_path / 'logs' / 'screen.log')!r})):\n"
        "    os.write(1, b'engine says hello\\n'); os.write(2, b'engine complains\\n')\n"
        "    print('python says hello', flush=True)\n"
        "    sys.__stderr__.write('the picture\\n'); sys.__stderr__.flush()\n"
        "print('after')\n"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout == "after\n"
    assert run.stderr == "the picture\n"
    log = (tmp_path / "logs" / "screen.log").read_text()
    assert "engine says hello" in log
    assert "engine complains" in log


def test_a_log_that_cannot_be_written_stops_nothing(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with kept_quiet(tmp_path / "file" / "screen.log"):
        os.write(2, b"gone\n")


def test_the_command_loads_no_screen_until_it_is_wanted() -> None:
    code = "import sys, boxaloud.assistant.cli.main; print('textual' in sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout == "False\n"


def test_without_a_terminal_the_command_points_to_chat() -> None:
    code = "from boxaloud.assistant.cli.start import main; main()"
    run = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, stdin=subprocess.DEVNULL
    )
    assert run.returncode == 0
    assert run.stdout.count("\n") == 1
    assert "boxaloud chat" in run.stdout


def test_the_first_row_names_job_and_box() -> None:
    app = app_for(*TALK)

    async def play(pilot: Pilot[None]) -> None:
        assert "box 1" in rows(app)[0]

    drive(app, play)
