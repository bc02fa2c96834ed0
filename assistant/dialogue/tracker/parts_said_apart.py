""" "Three 14-3s … no, two 14-3s. One of them is a 14-2": the parts of what was said before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Reference
from boxaloud.grammar.lazy_patterns import lazy_pattern

_OF_THEM = lazy_pattern(r"(?i)[a-z0-9]+ of (?:them|those|these)")


def beside(turn: Turn, act: acts.Replace, item: Item) -> bool:
    """Whether what the act tells stands beside the item, and not in the place of some of it."""
    return _beside_those(turn, act, item) or _beside_the_part(turn, act, item)


def _beside_those(turn: Turn, act: acts.Replace, item: Item) -> bool:
    """Whether so many "of them" are what the count just put right leaves of the earlier one, so
    that they stand beside it: fewer would be there only if somebody said so."""
    target = act.target
    before = next((one for one in reversed(turn.done) if one is not act), None)
    earlier = turn.began.item(item.key)
    if target.kind != "anything" or not _OF_THEM.fullmatch(target.words.strip()):
        return False
    if not isinstance(before, acts.Restate) or before.thing.count != item.content.count:
        return False
    several = item.content.count > (target.count or 0) > 0
    return (
        several
        and earlier is not None
        and earlier.content.count == item.content.count + (target.count or 0)
    )


_OF_THOSE = lazy_pattern(r"(?i)[a-z0-9]+ of (?:those|these)\b.*")


def not_said(turn: Turn, act: acts.Replace, found: list[Item]) -> list[Item]:
    """ "One of them is a 14-3, the others are 12-2": those that were not said to be something."""
    parts = [one for one in turn.done if isinstance(one, acts.Replace) and one is not act]
    said = [replace(references.to_thing(one.thing), count=None) for one in parts if _is_part(one)]
    left = [one for one in found if not any(_is_called(one, part) for part in said)]
    return left or found


def _is_called(item: Item, told: Reference) -> bool:
    """Whether an item is of what was told, by the same name: a switch is no three-way."""
    same_name = told.name is None or references.called(item) == told.name
    return same_name and references.agrees(item, told)


def follows_part(turn: Turn, act: acts.Replace) -> bool:
    """ "Two are three-ways and one is a dimmer": whether the act tells of a further part."""
    return act.target.count is not None and _part_before(turn, act) is not None


def left_so(turn: Turn, act: acts.Replace, found: Sequence[Item]) -> bool:
    """ "Two are dimmers and one is a switch", of three switches: the one left is a switch."""
    told = replace(references.to_thing(act.thing), count=None)
    alike = (one for one in found if one.content.count >= (act.target.count or 0))
    return _part_before(turn, act) is not None and any(
        references.agrees(one, told) and references.called(one) == (told.name or "")
        for one in alike
    )


def _part_before(turn: Turn, act: acts.Replace) -> acts.Replace | None:
    """The part that was said right before, where the act tells of another."""
    before = next((one for one in reversed(turn.done) if one is not act), None)
    parts = isinstance(before, acts.Replace) and _is_part(before) and _is_part(act)
    return before if parts and isinstance(before, acts.Replace) else None


def _beside_the_part(turn: Turn, act: acts.Replace, item: Item) -> bool:
    """ "Three are 14-2 and two are 14-3": those of the part said before stay what they are, and so
    many stand beside them; "two of those" are of that part."""
    before = _part_before(turn, act)
    if before is None:
        return False
    told = replace(references.to_thing(before.thing), count=None)
    return (
        item.content.count == before.target.count
        and _is_called(item, told)
        and _OF_THOSE.match(act.target.words.strip()) is None
    )


def _is_part(act: acts.Replace) -> bool:
    """Whether so many of the cables or devices, whichever, or the other, are said to be of a
    kind."""
    target = act.target
    bare = (target.name, target.awg, target.ordinal) == (None, None, None)
    which = target.which in ("other", "others") or (
        target.which == "said" and target.count is not None
    )
    known = isinstance(act.thing, (acts.AddCable, acts.AddDevice))
    return bare and which and known and target.kind in ("anything", references.kind_of(act.thing))


def of_all(act: acts.Replace) -> acts.Thing:
    """ "Three are 14-2", of none that were told before: as many of them."""
    if act.thing.count is None and act.target.count is not None:
        return replace(act.thing, count=act.target.count)
    return act.thing
