"""Answers that only mean something to the open question, and yes, no, skip, I don't know."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from assistant.dialogue import boxing, correcting, doubting, entering, finding, naming
from assistant.dialogue.saying import counted, say
from assistant.dialogue.state import Item
from assistant.dialogue.turn import Turn
from grammar.statements import Statement
from rules.contents import FixtureWires, Grounds, Yoke

WORST_CASE = {"clamps", "grounds", "device_size", "block_size", "gangs", "canopy"}
"""Slots that can be left at a worst case; a box's volume has none."""

CORRECTED = ("number", "size", *correcting.CONTENT_KINDS)
"""What may follow a "no" to correct what was said."""

OF_ITEM = {"device_size", "block_size", "gangs"}
"""Slots of a single item: the worst case is assumed for that item alone."""


def number(turn: Turn, statement: Statement) -> None:
    """A bare number: it belongs to the open question, or to nothing."""
    value = Decimal(str(statement.get("value")))
    whole = value == int(value)
    if turn.asked == "confirm":
        doubting.replaced(turn, int(value) if whole else value, statement)
    elif turn.asked == "box" and turn.kinds - {"number"} and value < correcting.LEAST_BOX:
        turn.unplaced.append(statement.words)  # behind other things said, "two" is a count
    elif turn.asked == "box":
        boxing.set_volume(turn, value, statement)
    elif turn.asked == "box_depth":
        boxing.depth_answer(turn, value, statement)
    elif turn.asked == "clamps" and value == 0:
        boxing.set_clamps(turn, "none")
    elif turn.asked == "clamps" and whole:
        boxing.clamps(turn, replace(statement, slots={"where": "present"}))
    elif turn.asked == "grounds" and whole:
        entering.enter(turn, replace(statement, kind="grounds", slots={"count": int(value)}))
    elif turn.asked in ("device_size", "block_size") and whole:
        size(turn, replace(statement, kind="size", slots={"awg": int(value)}))
    elif turn.asked == "gangs" and value in (1, 2, 3):
        set_gangs(turn, int(value))
    elif not whole and (turn.supposed or not turn.state.box):
        boxing.set_volume(turn, value, statement)  # nothing else here is a fraction
    else:
        turn.unplaced.append(statement.words)


def size(turn: Turn, statement: Statement) -> None:
    """A bare wire size: what a device lands on, or a number where a number is wanted."""
    awg = int(statement.get("awg") or 0)
    of_volume = turn.asked == "confirm" and turn.state.pending[0].slot == "volume"
    if turn.asked == "confirm" and not of_volume:  # "on the twelves" is no volume
        doubting.replaced(turn, awg, statement)
    elif turn.asked in ("box", "box_depth", "grounds"):
        number(turn, replace(statement, kind="number", slots={"value": Decimal(awg)}))
    elif turn.asked in ("device_size", "block_size") and turn.subject is not None:
        item = turn.state.item(turn.subject)
        if item is not None:
            correcting.land(turn, item, statement)
    elif (device := _unsized(turn)) is not None:
        correcting.land(turn, device, statement)
    else:
        turn.unplaced.append(statement.words)


def _unsized(turn: Turn) -> Item | None:
    """The device just said, where its size was not: "a receptacle", "on the twelves"."""
    item = turn.state.item(turn.state.last)
    if item is not None and isinstance(item.content, Yoke) and item.content.awg is None:
        return item
    return None


def box_kind(turn: Turn, statement: Statement) -> None:
    """ "two gang": an answer where a device's width is asked, else of the box."""
    gangs = statement.get("gangs")
    if turn.asked == "gangs" and gangs is not None and statement.get("family") is None:
        set_gangs(turn, int(gangs))
    else:
        boxing.box_kind(turn, statement)


def set_gangs(turn: Turn, gangs: int) -> None:
    """How many gangs the device asked about takes."""
    item = turn.state.item(turn.subject or "")
    if item is None or not isinstance(item.content, Yoke):
        turn.unplaced.append(str(gangs))
        return
    content = replace(item.content, gangs=gangs)
    state = turn.state.closed(item.key, content)
    turn.enter(state, say("echo.gangs", what=content.name, gangs=gangs_said(gangs)))


def gangs_said(gangs: int) -> str:
    """ "one gang", "two gangs"."""
    return f"{counted(gangs)} {naming.plural('gang', gangs)}"


def set_canopy(turn: Turn, canopy: bool) -> None:
    """Whether the fixture wires come from a domed canopy, 314.16(B)(1) Exception."""
    state = turn.state
    for item in state.items:
        if item.open == "canopy" and isinstance(item.content, FixtureWires | Grounds):
            state = state.closed(item.key, replace(item.content, canopy=canopy))
    turn.enter(state, say("echo.canopy" if canopy else "echo.no_canopy"))


def place(turn: Turn, statement: Statement) -> None:
    """ "inside", "outside": nothing else in this work is one or the other."""
    boxing.set_clamps(turn, str(statement.get("where")))


