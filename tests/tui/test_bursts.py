"""Keys that come faster than the screen follows: none is taken twice, and nothing breaks."""

from __future__ import annotations

import pytest
from app_pilot import app_for, drive, seen
from boxaloud.assistant.tui.screens.overlay import Sheet
from textual import events
from textual.pilot import Pilot

PRINTED = {"enter": "\r", "escape": "\x1b"}


def burst(pilot: Pilot[None], *keys: str) -> None:
    """Press keys all at once, as a terminal hands them on after a pause of the machine."""
    for key in keys:
        character = PRINTED.get(key, key if len(key) == 1 else None)
        pilot.app.post_message(events.Key(key, character))


@pytest.mark.parametrize(
    "keys", ["11", "12", "21", "22", "1111111", "2222", "123123", "111222333", "2 two 14-2"]
)
def test_a_burst_on_the_first_screen_goes_one_way(keys: str) -> None:
    app = app_for()

    async def play(pilot: Pilot[None]) -> None:
        assert isinstance(app.screen, Sheet)
        burst(pilot, *keys)
        await pilot.pause(0.3)
        if app.is_running and app._exit is False:
            assert not isinstance(app.screen, Sheet)

    drive(app, play)
    assert app.fault is None


@pytest.mark.parametrize("keys", [("enter", "enter"), ("escape", "escape"), ("enter", "escape")])
@pytest.mark.parametrize("sheet", ["f1", "f6", "f7"])
def test_a_sheet_is_left_once(sheet: str, keys: tuple[str, ...]) -> None:
    app = app_for("two 14-2 cables")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press(sheet)
        await pilot.pause()
        burst(pilot, *keys, *keys)
        await pilot.pause(0.3)

    drive(app, play)
    assert app.fault is None


def test_a_box_picked_twice_at_once_is_taken_once() -> None:
    app = app_for("two 14-2 cables")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f7")
        await pilot.pause()
        burst(pilot, "enter", "enter", "enter")
        await pilot.pause(0.3)
        assert "in³" in seen(app) or "of" in seen(app)

    drive(app, play)
    assert app.fault is None
    journal = app.desk.conversation.talk.journal
    assert len(journal) == 2
