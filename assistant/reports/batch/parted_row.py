"""A row whose box is parted by barriers: each side is held against its own volume, 314.16(A)."""

from __future__ import annotations

from boxaloud.assistant.contract.batch_documents import BatchRow
from boxaloud.assistant.dialogue.divided_box import spaces_in
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.reports.batch.batch_row import BadRow
from boxaloud.assistant.reports.batch.column_parser import (
    names_sides,
    placed_in,
    shares_of_row,
)
from boxaloud.rules.contents import Barrier, Box


def parted(row: BatchRow, box: Box) -> State | None:
    """The row as a state that is worked out side by side; None where nothing parts its box.

    Raises BadRow for a thing on a side that the barriers do not make.
    """
    if not any(isinstance(part, Barrier) for part in box.parts) and not names_sides(row):
        return None
    placed = placed_in(row)
    shares = shares_of_row(row)
    items = tuple(
        Item(key, content, "", space=side) for key, (content, side) in enumerate(placed, start=1)
    )
    state = State(
        edition=box.edition,
        items=items,
        box=tuple(part for part in box.parts if not isinstance(part, Barrier)),
        extras=tuple(part for part in box.parts if isinstance(part, Barrier)),
        clamps=box.clamps,
        nonmetallic=box.nonmetallic,
        grounds="said" if box.grounds_known else "unsaid",
        shares=shares or (),
        equal_spaces=shares is None,
        hangs=box.hangs,
        tags=box.tags,
        next_key=len(items) + 1,
    )
    spaces = spaces_in(state)
    if any(side > spaces for _, side in placed) or len(state.shares) > spaces:
        raise BadRow(f"The barriers of this box make {spaces} sides, and more are named.")
    return state if spaces > 1 else None
