"""Belief: whether an act is accepted, asked back or refused. One table for all of it.

What is asked back of typed text is less than of heard: a keyboard does not mishear, so only a
value that is rarely right, a word that is also another's number ("for", "to"), "some" for a
number, wires without a size and an unknown operator are asked about. An ear is also asked about
words it was unsure of, a mended noun, words that nobody could use, and a value that turns the
verdict over.
"""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from decimal import Decimal
from functools import lru_cache
from importlib.resources import files
from typing import Literal, TypeAlias

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.state import Pending, State, sizes_present
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Doubt, Reason, Value
from boxaloud.rules.contents import Cable

Decision: TypeAlias = Literal["accept", "ask", "refuse"]
DEFINITE = frozenset({"fits", "over"})
WIRE_SIZES = frozenset({18, 16, 14, 12, 10, 8, 6})
VALUES = ("count", "awg", "volume", "value", "conductors", "gangs", "where", "depth", "year")
"""Slots that carry a value, in the order they are taken to be meant."""


@dataclass(frozen=True, slots=True)
class Table:
    """The thresholds and kinds of `data/belief.toml`."""

    sure: float
    typed: frozenset[str]
    heard: frozenset[str]
    valueless: frozenset[str]
    vague: frozenset[str]
    deciding: dict[str, str]
    flipping: frozenset[str]
    holdable: frozenset[str]


@lru_cache(maxsize=1)
def table() -> Table:
    """The table, read once."""
    path = files("boxaloud.assistant.dialogue.belief") / "data" / "belief.toml"
    data = tomllib.loads(path.read_text(encoding="utf-8"))
    flipping = frozenset(data["flipping"]["acts"])
    return Table(
        sure=float(data["sure"]),
        typed=frozenset(data["ask"]["typed"]),
        heard=frozenset(data["ask"]["heard"]),
        valueless=frozenset(data["ask"]["valueless"]),
        vague=frozenset(data["vague"]["acts"]),
        deciding=dict(data["deciding"]),
        flipping=flipping,
        holdable=flipping | frozenset(data["holdable"]["acts"]),
    )


def kind(act: Act) -> str:
    """The name of an act's intent."""
    return type(act).__name__


def unsure(act: Act, confidence: float) -> Act:
    """An act heard with so much confidence, with a doubt where its deciding word was unsure."""
    known = table()
    if confidence >= known.sure or kind(act) not in known.deciding or act.doubts:
        return act
    return replace(act, doubts=(Doubt(known.deciding[kind(act)], "heard"),))


def doubt_of(act: Act, spoken: bool) -> Doubt | None:
    """The first doubt of an act that must be asked back."""
    if not act.doubts:
        return None
    known = table()
    asked = known.heard if spoken else known.typed
    for doubt in act.doubts:
        if doubt.reason not in asked:
            continue
        if doubt.reason == "vague" and kind(act) not in known.vague:
            continue
        return doubt
    return None


def decide(act: Act, spoken: bool, flips: bool, rejected: bool = False) -> Decision:
    """What becomes of an act: the whole of the safety net in one place.

    Args:
        act: the full act, with its doubts.
        spoken: True where an ear gave the words.
        flips: True where it turns a definite verdict over.
        rejected: True where just this was turned down before.
    """
    known = table()
    if kind(act) not in known.holdable:
        return "accept"
    doubtful = doubt_of(act, spoken) is not None
    turns = spoken and flips and kind(act) in known.flipping
    if not (doubtful or turns):
        return "accept"
    return "refuse" if rejected else "ask"


def hold(turn: Turn, act: Act) -> bool:
    """Hold a doubtful act back to be asked about; False where there is no doubt.

    Saying a held act again confirms it; another of its kind takes its place.
    """
    if turn.asked == "confirm" and isinstance(act, (acts.Number, acts.Size)) and turn.state.pending:
        return False  # it stands in for the doubtful value: `replaced` looks at its doubt
    if kind(act) not in table().holdable or _held_before(turn, act):
        return False
    act = _unsized(turn, act)
    doubt = doubt_of(act, turn.spoken)
    if doubt is None:
        return False
    pending = Pending(act, doubt.slot, doubt.reason)
    if decide(act, turn.spoken, False, pending.mark in turn.state.rejected) == "refuse":
        _refuse_again(turn, pending)
    else:
        _wait(turn, pending)
    return True


