"""The chart of a job: boxes by margin, each bar on the right side of the one limit line.

Two 14-2 cables and a switch take 14.00 in3, 16.00 with clamps inside, 314.16(B)(1) to (B)(5).
"""

from __future__ import annotations

from app_pilot import SWITCH, app_for, begun, drive, rows, seen
from boxaloud.assistant.tui.presenters.job_chart import Bar, bar_of, chart_rows, sorted_bars
from textual.pilot import Pilot

JOB = (
    "name this box hall", SWITCH, "18 cubic inch box", "no clamps",
    "next box, porch", SWITCH, "10 cubic inch box", "no clamps",
    "next box, stair", SWITCH, "14 cubic inch box", "no clamps",
    "next box, attic", SWITCH,
    "next box, cellar", SWITCH, "30 cubic inch box",
)  # fmt: skip


def bars() -> list[Bar]:
    conversation = begun(*JOB)
    return [bar_of(conversation.boxes.talk(name)) for name in conversation.boxes.names]


def test_boxes_are_sorted_by_margin_and_those_not_worked_out_come_last() -> None:
    assert [bar.name for bar in sorted_bars(bars())] == [
        "porch",
        "stair",
        "hall",
        "cellar",
        "attic",
    ]


def test_each_bar_stands_on_its_side_of_one_line() -> None:
    """Over passes the line, exactly full touches it, under stops short of it."""
    for width in (40, 80, 160):
        found = {str(row.about): row.left for row in chart_rows(bars(), width)}
        lines = {left.index("┃") for name, left in found.items() if name != "attic"}
        assert len(lines) == 1
        at = lines.pop()
        assert found["porch"][at + 1] == "█"
        assert found["stair"][at - 1] == "█"
        assert set(found["stair"][at + 1 :]) <= {" "}
        assert found["hall"][at - 1] == "·"
        assert "?" in found["cellar"]
        assert max(len(left) for left in found.values()) <= width


def test_the_chart_is_one_key_away_and_opens_a_box() -> None:
    app = app_for(*JOB)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("ctrl+o")
        await pilot.pause(0.2)
        listed = [row for row in rows(app)[2:] if "┃" in row]
        assert "porch" in listed[0]
        assert "over 4.00 in³" in listed[0]
        assert "fits 0.00 in³" in listed[1]
        assert "1 over, 3 fit, 1 not yet" in seen(app)
        await pilot.press("enter")
        await pilot.pause()
        assert "· porch" in rows(app)[0]

    drive(app, play)
