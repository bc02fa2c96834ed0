"""A box by the count that the Table allows: "the table lets me have ten wires in this box".

Each of them stands for one allowance: what else is in the box takes its allowances away from
them, 314.16(A) and (B). All conductors are then of one size.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.answer_figures import Figure
from boxaloud.assistant.dialogue.nlg.sentences import counted, say, sentence
from boxaloud.assistant.dialogue.state import State, sizes_present, to_box
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.rules import allowance, is_canadian, room_for
from boxaloud.rules.contents import Conductors, Content, Marked, TerminalBlock, Yoke

_ANY_SIZE = 14
"""Where no size was said, any does: all count in allowances of one conductor."""


def allow(turn: Turn, act: acts.AllowByTable) -> None:
    """So many conductors by the Table: kept for the question how many are left."""
    state = altered(turn.state, table_count=(act.count, act.awg))
    turn.enter(state, sentence(say("echo.table_count", count=counted(act.count))), act.words)


def left_by_table(turn: Turn, act: acts.RoomFor, state: State) -> bool:
    """ "So how many wires are left" of the box as the question has it: False where no count of the
    Table answers it."""
    sizes = sizes_present(state)
    if state.table_count is None or state.box or len(sizes) > 1 or is_canadian(state.edition):
        return False
    count, awg = state.table_count
    size = awg or (sizes[0] if sizes else _ANY_SIZE)
    if sizes and sizes[0] != size:
        return False
    found = room_for(to_box(_of_one_size(state, size, count)), Conductors(size, 1))
    figure = Figure("room", Decimal(found.least), Decimal(found.most), "count")
    key = "room.by_table" if found.least == found.most else "room.by_table_open"
    text = say(key, count=counted(found.most), least=counted(found.least), table=counted(count))
    turn.answer(sentence(text), act.words, figure)
    return True


def _of_one_size(state: State, awg: int, count: int) -> State:
    """The box with the volume of so many conductors, and its devices on their size."""
    items = tuple(replace(item, content=_landed(item.content, awg)) for item in state.items)
    part = Marked(count * allowance(awg).in3)
    return altered(state, box=(part,), partial=None, items=items)


def _landed(content: Content, awg: int) -> Content:
    if isinstance(content, (Yoke, TerminalBlock)) and content.awg is None:
        return replace(content, awg=awg)
    return content
