"""Which thing of the box is said anew: what was named, what came in a moment ago, what agrees."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.belief import held_acts
from boxaloud.assistant.dialogue.interpretation import references, wire_colors
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import item_changes
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Thing
from boxaloud.grammar.enclosures import lengths
from boxaloud.rules.contents import Cable, FixtureWires

_NOT = re.compile(r"(?i)\W*(?:and |but )?not (?:the |my )?")


def denied_behind(turn: Turn, act: acts.Restate) -> acts.Restate:
    """ "Make that a 14-3 to the next fan, not a 14-2", where both kinds are there, "it's a dimmer,
    not a switch": in place of what is denied, which stays in no place of its own."""
    following = turn.upcoming
    if act.instead_of is not None or not isinstance(following, acts.Deny):
        return act
    denied = following.target
    kind = references.kind_of(act.thing)
    between = turn.heard[act.span[1] : following.span[0]]
    a_device = kind == "device" and _NOT.fullmatch(between) is not None
    both = denied.kind == kind and (kind == "cable" or a_device)
    if not both or denied.count not in (None, 1) or references.find(turn.state, denied) is None:
        return act
    turn.take()
    return replace(act, instead_of=denied)


_THAT_IS = re.compile(r"(?i)(?:(?:no|nope|wait|sorry|oh)\b\W*)*(?:that|it)(?:['’]s| is) ")


def _came_a_moment_ago(turn: Turn, act: acts.Restate) -> Item | None:
    """ "And a 14-2. No, that's a 14-3 too", beside a 14-3 told before: the one that has just come
    in by itself, and never the other that is of that kind already."""
    last = turn.state.item(turn.state.last)
    new = last is not None and turn.began.item(last.key) is None
    said = isinstance(act.thing, acts.AddCable) and _THAT_IS.match(act.words)
    if last is None or not new or not said or not isinstance(last.content, Cable):
        return None
    return last if last.content.count == 1 == (act.thing.count or 1) else None


def restated(turn: Turn, act: acts.Restate) -> Item | None:
    """What is restated: what was named, what agrees exactly, else the only one of its type."""
    state = turn.state
    if act.instead_of is not None:
        found = references.find(state, act.instead_of)
        if found is not None or references.to_thing(act.thing) == replace(
            act.instead_of, words=act.thing.words, count=None
        ):
            return found
    came = _came_a_moment_ago(turn, act)
    if came is not None:
        return came
    reference = references.to_thing(act.thing)
    exact = references.find(state, reference) if reference.awg or reference.name else None
    kind = references.TYPES[references.kind_of(act.thing)]
    if exact is not None and isinstance(exact.content, kind):
        return exact  # and not the 12-3 for "it's a three-way"
    return last_of_type(state, act.thing)


#: "…, not three" behind a count, whatever way its things go.
_NOT_SO_MANY = re.compile(
    r"(?i)[^.;?!,]{0,40},\s*(?:and |so )?not (?P<n>[a-z]+|\d{1,2})(?=\s*(?:[.,;!]|$))"
)


_SIZES = frozenset({14, 12, 10, 8, 6})


def _of_one_color(turn: Turn, act: acts.Restate) -> bool:
    """Whether a count is of one color alone, and no list of colors begins with it."""
    if not isinstance(act.thing, acts.AddConductors) or isinstance(
        turn.upcoming, acts.AddConductors
    ):
        return False  # a jacket's color, or the list of all
    return wire_colors.names_color(turn.heard[slice(*act.thing.span)])


def puts_another_count_right(turn: Turn, act: acts.Restate, item: Item) -> bool:
    """ "Four 12s going on, not three", where there are five in all: what is put right is no count
    of all there are. It may be of those that came in last; else how many there are is asked."""
    told, there = act.thing.count, item.content.count
    if act is turn.settled or turn.supposed or told is None or told == there:
        return False
    coloured = _of_one_color(turn, act)
    found = _NOT_SO_MANY.match(turn.heard, act.thing.span[1])
    denied = lengths.value(found["n"].lower()) if found is not None else None
    if denied in _SIZES and getattr(act.thing, "awg", None) is not None:
        return False  # "three 12-2s, not fourteen": the size
    if denied == there or (denied is None and not (coloured and told < there)):
        return False
    of_last = denied == turn.state.added and turn.state.last == item.key
    if denied is not None and denied < there and (of_last or coloured):
        item_changes.recount(turn, item, there - int(denied) + told, act.words)
    else:
        held_acts.wait(turn, act, "count", "fewer")
    return True


def last_of_type(state: State, thing: Thing) -> Item | None:
    """The only item of the thing's type, or the one said last."""
    kind = references.TYPES[references.kind_of(thing)]
    same = [item for item in state.items if isinstance(item.content, kind)]
    thin = [item for item in state.items if isinstance(item.content, FixtureWires)]
    awg = thing.awg if isinstance(thing, acts.AddConductors) else None
    of_size = [item for item in thin if getattr(item.content, "awg", None) == awg]
    if awg is not None and of_size:
        return of_size[0] if len(of_size) == 1 else None  # "make that four 18s"
    path = getattr(thing, "path", None)
    if path is not None and len(same) > 1:  # "it's four going through": of those that do
        same = [item for item in same if getattr(item.content, "path", None) == path] or same
    if len(same) == 1:
        return same[0]
    last = state.item(state.last)
    return last if last in same else None
