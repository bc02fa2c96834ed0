"""Grounds and jumpers whose size nobody said: each is as large as the wires in the box need.

It hangs on all that is in the box, so that the order in which things are said changes nothing.
"""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.state import State, sizes_present
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.rules import ground_for
from boxaloud.rules.contents import BondingJumper, Grounds

_SMALLEST = 14
"""AWG of a ground in a box in which no wire is known yet."""


def unsaid_size(state: State) -> int:
    """AWG of a ground of which no size was said: by the largest conductor of the box."""
    present = sizes_present(state)
    return ground_for(present[0]) if present else _SMALLEST


def resized(state: State) -> State:
    """`state` with each such ground at the size that its wires now need."""
    if not any(item.sized_by_wires for item in state.items):
        return state
    awg = unsaid_size(state)
    items = tuple(_resized(item, awg) for item in state.items)
    return state if items == state.items else altered(state, items=items)


def _resized(item: Item, awg: int) -> Item:
    content = item.content
    if not item.sized_by_wires or not isinstance(content, Grounds | BondingJumper):
        return item
    return item if content.awg == awg else replace(item, content=replace(content, awg=awg))
