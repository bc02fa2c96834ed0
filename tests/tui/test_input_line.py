"""The input line: what was typed before comes back, and words are completed."""

from __future__ import annotations

from app_pilot import SWITCH, app_for, drive, typed
from boxaloud.assistant.tui.presenters.input_history import InputHistory
from boxaloud.assistant.tui.presenters.word_completion import completed, trade_words
from boxaloud.assistant.tui.widgets.input_line import EntryLine
from textual.pilot import Pilot


def test_history_goes_back_and_forth_and_keeps_what_was_begun() -> None:
    history = InputHistory()
    for words in ("two 14-2 cables", "one switch", "one switch"):
        history.keep(words)
    assert history.older("no cl") == "one switch"
    assert history.older("one switch") == "two 14-2 cables"
    assert history.older("two 14-2 cables") is None
    assert history.newer() == "one switch"
    assert history.newer() == "no cl"
    assert history.newer() is None


def test_words_of_the_trade_and_names_of_boxes_are_completed() -> None:
    words = ("receptacle", "receptacles", "switch")
    assert completed("two rec", (), words) == "two receptacle"
    assert completed("open kit", ("kitchen island", "porch"), words) == "open kitchen island"
    assert completed("open Kitchen is", ("kitchen island",), words) == "open Kitchen island"
    assert completed("two receptacle", (), words) is None
    assert completed("tw", (), words) is None
    assert completed("two ", (), words) is None
    assert {"receptacle", "conductors", "luminaire"} <= set(trade_words())
    for begun, word in (
        ("rec", "receptacle"),
        ("swi", "switch"),
        ("cab", "cable"),
        ("cla", "clamps"),
    ):
        found = completed(begun, (), trade_words())
        assert found is not None
        assert word.startswith(found.rstrip("s")), (begun, found)


def test_up_and_tab_on_the_line() -> None:
    app = app_for(SWITCH, "name this box kitchen island")

    async def play(pilot: Pilot[None]) -> None:
        line = app.card.query_one("#entry", EntryLine)
        await typed(pilot, "18 cubic inch box")
        await typed(pilot, "no clamps")
        await pilot.press("up", "up")
        assert line.value == "18 cubic inch box"
        await pilot.press("down", "down")
        assert line.value == ""
        await typed(pilot, "open kit", enter=False)
        await pilot.pause()
        await pilot.press("tab")
        assert line.value == "open kitchen island"
        assert line.has_focus
        await pilot.press("tab")
        assert not line.has_focus

    drive(app, play)
