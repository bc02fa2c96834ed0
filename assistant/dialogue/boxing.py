"""Entering the box itself: a marked volume, a standard box, rings, covers, barriers."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Literal

from assistant.dialogue import naming
from assistant.dialogue.saying import inches, listed, marked, say, sentence
from assistant.dialogue.state import PartialBox, State
from assistant.dialogue.turn import Turn
from grammar.statements import Statement
from rules import RulesError, TableRow, find_rows, marked_in3, validate_part
from rules.contents import Barrier, Clamps, Marked, Part, TableBox, Unmarked

BY_DEPTH = frozenset({"octagon", "square", "handy"})
"""Families of a few depths each: a box named so is asked for its depth."""

NAMED = {"conduit body": "conduit_body", "pull box": "pull_box"}
"""Enclosures with rules of their own, by name."""

MATERIALS = {"nonmetallic": True, "plastic": True, "metal": False}


def volume_of(statement: Statement) -> Decimal:
    """The volume of a statement in cubic inches."""
    value = Decimal(str(statement.get("volume")))
    return marked_in3(value) if statement.get("unit") == "cm3" else value


def box_volume(turn: Turn, statement: Statement) -> None:
    """A volume marked on the box."""
    set_volume(turn, volume_of(statement), statement)


def set_volume(turn: Turn, volume: Decimal, statement: Statement) -> None:
    """Take `volume` cubic inches as the box's marking, or say why not."""
    _pick(turn, Marked(volume, "box"), statement)


def _pick(turn: Turn, part: Part, statement: Statement) -> None:
    """Take `part` as the box, or say why the rules refuse it."""
    try:
        validate_part(part)
    except RulesError as refusal:
        turn.refused.append(say("refused", words=statement.words, why=str(refusal)))
        return
    _set_box(turn, part, statement)


def _set_box(turn: Turn, part: Part, statement: Statement) -> None:
    old = turn.state.box
    state = replace(
        turn.state,
        box=(part,),
        partial=None,
        nonmetallic=_material(turn, statement),
        put_off=turn.state.put_off - {"box", "box_depth"},
        last="box",
    )
    name = naming.part(part)
    echo = _changed(old[0], part) if old and old != (part,) else sentence(name)
    turn.enter(state, echo, name)


def _changed(old: Part, new: Part) -> str:
    if isinstance(old, Marked) and isinstance(new, Marked):
        return say("echo.changed_box", old=marked(old.volume), new=marked(new.volume))
    return say("echo.changed_item", old=naming.part(old), new=naming.part(new))


def _material(turn: Turn, statement: Statement) -> bool | None:
    said = statement.get("material")
    return MATERIALS.get(str(said), turn.state.nonmetallic) if said else turn.state.nonmetallic


def box_size(turn: Turn, statement: Statement) -> None:
    """A standard metal box named by its size or picked by its row, Table 314.16(A)."""
    if (row := statement.get("row")) is not None:
        _pick(turn, TableBox(str(row), int(statement.get("gangs") or 1)), statement)
        return
    depth = statement.get("depth")
    if statement.get("family") is None and isinstance(depth, Decimal | str):
        if not depth_answer(turn, depth, statement):
            turn.refused.append(say("depth_of_what", words=statement.words))
        return
    partial = PartialBox(
        family=str(statement.get("family", "device")),
        width=_inches(statement, "width"),
        height=_inches(statement, "height"),
        depth=depth if isinstance(depth, Decimal | str) else None,
        gangs=int(statement.get("gangs") or 1),
    )
    settle(turn, partial, statement)


def _inches(statement: Statement, slot: str) -> Decimal | None:
    value = statement.get(slot)
    return None if value is None else Decimal(str(value))


def settle(turn: Turn, partial: PartialBox, statement: Statement) -> None:
    """Find the table rows that `partial` may mean: one is entered, several are asked about."""
    try:
        rows = rows_of(partial)
        for row in rows:
            validate_part(TableBox(row.id, partial.gangs, partial.label))
    except RulesError as refusal:
        turn.refused.append(say("refused", words=statement.words, why=str(refusal)))
        return
    if len(rows) == 1:
        part: Part = TableBox(rows[0].id, partial.gangs, partial.label)
        if partial.label == "box":
            _set_box(turn, part, statement)
        else:
            _add_extra(turn, part)
        return
    if partial.label != "box":
        turn.refused.append(say("ring_needs_size", ring=partial.label))
        return
    state = replace(
        turn.state, partial=partial, box=(), nonmetallic=_material(turn, statement), last="box"
    )
    turn.enter(state, sentence(statement.words), statement.words)


def rows_of(partial: PartialBox) -> tuple[TableRow, ...]:
    """The standard boxes that a partly described one may be. Raises RulesError for none."""
    return find_rows(partial.family, partial.width, partial.height, partial.depth, partial.gangs)


