"""Entering a box: a marked volume, and what else a part of it makes of the box at hand."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.interpretation.act_volumes import (
    come_to,
    is_whole,
    metric_of,
    said_in_all,
    volume_of,
)
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import marked, say, sentence
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import Act, NameBoxKind, SetVolume
from boxaloud.rules import RulesError, TableRow, table_row, validate_part
from boxaloud.rules.contents import Marked, Part, TableBox

LARGEST_BARE = 200
"""Cubic inches up to which a number is taken for a volume though its unit was not said: "is
314.16 the one" is none."""
_UNITS = re.compile(r"cub|\bcu\b|\bci\b|in3|in³|\bml\b|\bcc\b|cm3|lit")

MATERIALS = {"nonmetallic": True, "plastic": True, "metal": False}


def box_volume(turn: Turn, act: SetVolume) -> None:
    """A volume marked on the box."""
    if act.volume is None:
        turn.unplaced.append(act.words)
        return
    if said_in_all(act, turn.state.box, turn.state.extras, turn.heard):
        turn.enter(turn.state, "", act.words)
        return
    if is_whole(act, turn.state.extras, turn.heard):
        turn.unplaced.append(act.words)  # which of the figures is right, nobody can tell
        return
    gangs = turn.state.gangs or _gangs_of_table(turn) or _gangs_ahead(turn)
    if act.each and act.gangs is None and gangs is None:
        turn.refused.append(say("each_of_how_many", words=act.words))
        turn.unplaced.append(act.words)
        return
    if act.each and act.gangs is None:
        act = replace(act, gangs=gangs)
    volume = volume_of(act)
    if volume > LARGEST_BARE and not _UNITS.search(act.words.lower()):
        turn.refuse(act.words, say("say_the_unit", volume=marked(volume)))
        return
    if (held := _multiplied_out(turn, volume)) is not None:
        why = say(
            "outside_multiplied", row=held.name, volume=marked(held.volume), said=marked(volume)
        )
        turn.refuse(act.words, why)
        return
    choose_box(turn, Marked(volume, "box", metric_of(act)), act)


_MARKED = re.compile(
    r"(?i)\b(?:mark|stamp|print|label|list|rate|emboss|mould|mold|cast)"
    r"|(?<!tape )(?<!ruler )(?<!rule )(?<!\bhe )(?<!\bshe )(?<!they )(?<!student )(?<!inspector )"
    r"(?<!teacher )(?<!guy )(?<!\bkey )(?<!body )(?<!one )\b(?:say|read)s?\b"
)
_CLOSE = Decimal("0.5")
"""How near to the outside size multiplied a volume is taken for that: such sums are rounded."""


def _multiplied_out(turn: Turn, volume: Decimal) -> TableRow | None:
    """The box at hand where a volume is its outside size multiplied, which is more than the Table
    gives it: "four by four by one and a half, that'd be twenty-four"; None where it is marked."""
    part = turn.state.box[0] if turn.state.box else None
    if not isinstance(part, TableBox) or _MARKED.search(turn.heard):
        return None
    row = table_row(part.row)
    if row.width is None:
        return None
    outside = row.width * (row.height or row.width) * row.depth * part.gangs
    near = abs(outside - volume) <= _CLOSE
    return row if near and volume > row.volume * part.gangs else None


def _gangs_of_table(turn: Turn) -> int | None:
    """How many sections of a standard box are ganged: "three 3x2x2-3/4 boxes, 14 apiece"."""
    ganged = [p.gangs for p in turn.state.box if isinstance(p, TableBox) and p.gangs > 1]
    return ganged[0] if ganged else None


def _gangs_ahead(turn: Turn) -> int | None:
    """How many gangs are said later in the same breath."""
    kinds = [act for act in turn.ahead if isinstance(act, NameBoxKind)]
    return next((kind.gangs for kind in kinds if kind.gangs), None)


_DENIED = re.compile(r"(?i)\b(?:no|not|wrong|wait|actually|sorry|instead)\b|n['’]t\b")
_JUST_BEFORE = 12


def set_volume(turn: Turn, volume: Decimal, act: Act) -> None:
    """Take `volume` cubic inches as the box's marking, or say why not. What the box and its parts
    come to, "… a ring marked 4, so call it 25", is said of them together, 314.16(A)."""
    before = turn.heard.partition(act.words)[0]
    said = before[-_JUST_BEFORE:] + act.words
    if come_to(turn.state.box, turn.state.extras) == volume and not _DENIED.search(said):
        turn.enter(turn.state, "", act.words)
        return
    choose_box(turn, Marked(volume, "box"), act)


def choose_box(turn: Turn, part: Part, act: Act) -> None:
    """Take `part` as the box, or say why the rules refuse it."""
    try:
        validate_part(part)
    except RulesError as refusal:
        turn.refuse(act.words, str(refusal))
        return
    set_box(turn, part, act)


def set_box(turn: Turn, part: Part, act: Act) -> None:
    """Take `part` as the box, in place of the one before: a volume said beside the box that has it
    by the Table is no other box, whichever comes first."""
    old = turn.state.box
    if len(old) == 1 and _table_volume(old[0]) == _volume(part) is not None:
        turn.enter(turn.state, "", item_names.part(old[0]))
        return
    state = altered(
        turn.state,
        box=(part,),
        partial=None,
        nonmetallic=material_of(turn, act),
        tags=tags_of(turn.state, act),
        put_off=turn.state.put_off - {"box", "box_depth"},
        last="box",
    )
    name = item_names.part(part)
    named = len(old) == 1 and _table_volume(part) == _volume(old[0]) is not None
    echo = _changed(old[0], part) if old and old != (part,) and not named else sentence(name)
    turn.enter(state, "" if echo in turn.echoes else echo, name)


def _table_volume(part: Part) -> Decimal | None:
    """The volume that Table 314.16(A) gives a box; None for one that goes by its marking."""
    return table_row(part.row).volume * part.gangs if isinstance(part, TableBox) else None


def _volume(part: Part) -> Decimal | None:
    """The volume marked on a box; None for one that has it by the Table."""
    return part.volume if isinstance(part, Marked) else None


def _changed(old: Part, new: Part) -> str:
    if isinstance(old, Marked) and isinstance(new, Marked):
        return say("echo.changed_box", old=marked(old.volume), new=marked(new.volume))
    return say("echo.changed_item", old=item_names.part(old), new=item_names.part(new))


def tags_of(state: State, act: Act) -> frozenset[str]:
    """What is minded of a box that its kind tells: a fan hangs from it, or it is a pancake."""
    family = str(getattr(act, "family", ""))
    return state.tags | ({family} & {"fan", "pancake"})


def is_nonmetallic(turn: Turn, act: Act) -> bool:
    """Whether the box, with what an act says of it, is known to be nonmetallic."""
    return material_of(turn, act) is True


def material_of(turn: Turn, act: Act) -> bool | None:
    """True for a nonmetallic box, False for a metal one; None where nobody said."""
    said = getattr(act, "material", None)
    return MATERIALS.get(str(said), turn.state.nonmetallic) if said else turn.state.nonmetallic


def add_extra(turn: Turn, thing: Part) -> None:
    """Take a part that stands on the box or in it."""
    state = altered(turn.state, extras=(*turn.state.extras, thing), partial_ring=None, last="box")
    name = item_names.part(thing)
    turn.enter(state, sentence(name), name)
