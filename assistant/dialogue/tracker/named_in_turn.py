"""Devices told one after the other by what each is: "one's a three-way and one's a dimmer"."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import parts_said_apart
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts


def others(turn: Turn, act: acts.Replace, found: list[Item]) -> list[Item]:
    """Those that were found, without the ones that were said to be something in this breath."""
    further = act.target.which in ("other", "others")
    if further or parts_said_apart.follows_part(turn, act):
        found = parts_said_apart.not_said(turn, act, found)
    named = _named_before(turn, act)
    return [one for one in found if one.content.count > named.count(references.called(one))]


def is_of_those(turn: Turn, act: acts.Replace, found: Sequence[Item]) -> bool:
    """Whether one of those that are left is what the act names already."""
    if parts_said_apart.left_so(turn, act, found):
        return True
    name = references.to_thing(act.thing).name
    return bool(_named_before(turn, act)) and any(references.called(one) == name for one in found)


def _named_before(turn: Turn, act: acts.Replace) -> list[str | None]:
    if not _is_one(act) or not isinstance(act.thing, acts.AddDevice):
        return []
    done = [one for one in turn.done if one is not act and isinstance(one, acts.Replace)]
    return [references.to_thing(one.thing).name for one in done if _is_one(one)]


def _is_one(act: acts.Replace) -> bool:
    target = act.target
    return (target.kind, target.count, target.which) == ("anything", 1, "said")