def describe_rows(rows: tuple[TableRow, ...]) -> str:
    """The choices, each with its volume; by depth alone where nothing else tells them apart."""
    outlines = {(row.family, row.width, row.height) for row in rows}
    names = [inches(row.depth) if len(outlines) == 1 else row.name for row in rows]
    chosen = zip(names, rows, strict=True)
    return listed([say("choice", row=name, volume=marked(row.volume)) for name, row in chosen])


def box_kind(turn: Turn, statement: Statement) -> None:
    """A box named without volume or size: what its kind tells is kept, its volume asked."""
    family = str(statement.get("family", ""))
    if family in BY_DEPTH and not turn.state.box and statement.get("material") in (None, "metal"):
        gangs = int(statement.get("gangs") or 1)
        settle(turn, PartialBox(family, gangs=gangs), statement)
        return
    state = replace(turn.state, nonmetallic=_material(turn, statement))
    name, echo = str(statement.get("name") or ""), ""
    if name in NAMED:
        state, echo = _named(state, name), say(f"box_named.{NAMED[name]}")
    elif state.box:
        echo = say("echo.box_stays", words=sentence(statement.words), box=naming.part(state.box[0]))
    turn.enter(state, echo, statement.words)


def _named(state: State, name: str) -> State:
    """A conduit body or a pull box: raceways end in it, so that no cable clamp is inside."""
    clamps = "none" if state.clamps == "unknown" else state.clamps
    return replace(state, clamps=clamps, tags=state.tags | {name})


def part(turn: Turn, statement: Statement) -> None:
    """A ring or cover: it adds its volume when it is marked or made from a table box."""
    label = str(statement.get("name", "ring"))
    if statement.get("volume") is not None:
        thing: Part = Marked(volume_of(statement), label)
    elif statement.get("family") and statement.get("marked") is not False:
        depth = statement.get("depth")
        partial = PartialBox(
            str(statement.get("family")),
            _inches(statement, "width"),
            depth=depth if isinstance(depth, Decimal | str) else None,
            label=label,
        )
        settle(turn, partial, statement)
        return
    else:
        thing = Unmarked(label)
    _try_extra(turn, thing, statement)


def barrier(turn: Turn, statement: Statement) -> None:
    """A barrier that divides the box takes its volume away, 314.16(A)."""
    plastic = MATERIALS.get(str(statement.get("material")))
    material: Literal["metal", "nonmetallic"] = "nonmetallic" if plastic else "metal"
    volume = volume_of(statement) if statement.get("volume") is not None else None
    _try_extra(turn, Barrier(material, volume), statement)


def _try_extra(turn: Turn, thing: Part, statement: Statement) -> None:
    try:
        validate_part(thing)
    except RulesError as refusal:
        turn.refused.append(say("refused", words=statement.words, why=str(refusal)))
        return
    _add_extra(turn, thing)


def _add_extra(turn: Turn, thing: Part) -> None:
    state = replace(turn.state, extras=(*turn.state.extras, thing), last="box")
    name = naming.part(thing)
    turn.enter(state, sentence(name), name)


def clamps(turn: Turn, statement: Statement) -> None:
    """Where the cables are clamped, 314.16(B)(2)."""
    where = str(statement.get("where", "present"))
    if where == "present":
        state = replace(turn.state, clamps_mentioned=True, last="clamps")
        turn.enter(state, say("echo.clamps_somewhere"), statement.words)
        return
    set_clamps(turn, where)


def set_clamps(turn: Turn, where: str) -> None:
    """Enter the place of the clamps: inside, outside, none or moulded."""
    place: dict[str, Clamps] = {
        "inside": "inside",
        "outside": "outside",
        "none": "none",
        "moulded": "moulded",
    }
    old = turn.state.clamps
    state = replace(
        turn.state,
        clamps=place[where],
        last="clamps",
        assumed=turn.state.assumed - {"clamps"},
        put_off=turn.state.put_off - {"clamps"},
    )
    new = say(f"clamps.{where}")
    uncounted = {"none", "outside"}  # the one only says more of the other
    if old not in ("unknown", place[where]) and not {old, place[where]} <= uncounted:
        echo = say("echo.changed_item", old=say(f"clamps.{old}"), new=new)
    else:
        echo = sentence(new)
    turn.enter(state, echo, new)


def depth_answer(turn: Turn, depth: Decimal | str, statement: Statement) -> bool:
    """Take an answer to "how deep is it?"; False where no depth is being asked."""
    if turn.state.partial is None:
        return False
    said = inches(depth) if isinstance(depth, Decimal) else depth
    try:
        rows_of(replace(turn.state.partial, depth=depth))
    except RulesError:
        rows = rows_of(replace(turn.state.partial, depth=None))
        turn.refused.append(say("no_such_depth", depth=said, choices=describe_rows(rows)))
        return True
    settle(turn, replace(turn.state.partial, depth=depth), statement)
    return True
