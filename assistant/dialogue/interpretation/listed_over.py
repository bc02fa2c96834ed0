"""All that is there listed once more, in exactly those numbers: "so a 14-2 in, a 14-2 out, and the
switch". It brings nothing in. What is listed in part, in other numbers, or with a word of adding
("another", "also", "put in …") is told."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.interpretation.told_over import is_known
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Cable, Conductors, Grounds, Yoke

_HAS_TO_BE_LISTED = (Cable, Conductors, Yoke)
#: What may bring something in, take it out or put it right, and what begins another box.
_BRINGS_IN = lazy_pattern(
    r"(?i)^\W*(?:(?:and|n|then|plus|also)\b|[&+])|\b(?:more|another|extra|additional|also"
    r"|plus(?! the)|add(?:ed|ing|s)?|too|as well|besides|forgot|forget|missed|found|instead|but"
    r"|not|never|actually|wrong|mistake\w*|lied|except|turns? out|now|should|could|would(?! be)"
    r"|will|if|supposing|suppose|make|meant|put|puts|putting|pull\w*|install\w*|ran|bring\w*"
    r"|brought|stuck|stick|threw|throw|drop\w*|lose|give|needs?|wants?|going to|gonna|new|second"
    r"|third|fourth|fifth|next (?:box|to (?:it|them|that))|other(?! words\b)|on top|swap\w*"
    r"|replac\w*|chang\w*|remov\w*|tak\w*|took|undo|last box|same (?:again|thing)"
    r"|box (?:two|three|four|[2-9])|fish\w*|hook\w*|there goes|yank\w*|detach\w*|leaves|leaving"
    r"|(?<!the )left|gone|rid|cut|ditch\w*|scratch\w*|minus|less|without|mov\w*|sen[dt]\w*"
    r"|become\w*|one of)\b|n['’]t\b|['’]ll\b"
)
#: "In the middle", where no barrier is spoken of, is read as a share.
_SILENT = (acts.Yes, acts.Keep, acts.OtherTalk, acts.NothingElse, acts.Social, acts.ShareSpaces)


def listed_over(read: Utterance, state: State, capacity: Decimal | None) -> Utterance:
    """The utterance as one that asks for what is there, where that is what it lists."""
    if not state.items or state.pending or state.unread or _BRINGS_IN.search(read.heard):
        return read
    listed: Counter[int] = Counter()
    named = 0
    for act in read.acts:
        thing = act.thing if isinstance(act, acts.Restate) else act
        if isinstance(thing, acts.Replace):
            found = _become(state, thing)
        elif is_thing(thing):
            found = _lines(state, thing)
        elif _is_so(state, act, capacity):
            continue
        else:
            return read
        if found is None:
            return read
        listed.update(found)
        named += 1
    if not named or not _is_all(state.items, listed):
        return read
    if not all(is_known(state, run) for run in read.unread if run.weighty):
        return read
    asked = acts.Ask(about="read_back", words=read.heard.strip(), span=(0, len(read.heard)))
    return replace(read, acts=(asked,), unread=())


def _is_all(items: Sequence[Item], listed: Counter[int]) -> bool:
    """Whether every cable, wire and device of the box is listed in its number, and no single thing
    alone: "a switch" may be another one."""
    if sum(listed.values()) < 2:
        return False
    return all(
        listed[one.key] == one.content.count
        for one in items
        if one.key in listed or isinstance(one.content, _HAS_TO_BE_LISTED)
    )


def _lines(state: State, thing: acts.Thing) -> Counter[int] | None:
    """How many of each line of the box a thing is; None where it may be something else."""
    like = replace(references.to_thing(thing), count=None)
    found = _agreeing(state, like)
    if not found:
        return None
    if isinstance(found[0].content, Grounds) and len(found) == 1:
        return Counter({found[0].key: getattr(thing, "count", None) or 1})
    count = getattr(thing, "count", None)
    if len(found) == 1:
        return Counter({found[0].key: count or 1})
    everything = Counter({one.key: one.content.count for one in found})
    return everything if count == sum(everything.values()) else None


def _agreeing(state: State, like: Reference) -> list[Item]:
    """The lines that a thing can be: by its very name, else by a part of it; "two fourteens" are
    the cables of that size where the box has no loose wires."""
    found = [one for one in state.items if references.agrees(one, like)]
    exact = [one for one in found if references.called(one) == (like.name or "")]
    if exact and like.name:
        return exact
    if found or like.kind != "conductors" or like.awg is None:
        return found
    if any(isinstance(one.content, Conductors) for one in state.items):
        return []
    return [one for one in state.items if references.agrees(one, replace(like, kind="cable"))]


def _is_so(state: State, act: Act, capacity: Decimal | None) -> bool:
    """Whether an act that names no thing says only what is so."""
    match act:
        case acts.SetClamps():
            return act.where == state.clamps
        case acts.SetVolume():
            return capacity is not None and act.volume == capacity
        case acts.Number():
            return act.value is not None and any(
                one.content.count == act.value for one in state.items
            )
        case acts.Deny():
            return references.find(state, act.target) is None
    return isinstance(act, _SILENT)


def _become(state: State, act: acts.Replace) -> Counter[int] | None:
    """ "Both the devices are dimmers", of two dimmers: all of them, as they are."""
    meant = [one for one in state.items if references.agrees(one, replace(act.target, count=None))]
    like = replace(references.to_thing(act.thing), count=None)
    if not meant or not all(references.agrees(one, like) for one in meant):
        return None
    return Counter({one.key: one.content.count for one in meant})


__all__ = ["listed_over"]
