"""Acts that wait to be confirmed: held back, then released, replaced or dropped."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.belief import belief_table
from boxaloud.assistant.dialogue.belief.slot_values import (
    first_value,
    has_slot,
    slot_for,
    with_value,
)
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.state import State, sizes_present
from boxaloud.assistant.dialogue.state_parts import Pending
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Doubt, Reason, Value
from boxaloud.rules.contents import Cable

DEFINITE = frozenset({"fits", "over"})


def hold(turn: Turn, act: Act) -> bool:
    """Hold a doubtful act back to be asked about; False where there is no doubt.

    Saying a held act again confirms it; another of its kind takes its place.
    """
    if turn.asked == "confirm" and isinstance(act, (acts.Number, acts.Size)) and turn.state.pending:
        return False  # it stands in for the doubtful value: `replaced` looks at its doubt
    if _undoes_held(turn, act):
        return True
    if belief_table.kind(act) not in belief_table.table().holdable or _held_before(turn, act):
        return False
    act = _unsized(turn, act)
    doubt = belief_table.doubt_of(act, turn.spoken)
    if doubt is None:
        return False
    pending = Pending(act, doubt.slot, doubt.reason)
    again = pending.mark in turn.state.rejected
    if belief_table.decide(act, turn.spoken, False, again) == "refuse":
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
    waiting = turn.state.pending
    drastic = pending.reason == "drastic"  # asked at once: the answer is meant for it
    held = (pending, *waiting) if drastic else (*waiting, pending)
    state = altered(turn.state, pending=held)
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
        if not same and not _sized_now(pending.act, act):
            turn.echoes.append(say("echo.instead", words=pending.act.words))
        return same
    return False


def _undoes_held(turn: Turn, act: Act) -> bool:
    """ "Put the 14-2 back in place of the 14-3", while that change waits: it is not made."""
    if not isinstance(act, acts.Replace):
        return False
    for pending in turn.held_before:
        held = pending.act
        if pending not in turn.state.pending or not isinstance(held, acts.Replace):
            continue
        if _sort(held.thing) == _sort(act.target) and _sort(held.target) == _sort(act.thing):
            drop(turn, pending)
            turn.echoes.append(say("echo.dropped", words=held.words))
            return True
    return False


def _sort(one: object) -> tuple[object, ...]:
    return tuple(getattr(one, slot, None) for slot in ("name", "awg", "conductors"))


def _sized_now(held: Act, said: Act) -> bool:
    """Whether what was held is said now with the size that it had not."""
    return (
        isinstance(held, acts.AddCable)
        and isinstance(said, acts.AddCable)
        and held.awg is None
        and held.count == said.count
    )


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
    decision = belief_table.decide(act, turn.spoken, True, pending.mark in before.rejected)
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
    if pending.reason in belief_table.table().valueless:
        turn.answer(say("yes_is_not_enough"), act.words)
        return
    drop(turn, pending)
    turn.confirmed.append(pending)
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
        mistaken=turn.state.mistaken or _is_yet_to_be_said(pending),
    )
    turn.enter(state, say("echo.dropped", words=pending.act.words))


def _is_yet_to_be_said(pending: Pending) -> bool:
    """Whether something is another than it was, and is not what was asked about either."""
    return pending.reason == "some" or isinstance(pending.act, acts.Land)


def replaced(turn: Turn, value: Value, operand: Act) -> None:
    """ "no, three": the value given stands in for the doubtful one it can be.

    Where the new value was heard in doubt too, it is asked back in its turn.
    """
    if not turn.state.pending:
        turn.unplaced.append(operand.words)
        return
    pending = turn.state.pending[0]
    slot = slot_for(pending, value)
    if slot is None or not has_slot(pending.act, slot):
        turn.unplaced.append(operand.words)
        return
    words = f"{pending.act.words}, {operand.words}" if operand.words else pending.act.words
    act = with_value(pending.act, slot, value, words)
    drop(turn, pending)
    turn.state = altered(turn.state, rejected=turn.state.rejected | {pending.mark})
    doubt = belief_table.doubt_of(_named(operand, pending.act), turn.spoken)
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