def _unsized(turn: Turn, act: Act) -> Act:
    """Wires without a size: there is nothing to take it from, unless one size alone is there."""
    loose = (
        isinstance(act, acts.AddConductors)
        and act.awg is None
        and len(sizes_present(turn.state)) != 1
    )
    cable = (
        isinstance(act, acts.AddCable) and act.awg is None
        and not any(isinstance(item.content, Cable) for item in turn.state.items)
    )  # fmt: skip
    if loose or cable:
        return replace(act, doubts=(*act.doubts, Doubt("awg", "unsized")))
    return act


def wait(turn: Turn, act: Act, slot: str, reason: Reason) -> None:
    """Hold an act back until what is missing of it is said."""
    _wait(turn, Pending(act, slot, reason))


def _wait(turn: Turn, pending: Pending) -> None:
    state = altered(turn.state, pending=(*turn.state.pending, pending))
    turn.enter(state, "", say("understood.held", words=pending.act.words))


def settle_operator(turn: Turn, act: Act) -> None:
    """ "Take it out", "one more", "leave it": that is what the unknown verb meant."""
    if not (turn.state.pending and isinstance(act, (acts.Remove, acts.More, acts.Keep))):
        return
    pending = turn.state.pending[0]
    if pending.reason == "operator" and pending in turn.held_before:
        drop(turn, pending)


def _held_before(turn: Turn, act: Act) -> bool:
    """Settle an act held since an earlier utterance by what is said now.

    True where it is the same again, and so no longer in doubt.
    """
    for pending in turn.held_before:
        if pending not in turn.state.pending or not _of_one_subject(pending.act, act):
            continue
        same = pending.mark == Pending(act, "", "heard").mark
        drop(turn, pending)
        if not same:
            turn.echoes.append(say("echo.instead", words=pending.act.words))
        return same
    return False


def _of_one_subject(held: Act, said: Act) -> bool:
    """Whether an act is about what another is about; a denial only where it denies the same."""
    if isinstance(held, acts.Deny) and isinstance(said, acts.Deny):
        one, other = held.target, said.target
        return (one.kind, one.name, one.awg) == (other.kind, other.name, other.awg)
    return type(held) is type(said)


def _refuse_again(turn: Turn, pending: Pending) -> None:
    """A value turned down is not proposed again; the next time it is said it counts."""
    turn.enter(
        altered(turn.state, rejected=turn.state.rejected - {pending.mark}),
        say("echo.again_heard", words=pending.act.words),
        say("understood.held", words=pending.act.words),
    )


def hold_flip(turn: Turn, before: State, act: Act) -> bool:
    """After an act by ear: hold it back if it turned the verdict over."""
    if before == turn.state or before.pending or turn.state.pending:
        return False
    if {assess(before).verdict, assess(turn.state).verdict} != DEFINITE:
        return False
    pending = Pending(act, first_value(act), "flips")
    decision = decide(act, turn.spoken, True, pending.mark in before.rejected)
    if decision == "accept":
        return False
    turn.state = before
    if decision == "refuse":
        _refuse_again(turn, pending)
    else:
        _wait(turn, pending)
    return True


def confirmed(turn: Turn, act: Act) -> None:
    """ "yes": the held act counts."""
    if not turn.state.pending:
        return  # it was settled earlier in the same breath
    pending = turn.state.pending[0]
    if pending.reason in table().valueless:
        turn.answer(say("yes_is_not_enough"), act.words)
        return
    drop(turn, pending)
    release(turn, pending.act)


def rejected(turn: Turn) -> None:
    """ "no": the held act is dropped, and its value not proposed again."""
    if not turn.state.pending:
        return  # it was settled earlier in the same breath
    pending = turn.state.pending[0]
    state = altered(
        turn.state,
        pending=turn.state.pending[1:],
        rejected=turn.state.rejected | {pending.mark},
    )
    turn.enter(state, say("echo.dropped", words=pending.act.words))


