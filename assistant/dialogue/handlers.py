"""Which handler each kind of statement has. Every kind of the contract is here once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from assistant.dialogue import (
    answering,
    boxing,
    correcting,
    doubting,
    entering,
    explicit,
    questions,
    stepping,
    supposing,
)
from assistant.dialogue.assessing import assess
from assistant.dialogue.turn import Handler, Mark, Turn
from grammar.statements import Statement


def _event(turn: Turn, statement: Statement) -> None:
    """Something outside this box: another box, another job, an own word, the last reply again."""
    detail = str(statement.get("name") or "")
    if statement.kind == "alias":
        detail = f"{statement.get('say')}\n{statement.get('mean')}"
    turn.event = (statement.kind, detail)
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
    from assistant.dialogue import pulling

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
    "box_kind": answering.box_kind,
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
    **dict.fromkeys(("undo", "redo", "scratch"), stepping.step),
    "start_over": stepping.start_over,
    **dict.fromkeys(
        (
            "alias",
            "repeat",
            "slower",
            "next_box",
            "open_box",
            "go_back",
            "new_job",
            "copy_box",
            "name_box",
            "list_boxes",
        ),
        _event,
    ),
}

STEPS = frozenset({"undo", "redo", "scratch", "start_over"})

FLIPPING = frozenset(HANDLERS) & (
    doubting.OPERATORS
    | doubting.BARE
    | correcting.CONTENT_KINDS
    | {"clamps", "place", "none", "box_volume", "box_size", "part", "barrier", "lands_on"}
)
"""Kinds that can turn a verdict over by a single misheard word."""

HOLDABLE = FLIPPING | {"edition", "nothing", "pull"}
"""Kinds that are asked back when they are in doubt; a question or a control never is."""


LOOK_AGAIN = frozenset(
    {"number", "size", "none", "place", "yes", "no", "skip", "dont_know", "box_kind"}
)
"""Answers that mean nothing without the open question."""


def _look_again(turn: Turn, repair: bool) -> None:
    """After a change in the same breath, a bare answer belongs to the question open by then.

    It does not answer a doubt raised in that breath, which nobody has asked about yet, unless
    it is a `repair` ("four, no, five"): "14-2s in an 18" gives the box, not the number of cables.
    """
    state = turn.state
    if not repair and state.pending and state.pending[0] not in turn.held_before:
        state = replace(state, pending=())
    question = assess(state).question
    turn.asked_of = turn.state
    turn.asked = question.slot if question else None
    turn.subject = question.subject if question else None


STRAYING = frozenset({"number", "size", "none", "place", "skip", "dont_know"})


def _stray(turn: Turn, statement: Statement) -> bool:
    """True for a bare answer heard behind other statements with words not understood.

    The words that it belonged to may be the very ones that were misheard, so that it answers
    nothing: "… one skip on the tens" for "… one switch on the tens".
    """
    return bool(turn.spoken and turn.gaps and turn.kinds and statement.kind in STRAYING)


VALUE_OF = {"number": "value", "box_volume": "volume"}


def _worthless(statement: Statement) -> bool:
    """True where the words of a value came to none: "point oh" by itself is no number."""
    slot = VALUE_OF.get(statement.kind)
    return slot is not None and statement.get(slot) is None


def run(turn: Turn, statements: Sequence[Statement]) -> None:
    """Work through statements in order; a doubtful one is held back to be asked about."""
    turn.ahead = list(statements)
    turn.held_before = turn.state.pending
    turn.first_asked = turn.asked
    repair = False
    while (statement := turn.take()) is not None:
        repair = repair or statement.kind == "no"
        if _stray(turn, statement) or _worthless(statement):
            turn.unplaced.append(statement.words)
            continue
        settled = turn.asked == "confirm" and not turn.state.pending
        if (turn.state is not turn.asked_of or settled) and statement.kind in LOOK_AGAIN:
            _look_again(turn, repair)
        _work(turn, statement)
        repair = statement.kind == "no"


def _work(turn: Turn, statement: Statement) -> None:
    """One statement, with what it acts on: held back where it is in doubt, else done."""
    turn.kinds.add(statement.kind)
    verb, words = None, statement
    if statement.kind in doubting.OPERATORS and turn.ahead:
        verb, words = statement, explicit.corrected(turn, turn.ahead[0])
        turn.ahead[0] = words
    mark = Mark(turn.state, len(turn.echoes), len(turn.understood), _joined(statement, words))
    if words is turn.settled:
        _do(turn, statement, mark)
        return
    if words.kind in HOLDABLE and doubting.hold(turn, words, verb):
        if verb is not None:
            turn.take()
        turn.marks.append(mark)
        return
    _do(turn, statement, mark)
    echoed = len(turn.echoes)
    if statement.kind in FLIPPING and doubting.hold_flip(turn, mark.state, words, verb):
        del turn.echoes[mark.echoes : echoed]
        del turn.understood[mark.understood : -1]


def _joined(statement: Statement, words: Statement) -> str:
    return statement.words if statement is words else f"{statement.words} {words.words}"


def _do(turn: Turn, statement: Statement, mark: Mark) -> None:
    """Do a statement, and note how things stood before it if it changed the box."""
    HANDLERS[statement.kind](turn, statement)
    if turn.state is not mark.state and statement.kind not in STEPS:
        turn.marks.append(mark)
