"""Driving the app in tests by keys alone, and reading what stands on the screen."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Sequence

from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.tui.app import BoxaloudApp
from boxaloud.assistant.tui.presenters.glyphs import Brush, large, width_of
from boxaloud.assistant.tui.session_adapter import MemoryDesk
from textual.pilot import Pilot

SIZES = ((80, 24), (120, 36), (160, 48))
SWITCH = "two 14-2 cables and one switch"
ALL_SIZES = ((40, 15), (60, 20), (80, 24), (100, 30), (120, 36), (160, 48))


def begun(*words: str) -> Conversation:
    """A conversation in which these words were said."""
    conversation = Conversation()
    for said in words:
        conversation.hear(said)
    return conversation


def app_for(*words: str, **options: object) -> BoxaloudApp:
    """The app on such a conversation."""
    return BoxaloudApp(MemoryDesk(begun(*words)), **options)  # type: ignore[arg-type]


def rows(app: BoxaloudApp) -> list[str]:
    """The screen as rows of text."""
    strips = app.screen._compositor.render_strips()
    return ["".join(segment.text for segment in strip).rstrip() for strip in strips]


def seen(app: BoxaloudApp) -> str:
    """The screen as one text, its line breaks as spaces."""
    return " ".join(" ".join(rows(app)).split())


def large_on(app: BoxaloudApp, words: str, brush: Brush, unit: bool = False) -> bool:
    """Whether these words stand whole on the screen in letters of this brush.

    With `unit`, "in³" stands at their foot too, plain or drawn.
    """
    drawing = large(words, brush)
    shown = [row.ljust(width_of(drawing)) for row in rows(app)]
    for top in range(len(shown) - len(drawing) + 1):
        at = shown[top].find(drawing[0].rstrip())
        while at >= 0:
            blocks = [row[at : at + width_of(drawing)].rstrip() for row in shown[top:]]
            if blocks[: len(drawing)] == [row.rstrip() for row in drawing]:
                foot = shown[top + len(drawing) - 1][at + width_of(drawing) :]
                return not unit or "in³" in foot or large("in", brush.half)[-1] in foot
            at = shown[top].find(drawing[0].rstrip(), at + 1)
    return False


async def typed(pilot: Pilot[None], words: str, enter: bool = True) -> None:
    """Type words key by key."""
    names = {" ": "space", "-": "minus", ".": "full_stop", ",": "comma"}
    await pilot.press(*(names.get(character, character) for character in words))
    if enter:
        await pilot.press("enter")
    await pilot.pause()


def drive(
    app: BoxaloudApp,
    play: Callable[[Pilot[None]], Awaitable[None]],
    size: Sequence[int] = (80, 24),
) -> None:
    """Run the app without a terminal and play a part in it."""

    async def run() -> None:
        async with app.run_test(size=(size[0], size[1])) as pilot:
            await pilot.pause()
            await play(pilot)

    asyncio.run(run())
