"""Entering a standard metal box by its size, Table 314.16(A), and boxes named without one."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.nlg.sentences import inches, listed, marked, say, sentence
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import PartialBox
from boxaloud.assistant.dialogue.tracker import marked_box, measured_box
from boxaloud.assistant.dialogue.tracker.marked_box import (
    choose_box,
    material_of,
    set_box,
    tags_of,
)
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import (
    Act,
    NameBoxKind,
    SetSize,
)
from boxaloud.rules import (
    NoSuchBox,
    RulesError,
    TableRow,
    explain,
    find_rows,
    is_canadian,
    table_row,
    validate_part,
)
from boxaloud.rules.contents import Part, TableBox

BY_DEPTH = frozenset({"octagon", "square", "handy"})
"""Families of a few depths each: a box named so is asked for its depth."""

NAMED = {"conduit body": "conduit_body", "pull box": "pull_box"}
"""Enclosures with rules of their own, by name."""

NOT_TABLED = frozenset({"junction", "outlet", "ceiling", "splice", "old work", "new work", "fan"})
"""What a box is for: no family of Table 314.16(A)."""


def box_size(turn: Turn, act: SetSize) -> None:
    """A standard metal box named by its size or picked by its row, Table 314.16(A)."""
    if act.row is not None:
        choose_box(turn, TableBox(act.row, act.gangs or 1), act)
        return
    if act.family is None and act.width is None and act.depth is not None:
        if not depth_answer(turn, act.depth, act) and not _deeper(turn, act.depth, act):
            turn.refused.append(say("depth_of_what", words=act.words))
        return
    if act.family == "device" and act.width == 4 and act.height is not None:
        act = replace(act, family="handy")  # 4 x 2-1/8 is the handy box's size, Table 314.16(A)
    if act.family in NOT_TABLED and act.width is not None:
        act = replace(act, family="square" if act.height in (None, act.width) else None)
    known = turn.state.partial
    if act.unit is not None:
        act = measured_box.in_inches(act)
    if act.depth is not None and (_deep_by_face(turn, act) or _said_again(turn, act)):
        _deeper(turn, act.depth, act)
        return
    partial = PartialBox(
        family=act.family
        or (known.family if known is not None and act.height is None else "device"),
        width=act.width,
        height=act.height,
        depth=act.depth,
        gangs=act.gangs or _gangs_known(known, act),
    )
    settle(turn, partial, act)


def _gangs_known(known: PartialBox | None, act: SetSize) -> int:
    """ "Three gangable boxes joined", and then their size: still three of them."""
    joined = known is not None and known.family in ("device", act.family or "device")
    return known.gangs if known is not None and joined else 1


def _deep_by_face(turn: Turn, act: SetSize) -> bool:
    """ "The deep one, four by 2-1/8": by face and depth of the box at hand. Without "deep" a face
    of 4 by 2-1/8 may be a handy box's, Table 314.16(A)."""
    box = turn.state.box[0] if turn.state.box else None
    if act.family is not None or act.height is not None or not isinstance(box, TableBox):
        return False
    return act.width == table_row(box.row).width and "deep" in act.words.lower()


def _said_again(turn: Turn, act: SetSize) -> bool:
    """ "Deep octagon", and then "four by two and an eighth": the measures of the very row of Table
    314.16(A) at hand, of which no device box is."""
    box = turn.state.box[0] if turn.state.box else None
    if act.family is not None or act.height is not None or not isinstance(box, TableBox):
        return False
    row = table_row(box.row)
    return (act.width, act.depth) == (row.width, row.depth)


def _deeper(turn: Turn, depth: Decimal | str, act: Act) -> bool:
    """ "No, the deep one": the standard box at hand in another depth; False for any other box."""
    box = turn.state.box[0] if turn.state.box else None
    if not isinstance(box, TableBox):
        return False
    row = table_row(box.row)
    settle(turn, PartialBox(row.family, row.width, row.height, depth, box.gangs), act)
    return True


