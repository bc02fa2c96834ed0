"""How conductors meet the box, and what of them are grounds or come from a canopy."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import listed, say, sentence
from boxaloud.assistant.dialogue.tracker import added_items, item_changes
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.rules.contents import (
    Cable,
    Conductors,
    Content,
    FixtureWires,
    Grounds,
)

#: "Just three of them go through, sorry, not four": of those that do, so many.
_NOT_SO_MANY = re.compile(
    r"(?i)[\s,.;]*(?:(?:sorry|my bad|my mistake|oops|actually|and|but)[\s,.;]+)*not "
    r"(?:all )?(?:two|three|four|five|six|seven|eight|nine|ten|\d+)\b"
)


def reclassify(turn: Turn, act: acts.Reclassify) -> None:
    """ "Two are grounds" of eight wires; "two of them pass straight through"."""
    state = turn.state
    routed = Cable if act.kind == "cable" else Conductors
    items = [
        i for i in state.items if isinstance(i.content, routed) and act.awg in (None, i.content.awg)
    ]
    last = state.item(state.last)
    item = last if last in items else items[-1] if items else None
    if item is None or not isinstance(item.content, Cable | Conductors):
        if act.kind == "grounds" and act.count is not None:
            added_items.enter(turn, acts.AddGrounds(count=act.count, words=act.words))
            return
        turn.unplaced.append(act.words)
        return
    count = item.content.count if act.count is None else act.count
    if count > item.content.count:
        item_changes.fewer(turn, item)
        return
    if (
        act.kind != "grounds"
        and item.content.path == act.path
        and _NOT_SO_MANY.match(turn.heard, act.span[1])
    ):
        item_changes.recount(turn, item, count, act.words)
        return
    rest = item.content.count - count
    left = (
        state.with_content(item.key, replace(item.content, count=rest))
        if rest
        else state.without(item.key)
    )
    new: Content = (
        Grounds(item.content.awg, count)
        if act.kind == "grounds"
        else replace(item.content, count=count, path=act.path or "ends")
    )  # fmt: skip
    if act.kind == "grounds":
        left = replace(left, grounds="said")
    made = left.with_item(new, act.words)
    parts = [item_names.heard(replace(item.content, count=rest))] if rest else []
    turn.enter(made, sentence(listed([*parts, item_names.heard(new)])), item_names.shown(new))


def route(turn: Turn, act: acts.Route) -> None:
    """ "Those pass straight through"."""
    found = [
        i
        for i in references.find_all(turn.state, act.target)
        if isinstance(i.content, Cable | Conductors)
    ]
    if not found:
        last = [i for i in turn.state.items if isinstance(i.content, Cable | Conductors)]
        found = last[-1:]
    if not found:
        item_changes.not_found(turn, act.target, act.words)
        return
    some = act.target.count
    for item in found:
        if some is not None and some < item.content.count:
            kind = "cable" if isinstance(item.content, Cable) else "conductors"
            awg = getattr(item.content, "awg", None)
            reclassify(
                turn,
                acts.Reclassify(count=some, kind=kind, path=act.path, awg=awg, words=act.words),  # type: ignore[arg-type]
            )
            return  # "one of the 14-2s goes through": the rest stays as it was
        if isinstance(item.content, Cable | Conductors):
            routed = replace(item.content, path=act.path)
            item_changes.change_content(turn, item, routed, act.words)


def canopy(turn: Turn, act: acts.SetCanopy) -> None:
    """Whether the fixture wires come from a domed canopy, 314.16(B)(1) Exception."""
    state = turn.state
    found = False
    for item in state.items:
        if isinstance(item.content, FixtureWires | Grounds) and (
            item.open == "canopy" or isinstance(item.content, FixtureWires) or item.content.canopy
        ):
            found = True
            state = state.closed(item.key, replace(item.content, canopy=act.canopy))
    if not found:
        return
    turn.enter(state, say("echo.canopy" if act.canopy else "echo.no_canopy"))
