"""Questions about a way out: what can be changed."""

from __future__ import annotations

from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.nlg.sentences import Told, say, volume
from boxaloud.assistant.dialogue.policy import enclosure_questions
from boxaloud.assistant.dialogue.state import State, to_box
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import Act
from boxaloud.rules import advise


def advice(turn: Turn, act: Act) -> None:
    """ "what can I do about it"."""
    if enclosure_questions.advice(turn, act):
        return
    found = assess(turn.state)
    if found.verdict == "fits":
        turn.answer(say("advice.fits"), act.words)
        return
    if found.spaces:
        turn.answer(say("advice.divided"), act.words)
        return
    turn.answer(advice_text(turn.state), act.words)


ALOUD = 2
"""Ways out that are said; the rest stands in print."""


def advice_text(state: State, most: int = 3) -> str:
    """The best changes for an overfull box, the most useful first."""
    found = advise(to_box(state))
    enough = [item.what for item in found if item.enough][:most]
    if enough:
        things = Told("; or ".join(enough), "; or ".join(enough[:ALOUD]))
        return say("advice.lead", things=things)
    if not found:
        return say("advice.none")
    best = found[0]
    return say("advice.best", what=best.what, saves=volume(best.saves, best.unit))