def none(turn: Turn, statement: Statement) -> None:
    """ "none": no to the open question."""
    if turn.asked == "clamps":
        boxing.set_clamps(turn, "none")
    elif turn.asked == "grounds":
        turn.enter(replace(turn.state, grounds="none"), say("echo.no_grounds"))
    elif turn.asked == "canopy":
        set_canopy(turn, False)
    elif turn.asked == "confirm":
        doubting.rejected(turn)
    elif turn.asked == "unused":
        skip(turn, statement)
    elif turn.asked == "contents":
        nothing(turn, replace(statement, slots={"of": "else"}))
    elif turn.asked == "box":
        turn.answer(say("how_to.box"), statement.words)
    else:
        turn.unplaced.append(statement.words)


def yes(turn: Turn, statement: Statement) -> None:
    """ "yes": to what was asked back; to an open question it says too little."""
    if turn.asked == "confirm":
        doubting.confirmed(turn, statement)
    elif turn.asked == "clamps":
        boxing.clamps(turn, replace(statement, slots={"where": "present"}))
    elif turn.asked == "grounds":
        entering.enter(turn, replace(statement, kind="grounds", slots={}))
    elif turn.asked == "canopy":
        set_canopy(turn, True)
    elif turn.ahead or turn.trail:
        return  # "yes" before or after what else is said in the same breath
    else:
        key = "fine" if turn.asked is None else "yes_is_not_enough"
        turn.answer(say(key), statement.words)


def no(turn: Turn, statement: Statement) -> None:
    """ "no": an answer, or the start of a correction ("no, three")."""
    if turn.asked == "confirm":
        if turn.next_is("number", "size"):
            return  # the value that follows stands in for the doubtful one
        doubting.rejected(turn)
    elif turn.asked == "unused" and not turn.ahead:
        skip(turn, statement)
    elif turn.next_is("scratch", "undo") or any(one.kind == "take_off" for one in turn.ahead):
        return  # "no, undo that", "no, a switch instead of the GFCI": no question is answered
    elif turn.next_is(*CORRECTED) and doubting.hold(turn, turn.ahead[0], statement):
        turn.take()  # a doubtful correction is asked back as any doubtful statement is
    elif turn.next_is("number", "size"):
        operand = turn.take()
        assert operand is not None
        correcting.bare(turn, operand)
    elif _answers(turn):
        none(turn, statement)
    elif turn.next_is(*correcting.CONTENT_KINDS):
        operand = turn.take()
        assert operand is not None
        correcting.replace_with(turn, operand)
    elif turn.next_is("make_that", "change", "take_off", "box_volume", "clamps"):
        return  # the correction itself follows
    elif turn.ahead:
        return
    else:
        turn.answer(say("no_what"), statement.words)


def _answers(turn: Turn) -> bool:
    """True where "no" answers the open question; not where a thing said before is counted anew."""
    if turn.asked not in ("clamps", "grounds", "canopy") or turn.trail:
        return False
    said = turn.ahead[0] if turn.next_is(*correcting.CONTENT_KINDS) else None
    if said is None or said.get("count") is None:
        return True
    return finding.matching(turn.state, said) is None


def nothing(turn: Turn, statement: Statement) -> None:
    """ "no devices", "nothing else in it"."""
    of = str(statement.get("of", "else"))
    if of == "canopy":
        set_canopy(turn, False)
        return
    state = turn.state
    if of == "other":
        turn.enter(state, say("echo.no_other"))
        return
    if of != "else":
        entering.none_of(turn, statement, {"device": "device", "fitting": "fitting"}.get(of), of)
        return
    changes: list[str] = []
    if state.clamps == "unknown":
        state = replace(state, clamps="none")
        changes.append(say("clamps.none"))
    if state.grounds == "unsaid" and not _has_grounds(turn):
        state = replace(state, grounds="none")
        changes.append(say("no_grounds"))
    state = replace(state, empty=True)
    turn.enter(state, say("echo.nothing_else", so=", ".join(changes)) if changes else say("fine"))


def _has_grounds(turn: Turn) -> bool:
    return any(getattr(item.content, "ground", None) is not None for item in turn.state.items)


def skip(turn: Turn, statement: Statement) -> None:
    """Leave the open question: at its worst case where it has one, and marked so."""
    asked = turn.asked
    if asked is None:
        turn.answer(say("nothing_to_skip"), statement.words)
    elif asked == "confirm":
        doubting.rejected(turn)
    elif asked == "unused":
        turn.enter(
            replace(turn.state, unused=(), unused_with=frozenset()),
            say("echo.left_out"),
            statement.words,
        )
    elif asked in WORST_CASE:
        _assume(turn, asked, statement)
    else:
        state = replace(turn.state, put_off=turn.state.put_off | {asked})
        turn.enter(state, say(f"put_off.{asked}"), statement.words)


def dont_know(turn: Turn, statement: Statement) -> None:
    """How to find out; the worst case stands until then."""
    asked = turn.asked
    if asked is None:
        turn.answer(say("nothing_asked"), statement.words)
        return
    turn.answer(say(f"how_to.{asked}"), statement.words)
    if asked in WORST_CASE:
        turn.understood.pop()
        _assume(turn, asked, statement)


def _assume(turn: Turn, slot: str, statement: Statement) -> None:
    """Leave a slot at its worst case; one of a single item leaves only that item so."""
    item = turn.state.item(turn.subject or "") if slot in OF_ITEM else None
    name = f"{slot} {item.key}" if item is not None else slot
    what = "" if item is None else naming.bare(item.content)
    state = replace(turn.state, assumed=turn.state.assumed | {name})
    turn.enter(state, say(f"worst.{slot}", what=what), statement.words)
