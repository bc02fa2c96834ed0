"""Cables with a ground or without, 314.16(B)(5)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import reference_ambiguity, references
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
        (item, cable) for item, cable in _cables(turn.state.items) if cable.ground is not None
    ]
    count = act.target.count or (0 if references.plural(act.target.words) else 1)
    if not cables:
        item_changes.not_found(turn, act.target, act.words)
        return
    if not count:
        for item, cable in cables:
            item_changes.change_content(turn, item, replace(cable, ground=None), act.words)
        return
    item, cable = cables[-1]
    split_cable(turn, item, cable, count, None, act.words)


def _cables(items: Iterable[Item]) -> list[tuple[Item, Cable]]:
    """The items that are cables, each with its cable."""
    return [(item, item.content) for item in items if isinstance(item.content, Cable)]


def split_cable(
    turn: Turn, item: Item, cable: Cable, count: int, ground: int | None, words: str
) -> None:
    """So many of an item's cables with another ground than the rest."""
    if count >= cable.count:
        item_changes.change_content(turn, item, replace(cable, ground=ground), words)
        return
    part = replace(cable, count=count, ground=ground)
    rest = replace(cable, count=cable.count - count)
    state = turn.state.with_content(item.key, rest).with_item(part, item.words)
    echo = say(
        "echo.changed_one",
        old=counted(count),
        all=item_names.heard(cable),
        new=item_names.heard(part),
    )
    turn.enter(state, echo, item_names.shown(part))


def unground(turn: Turn, act: acts.Unground) -> None:
    """ "That 14-2 has no ground"."""
    target = act.target
    if target.kind in ("anything", "wire") and target.which == "said" and target.count is None:
        target = replace(target, kind="cable")
        found = _cables(references.find_all(turn.state, target))
        last = [one for one in found if one[0].key == turn.state.last]
        if last and not references.plural(act.target.words):
            found = last
    else:
        found = _cables(references.find_all(turn.state, replace(target, kind="cable")))
    if not found:
        item_changes.not_found(turn, act.target, act.words)
        return
    if target.count is not None and target.which == "said":
        last = [one for one in found if one[0].key == turn.state.last]
        if len(found) > 1 and not last and target.count < sum(c.count for _, c in found):
            reference_ambiguity.ask_which(turn, replace(act, target=replace(target, kind="cable")))
            return  # "one of the cables has no ground", of several kinds
        item, cable = (last or found)[-1]
        ground = ground_for(cable.awg) if act.ground else None
        split_cable(turn, item, cable, target.count, ground, act.words)
        return
    single = references._singular(target.words) and target.which == "said"
    if single and len(found) > 1 and (target.awg, target.ordinal) == (None, None):
        reference_ambiguity.ask_which(turn, replace(act, target=target))
        return
    if target.ordinal is not None or (
        references._singular(target.words) and len(found) == 1 and found[0][1].count > 1
    ):
        meant = references.find(turn.state, replace(target, kind="cable"))
        item, cable = (_cables([meant] if meant else []) or found)[-1]
        split_cable(turn, item, cable, 1, None, act.words)
        return
    for item, cable in found:
        ground = ground_for(cable.awg) if act.ground else None
        item_changes.change_content(turn, item, replace(cable, ground=ground), act.words)
