"""Doubt: what was heard in doubt is asked back before it counts."""

from __future__ import annotations

from dataclasses import replace

from assistant.conversation.entering import content_of
from assistant.conversation.finding import TYPES
from assistant.conversation.saying import say
from assistant.conversation.state import Pending
from assistant.conversation.turn import Turn
from grammar.statements import Doubt, Statement, Value
from rules import RulesError

ASKED_BACK = frozenset({"heard", "confusable", "unusual"})
"""Reasons that hold a statement back. A mended spelling is announced instead: its numbers were
never mended, and the echo says what it was taken for."""

OPERATORS = frozenset({"make_that", "change", "take_off", "more"})


def doubt_of(statement: Statement) -> Doubt | None:
    """The first doubt that must be asked back."""
    return next((doubt for doubt in statement.doubts if doubt.reason in ASKED_BACK), None)


def hold(turn: Turn, statement: Statement, verb: Statement | None = None) -> bool:
    """Hold a doubtful statement back to be asked about; False where there is no doubt.

    Saying the same thing again confirms it.
    """
    doubt = doubt_of(statement)
    if doubt is None or _refused(turn, statement):
        return False
    same = next((p for p in turn.state.pending if p.statement.slots == statement.slots), None)
    if same is not None:
        _drop(turn)
        _release(turn, statement, same.verb)
        return True
    pending = Pending(statement, doubt.slot, doubt.reason, verb)
    turn.enter(
        replace(turn.state, pending=(*turn.state.pending, pending)),
        "",
        say("understood.held", words=statement.words),
    )
    return True


def _refused(turn: Turn, statement: Statement) -> bool:
    """True where the rules refuse the values anyway: there is nothing to ask back then."""
    try:
        if statement.kind in TYPES:
            content_of(statement, turn.state)
    except RulesError:
        return True
    return False


def refused_before(state_rejected: frozenset[tuple[str, str, str]], pending: Pending) -> bool:
    """True where this very value was already turned down."""
    value = pending.statement.get(pending.slot)
    return (pending.statement.kind, pending.slot, str(value)) in state_rejected


def confirmed(turn: Turn) -> None:
    """ "yes": the held statement counts."""
    pending = turn.state.pending[0]
    _drop(turn)
    _release(turn, pending.statement, pending.verb)


def rejected(turn: Turn) -> None:
    """ "no": the held statement is dropped, and its value not proposed again."""
    pending = turn.state.pending[0]
    value = str(pending.statement.get(pending.slot))
    mark = (pending.statement.kind, pending.slot, value)
    state = replace(
        turn.state,
        pending=turn.state.pending[1:],
        rejected=turn.state.rejected | {mark},
    )
    turn.enter(state, say("echo.dropped", words=pending.statement.words))


def replaced(turn: Turn, value: Value) -> None:
    """ "no, three": the value given stands in for the doubtful one."""
    pending = turn.state.pending[0]
    wrong = (pending.statement.kind, pending.slot, str(pending.statement.get(pending.slot)))
    _drop(turn)
    turn.state = replace(turn.state, rejected=turn.state.rejected | {wrong})
    slots = {**pending.statement.slots, pending.slot: value}
    _release(turn, replace(pending.statement, slots=slots), pending.verb)


def _drop(turn: Turn) -> None:
    turn.trail.append(turn.state)
    turn.state = replace(turn.state, pending=turn.state.pending[1:])


def _release(turn: Turn, statement: Statement, verb: Statement | None) -> None:
    """Put the statement back in line, free of doubt, behind the operator it was said under."""
    clear = replace(statement, doubts=())
    turn.ahead.insert(0, clear)
    if verb is not None:
        turn.ahead.insert(0, verb)
