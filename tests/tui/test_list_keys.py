"""The lists by keys: things of the box, worksheet lines, standard boxes, boxes of the job."""

from __future__ import annotations

from app_pilot import SWITCH, app_for, drive, rows, seen, typed
from boxaloud.assistant.tui.widgets.row_list import RowList
from textual import events
from textual.pilot import Pilot


def test_a_line_is_picked_its_count_changed_removed_and_brought_back() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f3", "3")
        await pilot.pause()
        assert "over by 0.00" not in seen(app)
        assert "18.00 of 18.0" in seen(app)
        await pilot.press("plus")
        await pilot.pause()
        assert "over by 4.00 in³ · 22.00 of 18.0" in seen(app)
        await pilot.press("minus", "down", "delete")
        await pilot.pause()
        assert "14.00 of 18.0" in seen(app)
        await pilot.press("ctrl+z")
        await pilot.pause()
        assert "18.00 of 18.0" in seen(app)
        await pilot.press("ctrl+y")
        await pilot.pause()
        assert "14.00 of 18.0" in seen(app)

    drive(app, play)


def test_letters_typed_in_a_list_go_to_the_input_line() -> None:
    app = app_for(SWITCH)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f4")
        await typed(pilot, "no clamps")
        assert "Heard: no clamps" in seen(app)

    drive(app, play)


def test_the_clamps_and_the_box_are_changed_from_the_list() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f3", "end", "enter")
        await pilot.pause()
        assert "Where are the cable clamps?" in seen(app)
        await pilot.press("1")
        await pilot.pause()
        assert "16.00 of 18.0" in seen(app)
        await pilot.press("f3", "end", "up", "enter")
        await pilot.pause()
        await typed(pilot, "square 1 and 1/2")
        assert "16.00 of 21.0" in seen(app)

    drive(app, play)


def test_a_worksheet_line_opens_to_its_section_reasoning_and_source() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "clamps inside")

    async def play(pilot: Pilot[None]) -> None:
        for number, section in enumerate(("314.16(A)", "314.16(B)(1)", "314.16(B)(2)")):
            await pilot.press("f4", "home", *["down"] * number, "enter")
            await pilot.pause()
            opened = seen(app)
            assert f"Section: {section}" in opened
            assert "Why: " in opened
            assert "Source: " in opened
            await pilot.press("escape")
            await pilot.pause()

    drive(app, play)


def test_boxes_of_the_job_are_begun_and_opened_again() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("ctrl+n")
        await pilot.pause()
        assert "· box 2" in rows(app)[0]
        await typed(pilot, "three 14-3 cables")
        await pilot.press("f5")
        await pilot.pause()
        listed = [" ".join(row.split()) for row in rows(app)]
        assert "✓ box 1 fits 4.00" in listed
        assert "▸ ▪ ? box 2 not yet" in listed
        await pilot.press("home", "enter")
        await pilot.pause()
        assert "· box 1" in rows(app)[0]
        assert "14.00 of 18.0" in seen(app)

    drive(app, play)


def test_a_standard_box_is_searched_with_its_volume() -> None:
    app = app_for(SWITCH, "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f7")
        await pilot.pause()
        await typed(pilot, "octagon", enter=False)
        listed = [row for row in rows(app) if "octagon" in row]
        assert [row.split(" in³")[0].split()[-1] for row in listed[1:]] == ["12.5", "15.5", "21.5"]
        await pilot.press("down", "enter")
        await pilot.pause()
        assert "14.00 of 15.5" in seen(app)

    drive(app, play)


def test_a_device_box_is_ganged_in_the_list() -> None:
    """Two 3 x 2 x 3-1/2 device boxes ganged hold 2 x 18.0, Table 314.16(A)."""
    app = app_for(SWITCH, "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f7", "ctrl+right")
        await pilot.pause()
        await typed(pilot, "device 36")
        assert "14.00 of 36.0" in seen(app)

    drive(app, play)


def test_a_search_that_finds_nothing_says_what_to_do() -> None:
    app = app_for(SWITCH)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f7")
        await typed(pilot, "pancake", enter=False)
        assert "type its volume" in seen(app)
        await pilot.press("enter", "escape")
        await pilot.pause()
        assert app.screen is app.card

    drive(app, play)


def test_the_list_keeps_the_pointer_in_view_with_five_hundred_boxes() -> None:
    app = app_for(*["next box"] * 499)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f5", "home")
        await pilot.pause()
        assert "▸   ? box 1 " in "\n".join(rows(app))
        await pilot.press("end")
        await pilot.pause()
        assert "▸ ▪ ? box 500 " in "\n".join(rows(app))
        assert app.card.query_one("#boxes", RowList).pointed == 499

    drive(app, play)


def test_a_click_opens_a_worksheet_line() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.click("#worksheet", offset=(6, 1))
        await pilot.pause()
        assert "Section: 314.16(B)(1)" in seen(app)

    drive(app, play)


def test_keys_typed_ahead_reach_the_list_they_were_meant_for() -> None:
    """A terminal may send several keys at once; none of them may land in the input line."""
    app = app_for(SWITCH, "18 cubic inch box", "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        for key, character in (("f3", None), ("down", None), ("3", "3")):
            app.post_message(events.Key(key, character))
        await pilot.pause()
        assert [item.content.count for item in app.desk.conversation.talk.state.items] == [2, 3]

    drive(app, play)
