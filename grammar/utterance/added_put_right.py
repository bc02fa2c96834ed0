"""What is put right in the very breath that brings it in: "add a 14-2, no sorry, a 12-2"."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_fields import KIND_OF
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.clauses.text_before import just_before
from boxaloud.grammar.lazy_patterns import lazy_pattern

#: Between the two: what the first is for, and a mark of correction.
_PUT_RIGHT = lazy_pattern(
    r"(?i)(?:\s+(?:for|to|from|feeding|going to|coming from)\s+[a-z' -]{2,30})?[\s,.;:–—-]*"
    r"(?:(?:no|nope|wait|sorry|er|oops|i mean|i meant|rather|actually|correction|make that"
    r"|make it|scratch that|my mistake|my bad)\b[\s,.;:–—-]*)+"
)


_ADDING = lazy_pattern(
    r"(?i)\b(?:add(?:ing)?|put(?:ting)?|throw|bring|run|pull|plus|also|stick)(?: in)?\s*$"
)
_ONE = lazy_pattern(r"(?i)(?:an?|one|another)\b")


def added_put_right(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The one that is meant stands in the place of the other; what was there stays as it was."""
    kept: list[Act] = []
    for act in made:
        before = [one for one in kept if not isinstance(one, acts.No)]
        if before and isinstance(act, acts.Restate) and _of_one(before[-1], act, heard):
            kept[kept.index(before[-1]) :] = [act.thing]
        elif before and is_thing(act) and _not_added(before[-1], act, heard):
            kept[kept.index(before[-1]) :] = [act]
        else:
            kept.append(act)
    return kept


def _of_one(added: Act, act: acts.Restate, heard: str) -> bool:
    """Whether a thing said anew is the one right before it, and no count of what is there."""
    thing = act.thing
    if not is_thing(added) or type(added) is not type(thing) or act.instead_of is not None:
        return False
    one = all(getattr(each, "count", None) in (None, 1) for each in (added, thing))
    alike = all(
        getattr(added, slot, None) == getattr(thing, slot, None)
        for slot in ("awg", "conductors", "name")
    )
    between = heard[added.span[1] : thing.span[0]]
    named = _ONE.match(getattr(added, "words", "")) and _ONE.match(thing.words)
    return bool(named) and one and not alike and _PUT_RIGHT.fullmatch(between) is not None


def _not_added(denied: Act, thing: Act, heard: str) -> bool:
    """ "Add a switch, no, a dimmer": what was to be added is denied, and none that is there."""
    return (
        isinstance(denied, acts.Deny)
        and denied.target.kind == KIND_OF[type(thing)]
        and _ONE.match(denied.words) is not None
        and _ADDING.search(just_before(heard, denied.span[0])) is not None
        and _PUT_RIGHT.fullmatch(heard[denied.span[1] : thing.span[0]]) is not None
    )
