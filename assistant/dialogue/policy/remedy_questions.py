"""Questions about a way out: the smallest box that fits, what can be changed."""

from __future__ import annotations

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.nlg.sentences import Told, counted, marked, say, volume
from boxaloud.assistant.dialogue.state import State, to_box
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.rules import BoxChoice, advise, is_canadian, smallest_boxes

FAMILIES = ("square", "octagon", "device", "handy")
"""Where a smallest box is looked for: what stands on a joist, not cast FS or masonry boxes."""


def smallest_box(turn: Turn, act: Act) -> None:
    """ "what's the smallest box"."""
    if not turn.state.items:
        turn.answer(say("boxes.empty"), act.words)
        return
    if is_canadian(turn.state.edition):
        turn.answer(say("boxes.canada"), act.words)
        return
    family = act.family if isinstance(act, acts.Ask) and act.family in FAMILIES else None
    box = to_box(turn.state)
    found = smallest_boxes(box, (family,) if family else FAMILIES) or smallest_boxes(box, FAMILIES)
    if not found:
        turn.answer(say("boxes.none"), act.words)
        return
    first = found[0]
    text = say(
        "boxes.smallest",
        row=_box_name(first),
        volume=marked(first.volume),
        margin=volume(first.margin),
    )
    turn.answer(text, act.words)
    proposal = acts.SetSize(row=first.row.id, gangs=first.gangs, words=_box_name(first))
    turn.state = altered(turn.state, proposed=(proposal,))


def _box_name(choice: BoxChoice) -> str:
    if choice.gangs == 1:
        return choice.row.name
    return say("boxes.ganged", row=choice.row.name, gangs=counted(choice.gangs))


def advice(turn: Turn, act: Act) -> None:
    """ "what can I do about it"."""
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
    return say("advice.best", what=best.what, saves=volume(best.saves))
