"""The volume that Table 314.16(A) gives for the box at hand."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import Number, SetSize
from boxaloud.rules import table_row
from boxaloud.rules.contents import TableBox


def is_its_volume(turn: Turn, value: Decimal) -> bool:
    """ "FS box, …, 13.5": the volume that the table gives for the box that was named."""
    box = turn.state.box
    if len(box) != 1 or not isinstance(box[0], TableBox):
        return False
    return value == table_row(box[0].row).volume * box[0].gangs


def said_of_box(turn: Turn, number: Number, value: Decimal) -> bool:
    """True where a number can be a volume: a fraction, "21.0", or what stands right behind the size
    of a box."""
    behind = bool(turn.done) and isinstance(turn.done[-1], SetSize)
    return value != int(value) or "." in number.words or behind
