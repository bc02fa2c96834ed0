"""Where things stand in a box that barriers part: "on the first side"."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.divided_box import ordinal, spaces_in
from boxaloud.assistant.dialogue.nlg.sentences import say, sentence
from boxaloud.assistant.dialogue.tracker import box_parts
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.clauses.act_fields import KIND_OF

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
