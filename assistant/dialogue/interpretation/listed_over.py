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
    r"|plus(?! the)|add(?:ed|ing|s)?|too|as well|besides|forgot|forget|missed|found|instead"
    r"|(?<!nothing )(?<!nothing else )but"
    r"|not|never|actually|wrong|mistake\w*|lied|except|turns? out|now|should|could|would(?! be)"
    r"|will|if|supposing|suppose|make|meant|put|puts|putting|pull\w*|install\w*|ran|bring\w*"
    r"|brought|stuck|stick|threw|throw|drop\w*|lose|give|needs?|wants?|going to|gonna|new|second"
    r"|third|fourth|fifth|next (?:box|to (?:it|them|that))|other(?! words\b| one\b)|on top|swap\w*"
    r"|replac\w*|chang\w*|remov\w*|tak\w*|took|undo|last box|same (?:again|thing)"
    r"|box (?:two|three|four|[2-9])|fish\w*|hook\w*|there goes|yank\w*|detach\w*|leaves|leaving"
    r"|(?<!the )left|gone|rid|cut|ditch\w*|scratch\w*|minus|less|without|mov\w*|sen[dt]\w*"
    r"|become\w*|(?<!every )one of(?!.*\bthe other))\b|n['’]t\b|['’]ll\b"
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
        if _is_this_box(read.heard, act, capacity) or (named and _is_size_of_all(state, act)):
            continue
        if isinstance(thing, acts.Replace):
            found = _become(state, thing)
        elif isinstance(thing, acts.Land):
            found = _landed(state, thing)
        elif isinstance(thing, acts.AddUncounted):
            continue
        elif is_thing(thing):
            found = _things(read.heard, state, thing)
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


def _things(heard: str, state: State, thing: acts.Thing) -> Counter[int] | None:
    """How many of each line of the box a thing is, however it is named."""
    if _goes_other_way(state, thing):
        return None
    return (
        _one_and_the_other(heard, state, thing)
        or _cable_by_wires(heard, state, thing)
        or _lines(state, thing)
    )


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


_WAYS = {"in": lazy_pattern(r"(?i)\bout\b"), "out": lazy_pattern(r"(?i)\bin\b")}


def _goes_other_way(state: State, thing: acts.Thing) -> bool:
    """ "Fourteen-two out", behind "fourteen-two in": one cable more."""
    way = _WAYS.get(thing.role or "") if isinstance(thing, acts.AddCable) else None
    if way is None:
        return False
    found = _agreeing(state, replace(references.to_thing(thing), count=None))
    single = len(found) == 1 and found[0].content.count == 1
    return single and way.search(found[0].words) is not None


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


#: "The octagon, the one with the stud", "yeah, that's the box we're on".
_THIS_BOX = lazy_pattern(
    r"(?i)\b(?:the one with|(?:that['’]s|it['’]s|this is) the (?:box|one)|ye(?:ah|p|s)|right)\b"
)


def _is_this_box(heard: str, act: Act, capacity: Decimal | None) -> bool:
    """Whether an act only names the box that is told of, whose room is known."""
    named = isinstance(act, acts.NameBoxKind) and capacity is not None
    return named and _THIS_BOX.search(heard) is not None


def _landed(state: State, act: acts.Land) -> Counter[int] | None:
    """ "Both 14-2s on the one switch": the device too, where all that it can be on is of a size."""
    found = [one for one in state.items if references.agrees(one, replace(act.target, count=None))]
    if len(found) != 1 or _sizes(state) != {act.awg}:
        return None
    return Counter({found[0].key: act.target.count or 1})


def _sizes(state: State) -> set[int]:
    return {one.content.awg for one in state.items if isinstance(one.content, Cable | Conductors)}


#: "A 14-3 and a 14-2, both fourteens".
_ALL_OF_THEM = lazy_pattern(r"(?i)(?:both|all|each|every one)\b")


def _is_size_of_all(state: State, act: Act) -> bool:
    """Whether an act only says what size the cables are that are listed before it."""
    sized = isinstance(act, acts.AddConductors) and _ALL_OF_THEM.match(act.words) is not None
    return sized and {getattr(act, "awg", None)} == _sizes(state)


#: "One of the 14-3s comes in, the other goes out".
_OTHER = lazy_pattern(
    r"(?i)\W*one of (?:the|those|these|my|them)\b[^.;!?]*? (?:comes|runs|goes|is|feeds|heads)\b"
    r"[^.;!?]*? the other(?: one)? (?:comes|runs|goes|is|feeds|heads)\b"
)


def _one_and_the_other(heard: str, state: State, thing: acts.Thing) -> Counter[int] | None:
    """Both of two, of which each is told where it goes."""
    if not _OTHER.match(heard[thing.span[0] :]):
        return None
    like = replace(references.to_thing(thing), count=None)
    found = [one for one in state.items if references.agrees(one, like)]
    both = len(found) == 1 and found[0].content.count == 2
    return Counter({found[0].key: 2}) if both else None


#: "A three wire".
_WIRE = lazy_pattern(r"(?i)\b(?:an?|one|the) (?:one )?$")


def _cable_by_wires(heard: str, state: State, thing: acts.Thing) -> Counter[int] | None:
    """ "A three wire": the one cable of so many conductors, where no wire is loose in the box."""
    if not isinstance(thing, acts.AddConductors) or "wire" not in thing.words.split():
        return None
    if not _WIRE.search(heard[: thing.span[0]]):
        return None
    if any(isinstance(one.content, Conductors) for one in state.items):
        return None
    found = [one for one in state.items if getattr(one.content, "conductors", 0) == thing.count]
    return Counter({found[0].key: 1}) if len(found) == 1 else None


def _become(state: State, act: acts.Replace) -> Counter[int] | None:
    """ "Both the devices are dimmers", of two dimmers: all of them, as they are."""
    meant = [one for one in state.items if references.agrees(one, replace(act.target, count=None))]
    like = replace(references.to_thing(act.thing), count=None)
    if not meant or not all(references.agrees(one, like) for one in meant):
        return None
    return Counter({one.key: one.content.count for one in meant})


__all__ = ["listed_over"]
