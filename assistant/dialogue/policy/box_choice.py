"""Which standard boxes hold what was described: the smallest first, of a family that suits it."""

from __future__ import annotations

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.belief.held_figures import is_held
from boxaloud.assistant.dialogue.nlg.sentences import (
    counted,
    joined,
    listed,
    marked,
    say,
    volume,
)
from boxaloud.assistant.dialogue.policy import enclosure_questions
from boxaloud.assistant.dialogue.policy.volume_questions import needed_figure, needed_text
from boxaloud.assistant.dialogue.state import State, described, to_box
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.rules import BoxChoice, is_canadian, smallest_boxes, table_row
from boxaloud.rules.contents import FixtureWires, SupportFitting, TableBox

FAMILIES = ("square", "octagon", "device", "handy")
"""Where a smallest box is looked for: what stands on a joist, not cast FS or masonry boxes."""
LUMINAIRE_FAMILIES = ("square", "octagon")
"""Where one is looked for that carries a luminaire or a fan (common practice)."""
CHOICES = 3
"""Boxes that are told, the smallest first."""


def _families(state: State) -> tuple[str, ...]:
    """The families that suit what the box is for."""
    named = state.partial.family if state.partial is not None else ""
    rows = _families_at_hand(state)
    carries = state.hangs is not None or any(
        isinstance(item.content, SupportFitting | FixtureWires) for item in state.items
    )
    return LUMINAIRE_FAMILIES if carries or "octagon" in (named, *rows) else FAMILIES


def _families_at_hand(state: State) -> list[str]:
    """The families of the standard boxes that are told."""
    return [table_row(part.row).family for part in state.box if isinstance(part, TableBox)]


def _asked_family(act: Act, state: State) -> str | None:
    """The family that is asked for by name, or as "a deeper one" of the same."""
    named = act.family if isinstance(act, acts.Ask) else None
    if named is None and "deeper" in act.words.lower():
        named = next(iter(_families_at_hand(state)), None)
    if named is None and state.partial is not None:
        named = state.partial.family  # "a square box": its depth is what is asked for
    return named if named in FAMILIES else None


def smallest_box(turn: Turn, act: Act) -> None:
    """ "what's the smallest box", "what's the minimum": the volume that it takes, and boxes."""
    if enclosure_questions.dimensions(turn, act):
        return
    if not turn.state.box:
        turn.state = altered(turn.state, box_sought=act)
    if not turn.state.items:
        turn.answer(say("boxes.empty"), act.words)
        return
    takes = needed_text(turn.state)
    if is_held(turn.state):
        turn.answer(takes, act.words)
        return
    figure = needed_figure(turn.state)
    if is_canadian(turn.state.edition):
        turn.answer(joined((takes, say("boxes.canada"))), act.words, figure)
        return
    families = _families(turn.state)
    asked = _asked_family(act, turn.state)
    box = to_box(turn.state)
    found = smallest_boxes(box, (asked,) if asked else families) or smallest_boxes(box, families)
    if not found:
        turn.answer(joined((takes, say("boxes.none"))), act.words, figure)
        return
    first = found[0]
    text = say(
        "boxes.smallest",
        row=_box_name(first),
        volume=marked(first.volume),
        margin=volume(first.margin),
    )
    others = [
        say("boxes.other", row=_box_name(one), volume=marked(one.volume))
        for one in found[1:CHOICES]
    ]
    if others:
        text = joined((text, say("boxes.others", others=listed(others))))
    turn.answer(joined((takes, text)), act.words, figure)
    offered = tuple(
        acts.SetSize(row=one.row.id, gangs=one.gangs, words=_box_name(one))
        for one in found[:CHOICES]
    )
    turn.state = altered(turn.state, proposed=offered[:1], offered=offered)


def sought_again(turn: Turn) -> None:
    """The boxes that would do, told anew where more came in since they were asked for."""
    state = turn.state
    if state.box_sought is None or turn.supposed or described(state) == described(turn.began):
        return
    if state.box or state.pulls is not None:
        turn.state = altered(state, box_sought=None)
    elif state.items and not turn.answers and not is_held(state) and not _gaps(turn):
        smallest_box(turn, state.box_sought)


def _gaps(turn: Turn) -> bool:
    return any(run.weighty for run in turn.unread)


def _box_name(choice: BoxChoice) -> str:
    if choice.gangs == 1:
        return choice.row.name
    return say("boxes.ganged", row=choice.row.name, gangs=counted(choice.gangs))
