"""The volume of a box that a question names: "how many cubic inches is a 4 by 1-1/2 octagon".

Nothing is entered: the box is tried on a copy.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.answer_figures import Figure
from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.nlg.sentences import joined, marked, say
from boxaloud.assistant.dialogue.policy import user_questions, volume_questions
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.tracker import table_box
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act

Runner = Callable[[Turn, Sequence[Act]], None]


def ask(turn: Turn, act: acts.Ask, run: Runner) -> None:
    """A question of a fixed kind; of the capacity, that of a box which it may name."""
    told_of = act.words.lower().split(" ")
    here = turn.state.box and not any(isinstance(one, acts.SetSize) for one in act.given)
    if not act.given or here or "my" in told_of:
        user_questions.ask(turn, act)
        return
    copy = Turn(State(edition=turn.state.edition), None, None)
    run(copy, [replace(one, doubts=()) for one in act.given])
    if copy.refused:
        turn.refused.extend(copy.refused)
        turn.understood.append("")
    elif copy.state.partial is not None:
        _each_depth(turn, act, copy.state)
    elif assess(copy.state).sheet.capacity is None:
        user_questions.ask(turn, act)
    else:
        volume_questions.capacity_of(turn, act, copy.state)


def _each_depth(turn: Turn, act: acts.Ask, state: State) -> None:
    """A box named without its depth: the volume at each."""
    if state.partial is None:
        return
    rows = table_box.rows_of(state.partial)
    told = [say("boxes.other", row=row.name, volume=marked(row.volume)) for row in rows]
    figures = [Figure("capacity", row.volume, row.volume, "in3") for row in rows]
    turn.answer(say("capacity.by_depth", each=joined(told, by="; ")), act.words, *figures)
