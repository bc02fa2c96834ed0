"""What became of something said to an ear: entered as meant, wrongly, asked back, or nothing."""

from __future__ import annotations

from collections import Counter

from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.state import State

#: Entered otherwise than said, and not asked back, though it counts the same.
OTHERWISE = "otherwise"


def result(state: State) -> object:
    """What is counted of a box, and what it holds."""
    sheet = assess(state).sheet
    return sheet.total, sheet.capacity


def contents(state: State) -> dict[str, object]:
    """What counts of a box."""
    return {
        "items": Counter(repr(item.content) for item in state.items),
        "box": (state.box, state.partial, state.extras),
        "clamps": state.clamps,
        "grounds": state.grounds,
        "edition": state.edition,
        "pulls": state.pulls,
    }


def judged(got: State, meant: State, heard_right: bool) -> str:
    """Entered as meant, entered wrongly, asked back, or nothing at all.

    What is held until it is confirmed, or until words nobody could use are settled, is asked.
    """
    has, wants, empty = contents(got), contents(meant), contents(State())
    held = bool(got.pending or got.unread)
    if has == wants and not held and (wants != empty or heard_right):
        return "same"
    part = all(has[name] in (wants[name], empty[name]) for name in has if name != "items")
    if not part or has["items"] - wants["items"]:  # type: ignore[operator]
        return "wrong"
    if held:
        return "asked, rightly heard" if heard_right else "asked, misheard"
    return "nothing" if has == empty else "less"
