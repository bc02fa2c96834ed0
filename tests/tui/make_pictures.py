"""Makes the README's pictures in `.pictures/` from the demonstration job.

Run it by hand after a change of the screen: `python tests/tui/make_pictures.py`. The
pictures are SVG without any link: they are drawn in whatever fixed-width letters are there.
"""

from __future__ import annotations

import asyncio
import re
from pathlib import Path

from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.storage.demo_job import told
from boxaloud.assistant.tui.app import BoxaloudApp
from boxaloud.assistant.tui.session_adapter import MemoryDesk
from boxaloud.assistant.tui.voice_ports import Tell

FOLDER = Path(__file__).parents[2] / ".pictures"

PICTURES: dict[str, tuple[str, str, tuple[int, int], tuple[str, ...]]] = {
    "over": ("kitchen island", "dark", (112, 32), ()),
    "fits": ("hall switches", "light", (112, 32), ()),
    "terminal": ("stair foot", "contrast", (80, 24), ("f4",)),
    "what-if": (
        "kitchen island",
        "dark",
        (80, 24),
        ("f6", *"clamps", "space", *"outside", "enter"),
    ),
    "boxes": ("kitchen island", "dark", (80, 24), ("f7", *"square")),
}
"""Name -> the box it shows, the palette, the size, and the keys pressed before."""


class Microphone:
    """One that nobody talks into, so that the pictures show how to."""

    def start(self, expect: str | None, tell: Tell) -> None:
        return

    def stop(self) -> None:
        return


class DemoDesk(MemoryDesk):
    """The demonstration job in memory, under its name."""

    def __init__(self, name: str, conversation: Conversation) -> None:
        super().__init__(conversation)
        self._name = name

    @property
    def label(self) -> str:
        return self._name


def demo() -> tuple[str, Conversation]:
    """The house, talked through."""
    house = told()
    conversation = Conversation(house["edition"])
    for number, box in enumerate(house["box"]):
        verb = "next box" if number else "name this box"
        conversation.hear(f"{verb} {box['name']}")
        for words in box["says"]:
            conversation.hear(words)
    return house["name"], conversation


async def picture(name: str) -> str:
    """One picture as SVG."""
    box, colours, size, keys = PICTURES[name]
    house, conversation = demo()
    conversation.hear(f"open {box}")
    conversation.hear("what's the total")
    app = BoxaloudApp(DemoDesk(house, conversation), Microphone(), colours=colours)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        await pilot.press(*keys)
        await pilot.pause()
        return without_links(app.export_screenshot(title="Boxaloud"))


def without_links(svg: str) -> str:
    """The picture with no font fetched from anywhere, and no buttons of any window."""
    svg = re.sub(r"<circle[^>]*/>", "", svg)
    svg = re.sub(r"<!--.*?-->", "", svg, flags=re.DOTALL)
    svg = re.sub(r"@font-face\s*\{.*?\}", "", svg, flags=re.DOTALL)
    return re.sub(r"Fira Code, ?monospace|Fira Code", "monospace", svg)


def main() -> None:
    """Make them all."""
    FOLDER.mkdir(exist_ok=True)
    for name in PICTURES:
        (FOLDER / f"{name}.svg").write_text(asyncio.run(picture(name)), encoding="utf-8")


if __name__ == "__main__":
    main()
