"""What the screen looks like, kept as text that can be read: six sizes, three palettes.

Nothing blinks, moves or tells the time, so the same job paints the same picture. After a
wanted change, `UPDATE_SNAPSHOTS=1 pytest tests/tui/test_snapshots.py` writes them anew;
read the difference before keeping it.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from app_pilot import ALL_SIZES, drive, rows
from boxaloud.assistant.tui.app import BoxaloudApp
from boxaloud.assistant.tui.theme import NAMES
from rich.color import Color
from scenes import SCENES, scene_app, segments
from textual.pilot import Pilot

FOLDER = Path(__file__).parent / "snapshots"


def painted(app: BoxaloudApp) -> str:
    """The rows of the screen, then which ink stands on which ground in which rows."""
    used: dict[str, list[int]] = {}
    for number, row in enumerate(segments(app), 1):
        for text, style, _ in row:
            if text.strip() and style is not None:
                words = f"{_hex(style.color)} on {_hex(style.bgcolor)}"
                words += " bold" if style.bold else ""
                words += " reverse" if style.reverse else ""
                where = used.setdefault(words, [])
                if number not in where:
                    where.append(number)
    inks = [f"{words}: rows {', '.join(map(str, where))}" for words, where in used.items()]
    return "\n".join([*(f"|{row}" for row in rows(app)), "", *sorted(inks), ""])


def _hex(color: Color | None) -> str:
    return "default" if color is None else color.get_truecolor().hex


def compare(name: str, shown: str) -> None:
    """Hold a picture against the kept one."""
    path = FOLDER / f"{name}.txt"
    if os.environ.get("UPDATE_SNAPSHOTS"):
        FOLDER.mkdir(exist_ok=True)
        path.write_text(shown, encoding="utf-8")
    assert path.exists(), f"{path} is not kept yet"
    assert shown == path.read_text(encoding="utf-8")


@pytest.mark.parametrize("colours", NAMES)
@pytest.mark.parametrize("size", ALL_SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_the_card_at_each_size_in_each_palette(size: tuple[int, int], colours: str) -> None:
    app = scene_app(colours)

    async def play(pilot: Pilot[None]) -> None:
        compare(f"card-{size[0]}x{size[1]}-{colours}", painted(app))

    drive(app, play, size)


@pytest.mark.parametrize("scene", [name for name in SCENES if name not in ("over", "palette")])
def test_each_part_in_a_plain_terminal(scene: str) -> None:
    app = scene_app()

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press(*SCENES[scene])
        await pilot.pause()
        compare(f"{scene}-80x24", painted(app))

    drive(app, play)


def test_the_welcome_in_a_plain_terminal() -> None:
    from app_pilot import app_for

    app = app_for()

    async def play(pilot: Pilot[None]) -> None:
        compare("welcome-80x24", painted(app))

    drive(app, play)


def test_the_card_in_a_tiny_terminal() -> None:
    app = scene_app()

    async def play(pilot: Pilot[None]) -> None:
        compare("card-20x5", painted(app))

    drive(app, play, (20, 5))
