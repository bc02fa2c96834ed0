"""Entering the box itself: a marked volume, a standard box, rings, covers, barriers."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import inches, listed, marked, say, sentence
from boxaloud.assistant.dialogue.state import PartialBox, State
from boxaloud.assistant.dialogue.tracker import box_parts, measured_box
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import (
    Act,
    AddBarrier,
    AddClampAssembly,
    AddPart,
    NameBoxKind,
    SetClamps,
    SetSize,
    SetVolume,
)
from boxaloud.rules import (
    NoSuchBox,
    RulesError,
    TableRow,
    explain,
    find_rows,
    is_canadian,
    marked_in3,
    table_row,
    validate_part,
)
from boxaloud.rules.contents import Clamps, Marked, Part, TableBox

BY_DEPTH = frozenset({"octagon", "square", "handy"})
"""Families of a few depths each: a box named so is asked for its depth."""

NAMED = {"conduit body": "conduit_body", "pull box": "pull_box"}
"""Enclosures with rules of their own, by name."""

NOT_TABLED = frozenset({"junction", "outlet", "ceiling", "splice", "old work", "new work", "fan"})
"""What a box is for: no family of Table 314.16(A)."""

METRIC = frozenset({"cm3", "liter"})
"""Units of a volume that are turned into cubic inches."""

LARGEST_BARE = 200
"""Cubic inches up to which a number is taken for a volume though its unit was not said: "is
314.16 the one" is none."""
_UNITS = re.compile(r"cub|\bcu\b|\bci\b|in3|in³|\bml\b|\bcc\b|cm3|lit")

MATERIALS = {"nonmetallic": True, "plastic": True, "metal": False}


def volume_of(act: SetVolume | AddPart | AddBarrier | AddClampAssembly) -> Decimal:
    """The volume of an act in cubic inches, that of all gangs where each was said."""
    value = Decimal(0) if act.volume is None else act.volume
    if act.unit == "liter":
        value *= 1000
    value = marked_in3(value) if act.unit in METRIC else value
    if isinstance(act, SetVolume) and act.each:
        value *= act.gangs or 1
    return value


def metric_of(act: SetVolume | AddPart) -> Decimal | None:
    """The cubic centimetres of a metric mark, that of all gangs where each was said; else None."""
    if act.unit not in METRIC or act.volume is None:
        return None
    value = act.volume * 1000 if act.unit == "liter" else act.volume
    gangs = act.gangs or 1
    return value * gangs if isinstance(act, SetVolume) and act.each else value


def box_volume(turn: Turn, act: SetVolume) -> None:
    """A volume marked on the box."""
    if act.volume is None:
        turn.unplaced.append(act.words)
        return
    if act.each and act.gangs is None and turn.state.gangs is None:
        turn.refused.append(say("each_of_how_many", words=act.words))
        turn.unplaced.append(act.words)
        return
    if act.each and act.gangs is None:
        act = replace(act, gangs=turn.state.gangs)
    volume = volume_of(act)
    if volume > LARGEST_BARE and not _UNITS.search(act.words.lower()):
        turn.refuse(act.words, say("say_the_unit", volume=marked(volume)))
        return
    _pick(turn, Marked(volume, "box", metric_of(act)), act)


def set_volume(turn: Turn, volume: Decimal, act: Act) -> None:
    """Take `volume` cubic inches as the box's marking, or say why not."""
    _pick(turn, Marked(volume, "box"), act)


def _pick(turn: Turn, part: Part, act: Act) -> None:
    """Take `part` as the box, or say why the rules refuse it."""
    try:
        validate_part(part)
    except RulesError as refusal:
        turn.refuse(act.words, str(refusal))
        return
    set_box(turn, part, act)


def set_box(turn: Turn, part: Part, act: Act) -> None:
    """Take `part` as the box, in place of the one before."""
    old = turn.state.box
    state = altered(
        turn.state,
        box=(part,),
        partial=None,
        nonmetallic=_material(turn, act),
        tags=_tagged(turn.state, act),
        put_off=turn.state.put_off - {"box", "box_depth"},
        last="box",
    )
    name = item_names.part(part)
    echo = _changed(old[0], part) if old and old != (part,) else sentence(name)
    turn.enter(state, "" if echo in turn.echoes else echo, name)


def _changed(old: Part, new: Part) -> str:
    if isinstance(old, Marked) and isinstance(new, Marked):
        return say("echo.changed_box", old=marked(old.volume), new=marked(new.volume))
    return say("echo.changed_item", old=item_names.part(old), new=item_names.part(new))


def _tagged(state: State, act: Act) -> frozenset[str]:
    """What is minded of a box that its kind tells: a fan hangs from it, or it is a pancake."""
    family = str(getattr(act, "family", ""))
    return state.tags | ({family} & {"fan", "pancake"})


def is_nonmetallic(turn: Turn, act: Act) -> bool:
    """Whether the box, with what an act says of it, is known to be nonmetallic."""
    return _material(turn, act) is True


def _material(turn: Turn, act: Act) -> bool | None:
    said = getattr(act, "material", None)
    return MATERIALS.get(str(said), turn.state.nonmetallic) if said else turn.state.nonmetallic


def box_size(turn: Turn, act: SetSize) -> None:
    """A standard metal box named by its size or picked by its row, Table 314.16(A)."""
    if act.row is not None:
        _pick(turn, TableBox(act.row, act.gangs or 1), act)
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
    partial = PartialBox(
        family=act.family
        or (known.family if known is not None and act.height is None else "device"),
        width=act.width,
        height=act.height,
        depth=act.depth,
        gangs=act.gangs or 1,
    )
    settle(turn, partial, act)


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
            box_parts.add_extra(turn, part)
        return
    if partial.label != "box":
        if partial.label != "extension ring":
            turn.refused.append(say("ring_needs_size", ring=partial.label))
            return
        state = altered(turn.state, partial_ring=partial, last="box")
        turn.enter(state, sentence(act.words), act.words)
        return
    state = altered(
        turn.state, partial=partial, box=(), nonmetallic=_material(turn, act), last="box"
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
    tags = _tagged(turn.state, act)
    state = altered(turn.state, nonmetallic=_material(turn, act), gangs=gangs, tags=tags)
    name, echo = act.name or "", ""
    if name in NAMED:
        state, echo = _named(state, name), say(f"box_named.{NAMED[name]}")
    turn.enter(state, echo, act.words)


def _named(state: State, name: str) -> State:
    """A conduit body or a pull box: raceways end in it, so that no cable clamp is inside."""
    clamps = "none" if state.clamps == "unknown" else state.clamps
    return altered(state, clamps=clamps, tags=state.tags | {name})


def clamps(turn: Turn, act: SetClamps) -> None:
    """Where the cables are clamped, 314.16(B)(2)."""
    if act.where == "present":
        state = altered(turn.state, clamps_mentioned=True, last="clamps")
        turn.enter(state, say("echo.clamps_somewhere"), act.words)
        return
    set_clamps(turn, act.where)


def set_clamps(turn: Turn, where: str) -> None:
    """Enter the place of the clamps: inside, outside, none or moulded."""
    place: dict[str, Clamps] = {
        "inside": "inside",
        "outside": "outside",
        "none": "none",
        "moulded": "moulded",
    }
    old = turn.state.clamps
    state = altered(
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