def settle(turn: Turn, partial: PartialBox, act: Act) -> None:
    """Find the table rows that `partial` may mean: one is entered, several are asked about."""
    try:
        rows = rows_of(partial)
        for row in rows:
            validate_part(TableBox(row.id, partial.gangs, partial.label))
    except NoSuchBox as refusal:
        if not measured_box.measured(turn, partial, act):
            turn.refuse(act.words, str(refusal))
        return
    except RulesError as refusal:
        turn.refuse(act.words, str(refusal))
        return
    if partial.label == "box" and is_canadian(turn.state.edition):
        turn.refused.append(explain("ca-unmarked").says)
        turn.understood.append(act.words)
        return
    if len(rows) == 1:
        part: Part = TableBox(rows[0].id, partial.gangs, partial.label)
        if partial.label == "box":
            set_box(turn, part, act)
        else:
            marked_box.add_extra(turn, part)
        return
    if partial.label != "box":
        if partial.label != "extension ring":
            turn.refused.append(say("ring_needs_size", ring=partial.label))
            return
        state = altered(turn.state, partial_ring=partial, last="box")
        turn.enter(state, sentence(act.words), act.words)
        return
    state = altered(
        turn.state, partial=partial, box=(), nonmetallic=material_of(turn, act), last="box"
    )
    turn.enter(state, sentence(act.words), act.words)


def rows_of(partial: PartialBox) -> tuple[TableRow, ...]:
    """The standard boxes that a partly described one may be. Raises RulesError for none."""
    return find_rows(partial.family, partial.width, partial.height, partial.depth, partial.gangs)


def describe_rows(rows: tuple[TableRow, ...]) -> str:
    """The choices, each with its volume; by depth alone where nothing else tells them apart."""
    outlines = {(row.family, row.width, row.height) for row in rows}
    names = [inches(row.depth) if len(outlines) == 1 else row.name for row in rows]
    chosen = zip(names, rows, strict=True)
    return listed([say("choice", row=name, volume=marked(row.volume)) for name, row in chosen])


def box_kind(turn: Turn, act: NameBoxKind) -> None:
    """A box named without volume or size: what its kind tells is kept, its volume asked."""
    family = act.family or ""
    if family in BY_DEPTH and not turn.state.box and act.material in (None, "metal"):
        settle(turn, PartialBox(family, gangs=act.gangs or 1), act)
        return
    gangs = act.gangs or turn.state.gangs
    tags = tags_of(turn.state, act)
    state = altered(turn.state, nonmetallic=material_of(turn, act), gangs=gangs, tags=tags)
    name, echo = act.name or "", ""
    if name in NAMED:
        state, echo = _named(state, name), say(f"box_named.{NAMED[name]}")
    turn.enter(state, echo, act.words)


def _named(state: State, name: str) -> State:
    """A conduit body or a pull box: raceways end in it, so that no cable clamp is inside."""
    clamps = "none" if state.clamps == "unknown" else state.clamps
    return altered(state, clamps=clamps, tags=state.tags | {name})


def depth_answer(turn: Turn, depth: Decimal | str, act: Act) -> bool:
    """Take an answer to "how deep is it?"; False where no depth is being asked."""
    if turn.state.partial is None and turn.state.partial_ring is not None:
        settle(turn, replace(turn.state.partial_ring, depth=depth), act)
        return True
    if turn.state.partial is None:
        return False
    said = inches(depth) if isinstance(depth, Decimal) else depth
    try:
        rows_of(replace(turn.state.partial, depth=depth))
    except RulesError:
        rows = rows_of(replace(turn.state.partial, depth=None))
        turn.refused.append(say("no_such_depth", depth=said, choices=describe_rows(rows)))
        return True
    settle(turn, replace(turn.state.partial, depth=depth), act)
    return True
