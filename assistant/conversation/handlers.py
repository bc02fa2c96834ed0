"""Which handler each kind of statement has. Every kind of the contract is here once."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.conversation import (
    answering,
    boxing,
    correcting,
    doubting,
    entering,
    questions,
    supposing,
)
from assistant.conversation.assessing import assess
from assistant.conversation.turn import Handler, Turn
from grammar.statements import Statement


def _step(turn: Turn, statement: Statement) -> None:
    """Undo, redo, start over: the talk does them, since it keeps the history.

    Within one breath, "scratch that" takes back what was just said.
    """
    if statement.kind == "scratch" and turn.trail:
        turn.state = turn.trail.pop()
        turn.echoes[-1:] = []
        turn.understood[-1:] = []
        return
    turn.stepped = "undo" if statement.kind == "scratch" else statement.kind
    turn.steps = int(statement.get("count") or 1)
    turn.understood.append(statement.words)


def _event(turn: Turn, statement: Statement) -> None:
    """Something outside this box: another box, another job, an own word."""
    name = str(statement.get("name") or "")
    turn.event = (statement.kind, name)
    turn.understood.append(statement.words)


def _alias(turn: Turn, statement: Statement) -> None:
    turn.event = ("alias", f"{statement.get('say')}\n{statement.get('mean')}")
    turn.understood.append(statement.words)


def _repeat(turn: Turn, statement: Statement) -> None:
    turn.event = (statement.kind, "")
    turn.understood.append(statement.words)


def _what_if(turn: Turn, statement: Statement) -> None:
    supposing.what_if(turn, statement, run)


def _done(turn: Turn, statement: Statement) -> None:
    """ "that's it": there is nothing more to say about the contents."""
    if turn.state.items or turn.state.box:
        questions.read_back(turn, statement)
    else:
        turn.understood.append(statement.words)


def _pull(turn: Turn, statement: Statement) -> None:
    from assistant.conversation import pulling

    pulling.pull(turn, statement)


HANDLERS: dict[str, Handler] = {
    **dict.fromkeys(
        (
            "cable",
            "conductors",
            "grounds",
            "jumper",
            "fixture_wires",
            "device",
            "fitting",
            "terminal_block",
            "uncounted",
        ),
        entering.enter,
    ),
    "clamps": boxing.clamps,
    "nothing": answering.nothing,
    "box_volume": boxing.box_volume,
    "box_size": boxing.box_size,
    "box_kind": boxing.box_kind,
    "part": boxing.part,
    "barrier": boxing.barrier,
    "pull": _pull,
    "edition": questions.edition,
    "number": answering.number,
    "size": answering.size,
    "place": answering.place,
    "none": answering.none,
    "yes": answering.yes,
    "no": answering.no,
    "dont_know": answering.dont_know,
    "skip": answering.skip,
    "make_that": correcting.make_that,
    "take_off": correcting.take_off,
    "change": correcting.change,
    "lands_on": correcting.lands_on,
    "more": correcting.more,
    "what_if": _what_if,
    "room_for": supposing.room,
    "read_back": questions.read_back,
    "total": questions.total,
    "margin": questions.margin,
    "capacity": questions.capacity,
    "why": questions.why,
    "why_ask": questions.why_ask,
    "smallest_box": questions.smallest_box,
    "advice": questions.advice,
    "what_changes": questions.what_changes,
    "which_edition": questions.which_edition,
    "help": questions.help_,
    "brief": questions.form,
    "full": questions.form,
    "done": _done,
    "alias": _alias,
    **dict.fromkeys(("repeat", "slower"), _repeat),
    **dict.fromkeys(("undo", "redo", "scratch", "start_over"), _step),
    **dict.fromkeys(
        ("next_box", "open_box", "go_back", "new_job", "copy_box", "name_box", "list_boxes"),
        _event,
    ),
}


BARE = frozenset({"number", "size", "none"})
"""Answers that mean nothing without the open question."""


def _look_again(turn: Turn) -> None:
    """After a change in the same breath, a bare answer belongs to the question open by then."""
    question = assess(turn.state).question
    turn.asked = question.slot if question else None
    turn.subject = question.subject if question else None


def run(turn: Turn, statements: Sequence[Statement]) -> None:
    """Work through statements in order; a doubtful one is held back to be asked about."""
    turn.ahead = list(statements)
    while (statement := turn.take()) is not None:
        if turn.trail and statement.kind in BARE:
            _look_again(turn)
        operand = turn.ahead[0] if statement.kind in doubting.OPERATORS and turn.ahead else None
        if operand is not None and doubting.doubt_of(operand) is not None:
            turn.take()
            doubting.hold(turn, operand, statement)
        elif not doubting.hold(turn, statement):
            HANDLERS[statement.kind](turn, statement)
