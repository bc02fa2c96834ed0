""" "And one more of those", "another cable": further ones of what is there."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import added_items, item_changes
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference
from boxaloud.grammar.clauses.act_fields import KIND_OF
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.rules.contents import Cable, Uncounted, Yoke


def more(turn: Turn, act: acts.More) -> None:
    """ "And one more of those", "another cable"; of what was just asked about, if that was."""
    proposed = [one for one in turn.state.proposed if isinstance(one, tuple(KIND_OF))]
    if act.target.kind == "anything" and len(proposed) == 1:
        turn.state = altered(turn.state, proposed=())
        added_items.enter(turn, replace(proposed[0], count=act.count or 1, doubts=()))  # type: ignore[call-arg, arg-type]
        return
    if _MISSED.fullmatch(act.words.strip()) and _of_several_kinds(turn.state):
        turn.unplaced.append(act.words)  # a cable or a device: asked
        return
    item = _more_of(turn.state, act.target)
    if item is None or isinstance(item.content, Uncounted):
        if act.target.kind == "cable":
            from boxaloud.assistant.dialogue.belief import held_acts

            held_acts.wait(
                turn,
                acts.AddCable(count=act.count or 1, words=act.words, span=act.span),
                "awg",
                "unsized",
            )
            return
        turn.unplaced.append(act.words)
        return
    if act.target.ordinal is not None and act.target.ordinal <= item.content.count:
        turn.understood.append(act.words)  # "third cable", of three: no further one
        return
    extra = act.count or 1
    before = turn.state
    item_changes.recount(turn, item, item.content.count + extra, act.words)
    if turn.state is not before:
        turn.state = altered(turn.state, added=extra)


def makes_so_many(state: State, act: Act, told: Act) -> bool:
    """ "Suppose I ran a fourth. … Run it, four 14-2s": as many as there are with that one."""
    if not isinstance(act, acts.More) or not is_thing(told) or told.count is None:
        return False
    item = _more_of(state, act.target)
    return (
        item is not None
        and references.agrees(item, references.to_thing(told))
        and told.count == item.content.count + (act.count or 1)
    )


_MISSED = re.compile(
    r"(?i)(?:[a-z]+,? )*(?:missed|forgot|overlooked|skipped) (?:one|two|three|four|\d)"
)


def _of_several_kinds(state: State) -> bool:
    """Whether there are cables and devices, so that one more may be either."""
    kinds = {type(item.content) for item in state.items}
    return len(kinds - {Uncounted}) > 1


def _more_of(state: State, target: Reference) -> Item | None:
    if target.kind == "anything" and target.ordinal is not None:
        # "the third one": of what there are two
        before = [
            one
            for one in state.items
            if one.content.count == target.ordinal - 1 and not isinstance(one.content, Uncounted)
        ]
        if len(before) > 1 and state.added == 1 and target.ordinal > 2:
            before = [one for one in before if one.key == state.last]  # "another switch", "a third"
        return before[0] if len(before) == 1 else None
    if target.kind == "anything":
        return state.item(state.last) or item_changes.countable(state)
    found = references.find_all(state, replace(target, which="said"))
    if target.kind == "wire":
        return _wire_told_last(state, target, found)
    if (
        target.kind == "cable"
        and len(
            {(i.content.awg, i.content.conductors) for i in found if isinstance(i.content, Cable)}
        )
        > 1
    ):
        last = state.item(state.last)
        return last if last in found else None
    return found[-1] if found else None


_FOR = re.compile(r"(?i)\bfor (?:the|an?|my|our)\b")


def _wire_told_last(state: State, target: Reference, found: list[Item]) -> Item | None:
    """Of which wires "another to the porch" is one more: those told last. "Another for the cans"
    behind a switch may be either, and is asked."""
    last = state.item(state.last)
    if last in found:
        return last
    if last is not None and isinstance(last.content, Yoke) and _FOR.search(target.words):
        return None
    return found[-1] if found else None
