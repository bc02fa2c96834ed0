"""Scenes of the screen that snapshots, the contrast test and the README's pictures share.

The boxes are of a scenario of our own: the Heron Street job, a house being rewired.
"""

from __future__ import annotations

from app_pilot import begun
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.tui.app import BoxaloudApp
from boxaloud.assistant.tui.session_adapter import MemoryDesk
from rich.segment import Segment

JOB = (
    "name this box hall switch",
    "two 14-2 cables and one switch",
    "18 cubic inch box",
    "no clamps",
    "next box, kitchen island",
    "three 12-2 cables, one 14-3 cable and a gfci receptacle on 12",
    "four square box, inch and a half deep",
    "clamps inside",
    "next box, porch light",
    "two 14-2 cables, a luminaire stud",
)

SCENES: dict[str, tuple[str, ...]] = {
    "over": (),
    "contents": ("f3",),
    "worksheet": ("f4",),
    "boxes": ("f5",),
    "answers": ("f5", "end", "enter", "shift+tab"),
    "reasoning": ("f4", "down", "enter"),
    "boxlist": ("f7",),
    "whatif": ("f6", *"clamps", "space", *"outside", "enter"),
    "help": ("f1",),
    "saidsofar": ("f9",),
    "ladder": ("f10",),
    "chart": ("ctrl+o",),
    "palette": ("ctrl+p", *"wh"),
}


class HeronStreet(MemoryDesk):
    """The job of the scenes, under its name."""

    @property
    def label(self) -> str:
        return "Heron Street"


def job() -> Conversation:
    """The job, at the kitchen island."""
    return begun(*JOB, "open kitchen island")


def scene_app(colours: str = "dark") -> BoxaloudApp:
    """The app on that job."""
    return BoxaloudApp(HeronStreet(job()), colours=colours)


def segments(app: BoxaloudApp) -> list[list[Segment]]:
    """What is painted, row by row."""
    return [list(strip) for strip in app.screen._compositor.render_strips()]
