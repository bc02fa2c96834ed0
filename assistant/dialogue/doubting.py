"""Doubt: what was heard in doubt is asked back before it counts.

What is asked back of typed text is less than of heard: a keyboard does not mishear, so only a
value that is rarely right, a word that is also another's number ("for", "to"), and "some" for
a number are asked about. An ear is also asked about words it was unsure of, a mended noun,
words that it heard and nobody could use, and a value that turns the verdict over.
"""

from __future__ import annotations

from dataclasses import replace

from assistant.dialogue import choosing, explicit
from assistant.dialogue.assessing import assess
from assistant.dialogue.saying import say
from assistant.dialogue.state import Pending, State, sizes_present
from assistant.dialogue.turn import Turn
from grammar.statements import Doubt, Statement, Value

TYPED = frozenset({"confusable", "unusual", "vague"})
HEARD = TYPED | {"heard", "beside", "repaired", "flips"}
OPERATORS = frozenset({"make_that", "change", "take_off", "more"})
COUNT_MATTERS = frozenset({"cable", "conductors", "device", "terminal_block"})
"""Kinds of which "some" is not enough. Of fittings each type counts once, fixture wires from
a canopy are left out, and grounds without a number are taken as one allowance, and said so."""

BARE = frozenset({"number", "size"})
DEFINITE = frozenset({"fits", "over"})


def doubt_of(turn: Turn, statement: Statement) -> Doubt | None:
    """The first doubt of a statement that must be asked back."""
    asked_back = HEARD if turn.spoken else TYPED
    return next(
        (
            doubt
            for doubt in statement.doubts
            if doubt.reason in asked_back
            and (doubt.reason != "vague" or statement.kind in COUNT_MATTERS)
        ),
        None,
    )


def hold(turn: Turn, statement: Statement, verb: Statement | None = None) -> bool:
    """Hold a doubtful statement back to be asked about; False where there is no doubt.

    Saying a held statement again confirms it; another of its kind takes its place.
    """
    if turn.asked == "confirm" and statement.kind in BARE and verb is None and turn.state.pending:
        return False  # it stands in for the doubtful value: `replaced` looks at its doubt
    full = explicit.answer(turn, statement) if verb is None else statement
    if _held_before(turn, full, verb):
        return False
    doubt = doubt_of(turn, full) or _unsized(turn, full)
    if doubt is None:
        return False
    pending = Pending(full, doubt.slot, doubt.reason, verb)
    if pending.mark in turn.state.rejected:
        _refuse_again(turn, pending)
    else:
        _wait(turn, pending)
    return True


def _unsized(turn: Turn, statement: Statement) -> Doubt | None:
    """Wires without a size: there is nothing to take it from, unless one size alone is there."""
    unsaid = statement.kind == "conductors" and "awg" not in statement.slots
    if not unsaid or len(sizes_present(turn.state)) == 1:
        return None
    return Doubt("awg", "unsized")


def _wait(turn: Turn, pending: Pending) -> None:
    state = replace(turn.state, pending=(*turn.state.pending, pending))
    turn.enter(state, "", say("understood.held", words=pending.statement.words))


def _held_before(turn: Turn, statement: Statement, verb: Statement | None) -> bool:
    """Settle a statement held since an earlier utterance by what is said now.

    True where it is the same again, and so no longer in doubt.
    """
    for pending in turn.held_before:
        if pending not in turn.state.pending or pending.statement.kind != statement.kind:
            continue
        if verb is not None and (pending.verb is None or pending.verb.kind != verb.kind):
            continue
        same = pending.statement.slots == statement.slots
        drop(turn, pending)
        if not same:
            turn.echoes.append(say("echo.instead", words=pending.statement.words))
        return same
    return False


def _refuse_again(turn: Turn, pending: Pending) -> None:
    """A value turned down is not proposed again; the next time it is said it counts."""
    turn.enter(
        replace(turn.state, rejected=turn.state.rejected - {pending.mark}),
        say("echo.again_heard", words=pending.statement.words),
        say("understood.held", words=pending.statement.words),
    )


def hold_flip(turn: Turn, before: State, words: Statement, verb: Statement | None) -> bool:
    """After a statement by ear: hold it back if it turned the verdict over."""
    if not turn.spoken or before == turn.state or before.pending or turn.state.pending:
        return False
    verdicts = {assess(before).verdict, assess(turn.state).verdict}
    if verdicts != DEFINITE:
        return False
    full = explicit.answer(turn, words) if verb is None else words
    pending = Pending(full, choosing.first_value(full), "flips", verb)
    turn.state = before
    if pending.mark in before.rejected:
        _refuse_again(turn, pending)
    else:
        _wait(turn, pending)
    return True


def confirmed(turn: Turn, statement: Statement) -> None:
    """ "yes": the held statement counts."""
    pending = turn.state.pending[0]
    if pending.reason in ("vague", "unsized"):
        turn.answer(say("yes_is_not_enough"), statement.words)
        return
    drop(turn, pending)
    _release(turn, pending.statement, pending.verb)


def rejected(turn: Turn) -> None:
    """ "no": the held statement is dropped, and its value not proposed again."""
    pending = turn.state.pending[0]
    state = replace(
        turn.state,
        pending=turn.state.pending[1:],
        rejected=turn.state.rejected | {pending.mark},
    )
    turn.enter(state, say("echo.dropped", words=pending.statement.words))


def replaced(turn: Turn, value: Value, operand: Statement) -> None:
    """ "no, three": the value given stands in for the doubtful one it can be.

    Where the new value was heard in doubt too, it is asked back in its turn.
    """
    pending = turn.state.pending[0]
    slot = choosing.slot_for(pending, value)
    if slot is None:
        turn.unplaced.append(operand.words)
        return
    statement = replace(
        pending.statement,
        slots={**pending.statement.slots, slot: choosing.as_slot(slot, value)},
        words=choosing.reworded(pending.statement, operand),
        doubts=(),
    )
    drop(turn, pending)
    turn.state = replace(turn.state, rejected=turn.state.rejected | {pending.mark})
    doubt = doubt_of(turn, operand)
    if doubt is None:
        _release(turn, statement, pending.verb)
        return
    again = Pending(
        replace(statement, doubts=(replace(doubt, slot=slot),)), slot, doubt.reason, pending.verb
    )
    if again.mark in turn.state.rejected:
        _refuse_again(turn, again)
    else:
        _wait(turn, again)


def drop(turn: Turn, pending: Pending) -> None:
    """Take a held statement out of the line of those to be asked about."""
    turn.trail.append(turn.state)
    held = tuple(other for other in turn.state.pending if other is not pending)
    turn.state = replace(turn.state, pending=held)


def _release(turn: Turn, statement: Statement, verb: Statement | None) -> None:
    """Put the statement back in line, free of doubt, behind the operator it was said under."""
    clear = replace(statement, doubts=())
    turn.settled = clear
    turn.ahead.insert(0, clear)
    if verb is not None:
        turn.ahead.insert(0, verb)
