"""Ladder mode: verdict, margin and open question alone, in letters that are read from afar.

At 3 m a letter of 16 minutes of arc, the least that ISO 9241-303 allows for reading (from
memory), is 3000 mm x tan(16/60 degrees) = 14 mm tall. A 14-inch screen of 16 : 9 is 174 mm high,
so that a letter needs 8 % of its rows: five of sixty.
"""

from __future__ import annotations

import pytest
from app_pilot import ALL_SIZES, SWITCH, app_for, drive, large_on, rows, seen, typed
from boxaloud.assistant.tui.presenters.glyphs import brushes
from boxaloud.assistant.tui.screens.ladder_screen import Ladder
from textual.pilot import Pilot


@pytest.mark.parametrize(
    "size", [*ALL_SIZES[1:], (240, 67)], ids=lambda size: "x".join(map(str, size))
)
def test_the_letters_are_tall_enough_for_three_metres(size: tuple[int, int]) -> None:
    app = app_for(SWITCH, "29.75 cubic inch box")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f10")
        await pilot.pause()
        for words in ("FITS", "13.75+"):
            tall = max(b.height for b in brushes(size[1]) if large_on(app, words, b))
            assert tall * 174 / size[1] >= 14
        assert "De-energise and test." in seen(app)
        assert rows(app)[-1].startswith("Type, or F2")

    drive(app, play, size)


def test_words_typed_in_ladder_mode_reach_the_box_and_the_word_big_opens_it() -> None:
    app = app_for(SWITCH, "29.75 cubic inch box")

    async def play(pilot: Pilot[None]) -> None:
        await typed(pilot, "big")
        opened = app.screen
        assert isinstance(opened, Ladder)
        assert len(app.desk.conversation.talk.journal) == 2
        await typed(pilot, "2")
        assert app.desk.conversation.talk.state.clamps == "outside"
        assert any(large_on(app, "15.75", brush, unit=True) for brush in brushes(50))
        await typed(pilot, "flurb the zorbs")
        told = app.transcript.exchanges[-1].said.split()[2]
        large = any(large_on(app, told.upper(), brush) for brush in brushes(50))
        assert large or told in seen(app), "what was not understood is told here too"
        await typed(pilot, "small")
        assert app.screen is app.card

    drive(app, play)