def replaced(turn: Turn, value: Value, operand: Act) -> None:
    """ "no, three": the value given stands in for the doubtful one it can be.

    Where the new value was heard in doubt too, it is asked back in its turn.
    """
    if not turn.state.pending:
        turn.unplaced.append(operand.words)
        return
    pending = turn.state.pending[0]
    slot = slot_for(pending, value)
    if slot is None or not _has(pending.act, slot):
        turn.unplaced.append(operand.words)
        return
    words = f"{pending.act.words}, {operand.words}" if operand.words else pending.act.words
    act = with_value(pending.act, slot, value, words)
    drop(turn, pending)
    turn.state = altered(turn.state, rejected=turn.state.rejected | {pending.mark})
    doubt = doubt_of(_named(operand, pending.act), turn.spoken)
    if doubt is None:
        release(turn, act)
        return
    again = Pending(replace(act, doubts=(replace(doubt, slot=slot),)), slot, doubt.reason)
    if again.mark in turn.state.rejected:
        _refuse_again(turn, again)
    else:
        _wait(turn, again)


def _named(operand: Act, held: Act) -> Act:
    """The held act with the doubts of the value that is to stand in it."""
    return replace(held, doubts=operand.doubts)


def _has(act: Act, slot: str) -> bool:
    """Whether an act, or the thing it is about, has a slot: a denial counts nothing."""
    return hasattr(act, slot) or hasattr(getattr(act, "thing", None), slot)


def with_value(act: Act, slot: str, value: Value, words: str) -> Act:
    """The act with another value in a slot, or in that of the thing it is about, and no doubt."""
    number = as_slot(slot, value)
    thing = getattr(act, "thing", None)
    if thing is not None and slot not in {field.name for field in fields(act)}:
        inner = replace(thing, **{slot: number}, doubts=())
        return replace(act, thing=inner, words=words, doubts=())  # type: ignore[call-arg]
    return replace(act, **{slot: number}, words=words, doubts=())  # type: ignore[arg-type]


def drop(turn: Turn, pending: Pending) -> None:
    """Take a held act out of the line of those to be asked about."""
    turn.trail.append(turn.state)
    held = tuple(other for other in turn.state.pending if other is not pending)
    turn.state = altered(turn.state, pending=held)


def release(turn: Turn, act: Act) -> None:
    """Put the act back in line, free of doubt."""
    thing = getattr(act, "thing", None)
    clear = replace(act, doubts=())
    if thing is not None:
        clear = replace(clear, thing=replace(thing, doubts=()))  # type: ignore[call-arg]
    turn.settled = clear
    turn.ahead.insert(0, clear)


# -- which slot a bare value is meant for ------------------------------------------------------


def slots_of(act: Act) -> dict[str, Value]:
    """The values that an act carries, those of the thing it is about among them."""
    thing = getattr(act, "thing", None)
    found: dict[str, Value] = {}
    for source in (act, thing) if thing is not None else (act,):
        for slot in VALUES:
            value = getattr(source, slot, None)
            if value is not None:
                found.setdefault(slot, value)
    return found


def first_value(act: Act) -> str:
    """The slot of an act that is its quantity, else its size; empty where it has neither."""
    found = slots_of(act)
    return next((slot for slot in VALUES if slot in found), "")


def slot_for(pending: Pending, value: Value) -> str | None:
    """The slot that `value` stands in for: one in doubt that it can be, else any; None for none.

    A value that the ear gave as the other reading of a slot is meant for that slot.
    """
    doubts: Sequence[Doubt] = pending.act.doubts
    doubted = [doubt.slot for doubt in doubts] or [pending.slot]
    for doubt in doubts:
        if doubt.instead is not None and _number(doubt.instead) == _number(value):
            return doubt.slot
    if pending.reason == "unsized":
        return "awg" if _can_be("awg", value) else None
    numeric = [slot for slot in doubted if slot in VALUES]
    for slot in (*numeric, *slots_of(pending.act)):
        if _can_be(slot, value):
            return slot
    return "count" if pending.reason == "vague" and _can_be("count", value) else None


def _can_be(slot: str, value: Value) -> bool:
    number = _number(value)
    if number is None:
        return False
    match slot:
        case "awg":
            return number in WIRE_SIZES
        case "conductors":
            return number in (2, 3, 4)
        case "count" | "gangs":
            return number == int(number) and 0 <= number <= 60
        case "volume" | "value" | "depth":
            return True
    return False


def as_slot(slot: str, value: Value) -> Value:
    """The value as its slot holds it: a volume is a Decimal, a count a whole number."""
    number = _number(value)
    if slot in ("volume", "value", "depth") or number is None:
        return value if number is None else number
    return int(number)


def _number(value: Value) -> Decimal | None:
    if isinstance(value, bool) or not isinstance(value, int | Decimal):
        return None
    return Decimal(value)
