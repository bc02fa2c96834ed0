"""Where things stand in a box that barriers part: "on the first side"."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.divided_box import ordinal, spaces_in
from boxaloud.assistant.dialogue.nlg.sentences import joined, marked, say, sentence
from boxaloud.assistant.dialogue.tracker import box_parts
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.clauses.act_fields import KIND_OF
from boxaloud.rules import marked_in3
from boxaloud.rules.contents import Barrier

_BARRIER = re.compile(r"barrier|divider|partition")


def in_space(turn: Turn, act: acts.InSpace) -> None:
    """ "On the first side": what follows stands there, or what went before in the same breath."""
    if spaces_in(turn.state) < 2 and _BARRIER.search(act.words.lower()):
        box_parts.barrier(turn, acts.AddBarrier(words=act.words))
    if spaces_in(turn.state) < 2:  # "blank on the other side": of a box that nothing parts
        turn.understood.append(act.words)
        return
    if turn.asked == "space" and turn.subject is not None and not _things(turn):
        _place(turn, act, {turn.subject})
        return
    first = next((one for one in turn.done if _is_thing(one) or isinstance(one, acts.InSpace)), act)
    trailing = _is_thing(first)
    if trailing:
        began = turn.began.next_key
        _place(turn, act, {i.key for i in turn.state.items if i.key >= began and not i.space})
        return
    state = altered(turn.state, space=act.which)
    turn.enter(state, "", say("space.at", which=ordinal(act.which)))


def share(turn: Turn, act: acts.ShareSpaces) -> None:
    """ "Equal sides", "14 cubic inches on the left": how the barriers share the volume out."""
    if spaces_in(turn.state) < 2 and not _divides_later(turn):
        turn.understood.append(act.words)
        return
    if act.equal:
        state = altered(turn.state, equal_spaces=True, shares=())
        turn.enter(state, say("space.equal"), act.words)
        return
    known = dict(turn.state.shares)
    texts = []
    for which, volume in ((act.which, act.volume), (3 - act.which, act.rest)):
        if volume is None:
            continue
        known[which] = marked_in3(volume) if act.unit is not None else volume
        texts.append(say("space.volume", volume=marked(known[which]), which=ordinal(which)))
    state = altered(turn.state, equal_spaces=False, shares=tuple(sorted(known.items())))
    turn.enter(state, joined(texts), act.words)


def _divides_later(turn: Turn) -> bool:
    """Whether a barrier or the box it divides is still to come in this breath."""
    barrier = any(isinstance(part, Barrier) for part in turn.state.extras)
    return barrier or any(isinstance(one, acts.AddBarrier) for one in turn.ahead)


def _things(turn: Turn) -> list[Act]:
    return [one for one in turn.done if _is_thing(one)]


def _is_thing(act: Act) -> bool:
    return type(act) in KIND_OF


def _place(turn: Turn, act: acts.InSpace, keys: set[int]) -> None:
    items = tuple(
        replace(item, space=act.which) if item.key in keys else item for item in turn.state.items
    )
    text = say("space.at", which=ordinal(act.which))
    turn.enter(altered(turn.state, items=items), sentence(text), text)
