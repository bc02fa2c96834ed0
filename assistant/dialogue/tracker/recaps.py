"""What stands behind a correction, summed up in a sentence of its own: "take the switch out. Two
14-2s.", "that 14-3 is really a 14-2. Two 14-2s and the switch". It agrees, and adds nothing."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import AddCable, AddConductors, AddDevice, Thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Cable, Conductors, Yoke

_CORRECTIONS = (
    acts.Remove, acts.Replace, acts.Restate, acts.Resize, acts.Recount, acts.RestateNumber,
    acts.Reclassify, acts.PutBack, acts.Undo,
)  # fmt: skip
#: A sentence of its own begins.
_BEGINS = lazy_pattern(
    r"(?i)(?:[.;!–—]|\bso)\s*(?:(?:so|now|just|that['’]s|that leaves|leaves|it['’]s|i have"
    r"|i['’]ve got|we have|there['’]s|there are)\b,?\s*)*$"
)
_NEVER_MIND = lazy_pattern(r"(?i)\b(?:never ?mind|forget (?:it|that)|scratch that),\s*$")
_ALL = lazy_pattern(r"(?i)(?:both|all|still)\b")
_GOES_ON = lazy_pattern(r"(?i)\s*(?:,|and|,? plus|&)\s*(?:an? |the )?$")
_FURTHER = lazy_pattern(
    r"(?i)\b(?:another|more|extra|additional|also|too|plus|add\w*|new|instead|put|then"
    r"|as well|on top|besides)\b"
)

#: "A GFCI goes in".
_COMES_IN = lazy_pattern(r"(?i)(?:[^,;!]*\b(?:go|come)(?:es|s|ing)?)?(?: back)? in\b")


def summed_up(turn: Turn, thing: Thing) -> bool:
    """Whether a thing is one that stands already, told again behind what was put right in the same
    breath; it is then understood and adds nothing."""
    if turn.supposed or not isinstance(thing, AddCable | AddConductors | AddDevice):
        return False
    corrected = turn.trail and any(isinstance(act, _CORRECTIONS) for act in turn.done)
    if thing.function != "inform" or not (corrected or turn.stepped):
        return False
    if not _begins(turn, thing) or not _stands(turn, thing):
        return False
    turn.understood.append(thing.words)
    return True


def _begins(turn: Turn, thing: Thing) -> bool:
    """Whether a sentence of its own begins with the thing, or goes on with it from one that was
    told again as well."""
    before = turn.heard[: thing.span[0]]
    if _FURTHER.search(thing.words):
        return False
    if turn.stepped:  # "add two switches": "scratch that, one switch" is one instead
        back = next((act for act in turn.done if isinstance(act, acts.Undo | acts.Skip)), None)
        why = turn.heard[back.span[1] : thing.span[0]] if back is not None else ""
        if not _ALL.match(thing.words) and not any(map(str.isalpha, why)):
            return False
        if _NEVER_MIND.search(before):
            return True
    last = next((act for act in reversed(turn.done) if act.span[1] <= thing.span[0]), None)
    if isinstance(last, AddCable | AddConductors | AddDevice):
        same = _stands(turn, last) and _begins(turn, last)
        return same and _GOES_ON.search(turn.heard[last.span[1] : thing.span[0]]) is not None
    behind = turn.heard[thing.span[1] :].partition(".")[0]
    comes_in = _FURTHER.search(behind) or _COMES_IN.match(behind)
    return _BEGINS.search(before) is not None and not comes_in


def _stands(turn: Turn, thing: Thing) -> bool:
    """Whether so many of the thing, and no others like it, are in the box as it stands now."""
    like = replace(references.to_thing(thing), count=None, words="")
    count = thing.count or 1
    found = [
        item
        for item in turn.state.items
        if references.agrees(item, like) and not _is_of_another_kind(item, thing)
    ]
    if isinstance(thing, AddConductors) and not found:  # "both tens", of cables
        found = [
            item
            for item in turn.state.items
            if isinstance(item.content, Cable) and item.content.awg == thing.awg
        ]
    alike = [item for item in found if isinstance(item.content, Cable | Conductors | Yoke)]
    there = {item.key for item in turn.began.items}
    return len(alike) == 1 and alike[0].content.count == count and alike[0].key in there


def _is_of_another_kind(item: Item, thing: Thing) -> bool:
    """Whether a device is told by a name that says more than what stands: a GFCI receptacle is no
    receptacle told again."""
    name = thing.name or "" if isinstance(thing, AddDevice) else ""
    return name != "device" and len(name) > len(references.called(item))
