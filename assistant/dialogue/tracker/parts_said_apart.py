""" "Three 14-3s … no, two 14-3s. One of them is a 14-2": the parts of what was said before."""

from __future__ import annotations

from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.lazy_patterns import lazy_pattern

_OF_THEM = lazy_pattern(r"(?i)[a-z0-9]+ of (?:them|those|these)")


def beside_those(turn: Turn, act: acts.Replace, item: Item) -> bool:
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
