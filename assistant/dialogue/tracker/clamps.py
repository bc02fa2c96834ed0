"""Where the clamps are: 314.16(B)(2)."""

from __future__ import annotations

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.nlg.sentences import say, sentence
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import (
    SetClamps,
)
from boxaloud.rules.contents import Clamps


def clamps(turn: Turn, act: SetClamps) -> None:
    """Where the cables are clamped, 314.16(B)(2)."""
    if act.where == "present":
        state = altered(turn.state, clamps_mentioned=True, last="clamps")
        if state.clamps == "none":  # there are some after all: where is yet to be said
            state = altered(state, clamps="unknown")
        turn.enter(state, say("echo.clamps_somewhere"), act.words)
        return
    set_clamps(turn, act.where)


def set_clamps(turn: Turn, where: str) -> None:
    """Enter the place of the clamps: inside, outside, none or moulded."""
    place: dict[str, Clamps] = {
        "inside": "inside",
        "outside": "outside",
        "none": "none",
        "moulded": "moulded",
    }
    old = turn.state.clamps
    state = altered(
        turn.state,
        clamps=place[where],
        last="clamps",
        assumed=turn.state.assumed - {"clamps"},
        put_off=turn.state.put_off - {"clamps"},
    )
    new = say(f"clamps.{where}")
    uncounted = {"none", "outside"}  # the one only says more of the other
    if old not in ("unknown", place[where]) and not {old, place[where]} <= uncounted:
        echo = say("echo.changed_item", old=say(f"clamps.{old}"), new=new)
    else:
        echo = sentence(new)
    turn.enter(state, echo, new)
