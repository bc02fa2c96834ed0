"""Questions about a pull box or a conduit body: no volume answers them."""

from __future__ import annotations

from boxaloud.assistant.dialogue.assessment import Assessment, assess
from boxaloud.assistant.dialogue.enclosures import (
    body_telling,
    pull_telling,
)
from boxaloud.assistant.dialogue.nlg.sentences import joined
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import Act


def standing(turn: Turn, act: Act) -> bool:
    """ "What's the total", "what's the margin": where it stands; False for any other box."""
    return _answered(turn, act, _told(turn.state, assess(turn.state)))


def dimensions(turn: Turn, act: Act) -> bool:
    """ "What box does it need" of a pull box alone: its dimensions, and no box of the table."""
    found = assess(turn.state)
    return found.pull_alone and _answered(turn, act, pull_telling.told(turn.state))


def why(turn: Turn, act: Act) -> bool:
    """ "Why": how a limit comes about, from which tables."""
    found = assess(turn.state)
    if found.body is not None and found.body.sheet is not None:
        lines = [body_telling.reason(line) for line in found.body.sheet.lines]
        return _answered(turn, act, joined([body_telling.told(turn.state), *lines]))
    return _answered(turn, act, _told(turn.state, found))


def advice(turn: Turn, act: Act) -> bool:
    """ "What should I change" of a conduit body that is over: the raceway that would hold it."""
    found = assess(turn.state)
    if found.pull_alone:
        return standing(turn, act)
    if found.body is None or found.body.verdict != "over":
        return False
    return _answered(turn, act, body_telling.remedy(turn.state))


def _told(state: State, found: Assessment) -> str:
    """Where a pull box stands that nothing is counted in, or a conduit body by its raceway."""
    if found.body is not None:
        return body_telling.told(state)
    if found.pull_alone:
        return pull_telling.told(state)
    return ""


def _answered(turn: Turn, act: Act, text: str) -> bool:
    if text:
        turn.answer(text, act.words)
    return bool(text)
