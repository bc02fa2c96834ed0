""" "It's two 12-2s and a receptacle": the cables and devices there are, said anew as one list."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from boxaloud.assistant.dialogue.belief import held_acts
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import added_items, item_changes, mentions
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Thing
from boxaloud.rules import RulesError


@dataclass
class _Changes:
    """What a list makes of the things of one kind."""

    anew: list[tuple[Item, Thing]] = field(default_factory=list)
    """Things that are there and are named again."""
    new: list[Thing] = field(default_factory=list)
    gone: list[Item] = field(default_factory=list)


def restate_list(turn: Turn, act: acts.RestateList) -> None:
    """The list in place of what is there of its kinds. Where more goes than comes, it is asked."""
    kinds = dict.fromkeys(map(references.kind_of, act.things))
    changes = [_changes(turn.state, [t for t in act.things if references.kind_of(t) == kind])
               for kind in kinds]  # fmt: skip
    asked = act is not turn.settled and not turn.supposed
    if asked and any(map(_takes_away, changes)):
        held_acts.wait(turn, act, "things", "some")
        return
    for change in changes:
        _do(turn, change)


def _changes(state: State, things: Sequence[Thing]) -> _Changes:
    """Each thing beside what it names of the box, or comes in place of."""
    types = references.TYPES[references.kind_of(things[0])]
    there = [item for item in state.items if isinstance(item.content, types)]
    made = _Changes()
    for thing in things:
        like = references.to_thing(thing)
        item = next((one for one in there if references.agrees(one, like)), None)
        if item is None:
            made.new.append(thing)
        else:
            there.remove(item)
            made.anew.append((item, thing))
    if len(there) == len(made.new) == 1:
        made.anew.append((there.pop(), made.new.pop()))
    elif pairs := _of_another_size(there, made.new):
        made.anew.extend(pairs)
        there, made.new = [], []
    made.gone = there
    return made


def _of_another_size(there: Sequence[Item], new: Sequence[Thing]) -> list[tuple[Item, Thing]]:
    """ "It's one 12-2 and one 12-3" of a 14-2 and a 14-3: each cable in place of the only one of as
    many conductors; none where one is left over."""
    left = {getattr(item.content, "conductors", None): item for item in there}
    wires = [getattr(thing, "conductors", None) for thing in new]
    if len(left) != len(there) or None in left or sorted(map(str, left)) != sorted(map(str, wires)):
        return []
    return [(left[many], thing) for many, thing in zip(wires, new, strict=True)]


def _takes_away(change: _Changes) -> bool:
    """Whether something goes, or becomes fewer of another kind."""
    return bool(change.gone) or any(
        (thing.count or 1) < item.content.count
        and not references.agrees(item, references.to_thing(thing))
        for item, thing in change.anew
    )


def _do(turn: Turn, change: _Changes) -> None:
    for item, thing in change.anew:
        try:
            made = added_items.content_of(thing, turn.state.without(item.key))[0]
        except RulesError as refusal:
            turn.refuse(thing.words, str(refusal))
            return
        item_changes.put_in_place(turn, item, made, thing)
    for item in change.gone:
        item_changes.recount(turn, item, 0, item.words)
    for thing in change.new:
        mentions.mention(turn, thing)
