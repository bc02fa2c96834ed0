"""Cables with a ground or without, 314.16(B)(5)."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import counted, say
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import item_changes
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.rules import ground_for
from boxaloud.rules.contents import (
    Cable,
)


def unground_one(turn: Turn, act: acts.Remove) -> None:
    """ "Take out one ground": where cables brought them, one cable is without."""
    cables = [
        i for i in turn.state.items if isinstance(i.content, Cable) and i.content.ground is not None
    ]
    count = act.target.count or (0 if references.plural(act.target.words) else 1)
    if not cables:
        item_changes.not_found(turn, act.target, act.words)
        return
    if not count:
        for item in cables:
            assert isinstance(item.content, Cable)
            item_changes.change_content(turn, item, replace(item.content, ground=None), act.words)
        return
    item = cables[-1]
    split_cable(turn, item, count, None, act.words)


def split_cable(turn: Turn, item: Item, count: int, ground: int | None, words: str) -> None:
    """So many of an item's cables with another ground than the rest."""
    assert isinstance(item.content, Cable)
    if count >= item.content.count:
        item_changes.change_content(turn, item, replace(item.content, ground=ground), words)
        return
    part = replace(item.content, count=count, ground=ground)
    rest = replace(item.content, count=item.content.count - count)
    state = turn.state.with_content(item.key, rest).with_item(part, item.words)
    echo = say(
        "echo.changed_one",
        old=counted(count),
        all=item_names.heard(item.content),
        new=item_names.heard(part),
    )
    turn.enter(state, echo, item_names.shown(part))


def unground(turn: Turn, act: acts.Unground) -> None:
    """ "That 14-2 has no ground"."""
    target = act.target
    if target.kind in ("anything", "wire") and target.which == "said" and target.count is None:
        target = replace(target, kind="cable")
        found = [i for i in references.find_all(turn.state, target) if isinstance(i.content, Cable)]
        last = turn.state.item(turn.state.last)
        if last in found and last is not None and not references.plural(act.target.words):
            found = [last]
    else:
        found = [
            i
            for i in references.find_all(turn.state, replace(target, kind="cable"))
            if isinstance(i.content, Cable)
        ]
    if not found:
        item_changes.not_found(turn, act.target, act.words)
        return
    if target.count is not None and target.which == "said":
        item = found[-1]
        assert isinstance(item.content, Cable)
        ground = ground_for(item.content.awg) if act.ground else None
        split_cable(turn, item, target.count, ground, act.words)
        return
    if target.ordinal is not None or (
        references._singular(target.words) and len(found) == 1 and found[0].content.count > 1
    ):
        item = references.find(turn.state, replace(target, kind="cable")) or found[-1]
        split_cable(turn, item, 1, None, act.words)
        return
    for item in found:
        assert isinstance(item.content, Cable)
        ground = ground_for(item.content.awg) if act.ground else None
        item_changes.change_content(turn, item, replace(item.content, ground=ground), act.words)
