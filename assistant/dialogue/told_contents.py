"""What of a box was told, and not only named: "porch outlet, 18 cubic inches" has an outlet by its
name alone."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.state import State, to_box
from boxaloud.rules import work_out
from boxaloud.rules.contents import Uncounted


def told_of(state: State) -> State:
    """What is counted: a device that only the box's name told of ("porch outlet, 18 cubic inches")
    is not, where all fits with it too; where it would not, it is."""
    told = _without_named(state)
    if told is state:
        return state
    most = work_out(to_box(state, "most"))
    return told if most.capacity is None or most.high <= most.capacity else state


def _without_named(state: State) -> State:
    """The state without the device by which the box is called, as long as nobody told of it by
    itself; each item keeps its place."""
    if all(item.open != "named" for item in state.items):
        return state
    items = tuple(
        replace(item, content=Uncounted("device"), open="") if item.open == "named" else item
        for item in state.items
    )
    return altered(state, items=items)
