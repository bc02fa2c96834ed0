"""Verdict, unit, question and input line are whole at every size, in every palette.

Volumes: 2.00 in3 for each 14 AWG conductor, Table 314.16(B)(1); two allowances for a device,
314.16(B)(4); one for up to four grounds, 314.16(B)(5); one for clamps inside, 314.16(B)(2). So
two 14-2 cables and a switch take 14.00 in3, 16.00 with clamps inside; a margin of zero fits.
"""

from __future__ import annotations

from functools import partial

import pytest
from app_pilot import ALL_SIZES, SWITCH, app_for, drive, large_on, rows, seen
from boxaloud.assistant.tui.app import BoxaloudApp
from boxaloud.assistant.tui.presenters.glyphs import brushes
from boxaloud.assistant.tui.presenters.prompt import prompt
from boxaloud.assistant.tui.presenters.trade_writing import sizes_written
from boxaloud.assistant.tui.theme import NAMES
from boxaloud.assistant.tui.tui_messages import text
from textual.pilot import Pilot

STANDS = {
    "0.00": ("FITS", "margin 0.00 in³", (SWITCH, "14 cubic inch box", "no clamps")),
    "0.25": ("FITS", "margin 0.25 in³", (SWITCH, "14.25 cubic inch box", "no clamps")),
    "13.75+": ("FITS", "margin at least 13.75 in³", (SWITCH, "29.75 cubic inch box")),
    "100.00": ("FITS", "margin 100.00 in³", (SWITCH, "114 cubic inch box", "no clamps")),
    "100.00+": ("FITS", "margin at least 100.00 in³", (SWITCH, "116 cubic inch box")),
    "2.00+": ("OVER", "over by at least 2.00 in³", (SWITCH, "12 cubic inch box")),
    "": ("NOT YET", "14.00 in³ so far", (SWITCH,)),
}


@pytest.mark.parametrize("colours", NAMES)
@pytest.mark.parametrize("size", ALL_SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_verdict_unit_question_and_input_are_whole(size: tuple[int, int], colours: str) -> None:
    for figure, (word, caption, said) in STANDS.items():
        app = app_for(*said, colours=colours)
        drive(app, partial(whole, app, word, figure, caption), size)


async def whole(app: BoxaloudApp, word: str, figure: str, caption: str, pilot: Pilot[None]) -> None:
    """Read them on the screen."""
    shown = seen(app)
    assert caption in shown
    assert prompt(app.desk.conversation.talk) in shown
    assert "De-energise and test. Adopted code, amendments and your inspector" in shown
    line = app.card.query_one("#entry").region
    assert rows(app)[line.y].startswith("› Say or type")
    assert "^P more" in rows(app)[-1]
    if app.size == (40, 15) and f"{word} {figure or '14.00'} in³" in shown:
        return
    assert any(large_on(app, word, brush) for brush in brushes(50))
    if figure:
        assert any(large_on(app, figure, brush, unit=True) for brush in brushes(50))


@pytest.mark.parametrize("size", ALL_SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_a_long_reply_is_whole_or_says_where_the_rest_is(size: tuple[int, int]) -> None:
    app = app_for("three 12-2 cables and two receptacles", "18 cubic inch box", "clamps inside")

    async def play(pilot: Pilot[None]) -> None:
        app.hear("what can I do to make it fit")
        await pilot.pause()
        assert app.desk.conversation.talk.last is not None
        said = sizes_written(app.desk.conversation.talk.last.said)
        assert said in seen(app) or text("cut.mark") in seen(app)
        assert size[0] < 80 or said in seen(app)
        await pilot.press("f9")
        await pilot.pause()
        shown = seen(app)
        assert all(word in shown for word in said.split())

    drive(app, play, size)


@pytest.mark.parametrize("size", [(60, 20), (40, 15)], ids=lambda size: f"{size[0]}x{size[1]}")
def test_a_list_is_shown_where_there_is_little_room_as_soon_as_it_is_gone_to(
    size: tuple[int, int],
) -> None:
    app = app_for(SWITCH, "18 cubic inch box", "clamps inside")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f4")
        await pilot.pause()
        assert "four 14 AWG conductors" in seen(app)
        assert "margin 2.00 in³" in seen(app)
        assert rows(app)[app.card.query_one("#entry").region.y].startswith("› Say or type")

    drive(app, play, size)
