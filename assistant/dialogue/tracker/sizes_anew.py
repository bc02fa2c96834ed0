""" "Make the twelves fourteens", "not fourteen, it's twelve": another size of wires."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.tracker import (
    cables_restated,
    item_changes,
    lone_corrections,
)
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Reference
from boxaloud.rules import RulesError, ground_for
from boxaloud.rules.contents import Cable, Conductors, SupportFitting, Uncounted

SIZES = frozenset({18, 16, 14, 12, 10, 8, 6})
"""AWG sizes that have a volume allowance, Table 314.16(B)(1)."""


def said_of_size(turn: Turn, act: acts.RestateNumber) -> bool:
    """Whether a number alone is a size of wire: another one, or the one that is there."""
    return _sized_anew(turn, act) or _size_again(turn, act) or _as_it_was(turn, act)


def _sized_anew(turn: Turn, act: acts.RestateNumber) -> bool:
    """ "Not fourteen, it's twelve", of wires that were 14: their size; False for other numbers."""
    old, value = act.instead_of, act.value
    wires = any(getattr(item.content, "awg", None) == old for item in turn.state.items)
    if old not in SIZES or value not in SIZES or not wires:
        return False
    of_box = lone_corrections.of_marked_volume(turn, act)
    if of_box == "either":
        turn.unplaced.append(act.words)
    elif of_box == "count":
        target = Reference("anything", awg=int(old or 0), which="all", words=act.words)
        resize(turn, acts.Resize(target=target, awg=int(value), words=act.words))
    return of_box != "volume"


def _size_again(turn: Turn, act: acts.RestateNumber) -> bool:
    """ "Undo that, it's twelve after all": where the size of the cables was what was taken back,
    the size that they have again, and no volume; False for other numbers."""
    if not turn.stepped or act.value not in SIZES:
        return False
    now, before = _cable_sizes(turn.state), _cable_sizes(turn.began)
    if act.value not in now or now == before:
        return False
    turn.understood.append(act.words)
    return True


def _as_it_was(turn: Turn, act: acts.RestateNumber) -> bool:
    """ "What if that was 12-2?", "no, it's fourteen": the size that all the wires have already, and
    no volume; what was supposed is let go."""
    wired = [one.content for one in turn.state.items]
    sizes = {one.awg for one in wired if isinstance(one, Cable | Conductors)}
    if not turn.state.proposed or sizes != {int(act.value)} or act.value != int(act.value):
        return False
    turn.state = altered(turn.state, proposed=())
    turn.understood.append(act.words)
    return True


def _cable_sizes(state: State) -> frozenset[int]:
    """The sizes of the cables in the box."""
    return frozenset(one.content.awg for one in state.items if isinstance(one.content, Cable))


def called_wire(turn: Turn, act: acts.Restate) -> bool:
    """ "That's fourteen wire, not twelve", where there are cables of one other size and no loose
    wires: the size of those cables; False for others."""
    thing = act.thing
    if not isinstance(thing, acts.AddConductors) or thing.count is not None or thing.awg is None:
        return False
    wires = [i.content for i in turn.state.items if isinstance(i.content, Cable | Conductors)]
    sizes = {one.awg for one in wires}
    if not wires or len(sizes) > 1 or any(isinstance(one, Conductors) for one in wires):
        return False
    target = Reference("anything", awg=sizes.pop(), which="all", words=act.words)
    resize(turn, acts.Resize(target=target, awg=thing.awg, words=act.words, span=act.span))
    return True


def resize(turn: Turn, act: acts.Resize) -> None:
    """ "Make the twelves fourteens": the wire size of what is meant, a device on it with it."""
    target = act.target
    found = (
        [
            item
            for item in turn.state.items
            if (target.awg is None or getattr(item.content, "awg", None) == target.awg)
            and isinstance(item.content, references.TYPES[target.kind])
        ]
        if target.which == "all"
        else references.find_all(turn.state, target)
    )
    found = [item for item in found if hasattr(item.content, "awg")]
    if not found:
        item_changes.not_found(turn, act.target, act.words)
        return
    if cables_restated.of_several_sizes(found, act):
        turn.unplaced.append(act.words)
        return
    if cables_restated.some_resized(turn, found, act):
        return
    for item in found:
        content = item.content
        if isinstance(content, SupportFitting | Uncounted):
            continue
        if isinstance(content, Cable) and content.ground is not None:
            # a size the rules refuse is refused by change_content, in the rules' own sentence
            with suppress(RulesError):
                content = replace(content, ground=ground_for(act.awg))
        item_changes.change_content(turn, item, replace(content, awg=act.awg), act.words)
