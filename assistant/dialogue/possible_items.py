"""What an act made of the box must be able to be: a count of none or twelve gangs is refused.

Most handlers refuse such a thing themselves, with more to say; nothing that they let through
reaches the rules, which would end the turn.
"""

from __future__ import annotations

from boxaloud.assistant.dialogue.state import State, to_box
from boxaloud.assistant.dialogue.turn import Mark, Turn
from boxaloud.rules import RulesError, validate, work_out
from boxaloud.rules.contents import Content
from boxaloud.rules.editions import is_canadian


def refused(turn: Turn, words: str, mark: Mark, trail: int) -> bool:
    """Whether what came of an act cannot be: then all is as it was before it, and told."""
    same = turn.state.items is mark.state.items
    if same and turn.state.edition == mark.state.edition:
        return False
    why = _impossible(turn.state, mark.state)
    if not why:
        return False
    turn.state = mark.state
    del turn.echoes[mark.echoes :]
    del turn.understood[mark.understood :]
    del turn.trail[trail:]
    turn.refuse(words, why)
    return True


def _impossible(state: State, before: State) -> str:
    """Why a thing that came in cannot be; empty where each can."""
    known = {id(item) for item in before.items}
    for item in state.items:
        if id(item) not in known and (why := _why_not(item.content)):
            return why
    return _not_in_canada(state) if is_canadian(state.edition) else ""


def _not_in_canada(state: State) -> str:
    """Why the box cannot be counted under Canada's Rule 12-3034, whose Table 22 begins at 14 AWG;
    empty where it can."""
    try:
        work_out(to_box(state))
    except RulesError as refusal:
        return str(refusal)
    return ""


def _why_not(content: Content) -> str:
    try:
        validate(content)
    except RulesError as refusal:
        return str(refusal)
    return ""
