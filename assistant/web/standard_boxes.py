"""Standard boxes to choose from, each with whether the box at hand would fit into it."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.dialogue.nlg.sentences import marked
from boxaloud.assistant.tui.presenters.box_search import (
    Pick,
    filled_by,
    search,
    volume_typed,
)
from boxaloud.assistant.tui.presenters.trade_writing import sizes_written
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.assistant.web.page_documents import StandardBox, StandardBoxes
from boxaloud.rules import table_boxes

MOST_GANGS = 6


def found(conversation: Conversation, query: str, gangs: int) -> StandardBoxes:
    """The boxes whose name, family or volume holds every word of `query`."""
    filled = filled_by(conversation.talk.state)
    picks = search(query[:100], max(1, min(gangs, MOST_GANGS)), filled)
    return StandardBoxes(tuple(map(_shown, picks)))


def _shown(pick: Pick) -> StandardBox:
    standing = pick.standing
    if pick.row is None:
        what, section, row = text("picker.marked", volume=marked(pick.volume)), "", ""
    else:
        key = "row" if pick.gangs == 1 else "ganged"
        what = text(f"picker.{key}", name=sizes_written(pick.row.name), gangs=pick.gangs)
        section, row = pick.row.note.section, pick.row.id
    return StandardBox(
        what, marked(pick.capacity), section, standing[0] if standing else None, pick.fit, row,
        pick.gangs,
    )  # fmt: skip


def picked(row: str, gangs: int, volume: str) -> Pick | None:
    """The box that was chosen; None where there is no such box."""
    if not row:
        value = volume_typed(volume)
        return None if value is None else Pick(None, 1, Decimal(value))
    known = next((one for one in table_boxes() if one.id == row), None)
    if known is None or not 1 <= gangs <= MOST_GANGS or (gangs > 1 and not known.gangs):
        return None
    return Pick(known, gangs)
