""" "Change one of the 14-2s to a 14-3": one thing in place of another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue import merging
from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import counted, listed, say
from boxaloud.assistant.dialogue.state_parts import Item, Recalled
from boxaloud.assistant.dialogue.tracker import (
    added_items,
    item_changes,
    mentions,
    named_in_turn,
    parts_said_apart,
)
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Reference, Thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules import RulesError


def replace_act(turn: Turn, act: acts.Replace) -> None:
    """ "Change one of the 14-2s to a 14-3", "the cables are 14-3", "a dimmer instead of it"."""
    target, thing = act.target, act.thing
    if _all_unsized(act) and _fill_pending(turn, act):
        return
    if target.kind == "anything" and target.which != "last":
        # a Reference like "one" or "both": among things of the new one's kind
        named = references.by_words(turn.state, target.words) if target.count is None else []
        target = replace(target, kind=references.kind_of(thing), words="")
        if named and references.agrees(named[0], target):  # "the shed one is a 14-3"
            target = replace(target, item=named[0].key, count=1)
    target = _of_cables(turn, target, thing)
    all_found = references.find_all(turn.state, target)
    same_kind = named_in_turn.others(turn, act, all_found)
    if named_in_turn.is_of_those(turn, act, same_kind):
        turn.understood.append(act.words)  # of two switches "one's a dimmer and one's a switch"
        return
    item = _picked(turn, act, target, all_found, same_kind)
    if item is None:
        _replace_absent(turn, act, sum(one.content.count for one in same_kind))
        return
    if parts_said_apart.beside(turn, act, item):
        mentions.mention(turn, parts_said_apart.of_all(act))
        return
    many = references.plural(act.target.words) or target.which in ("both", "all")
    if many and _of_which(turn, act, same_kind):
        return
    if target.count is None and target.ordinal is None and len(same_kind) > 1 and many:
        if thing.count not in (None, sum(one.content.count for one in same_kind)):
            there = listed([item_names.heard(one.content) for one in same_kind])
            item_changes.pointed_past(turn, say("these_are_there", what=there))
            return
        _replace_all(turn, same_kind, thing)
        return
    if target.count is not None and _more_replaced(turn, item, target.count, act):
        return
    units = _units(item, target, thing, len(all_found))
    if units < item.content.count:
        replace_some(turn, item, units, thing)
    else:
        _replace_whole(turn, item, target, thing)


def _of_cables(turn: Turn, target: Reference, thing: Thing) -> Reference:
    """ "One of the 12s is a 12-3": of the cables, where no wires are there by themselves."""
    loose = target.kind in ("conductors", "wire") and isinstance(thing, acts.AddCable)
    if loose and not references.find_all(turn.state, target):
        return replace(target, kind="cable", words="")
    return target


def _picked(
    turn: Turn, act: acts.Replace, target: Reference, there: list[Item], found: list[Item]
) -> Item | None:
    """The one of those found that is to become another."""
    item = _unnamed_device(found, target, act.thing) or references.find(turn.state, target)
    item = _so_many(found, target) or item
    return next(reversed(found), None) if item in there and item not in found else item


def _so_many(found: Sequence[Item], target: Reference) -> Item | None:
    """ "All three of them are 12-2s": those that there are three of, whatever was said last."""
    if target.count in (None, 1) or target.ordinal is not None or target.awg is not None:
        return None
    alike = [item for item in found if item.content.count == target.count]
    return alike[0] if len(alike) == 1 and len(found) > 1 else None


_THEY = lazy_pattern(r"(?i)(?:[a-z]+,? )*(?:they(?!['’]re all\b| are all\b)|those|these)\b")


def _of_which(turn: Turn, act: acts.Replace, found: Sequence[Item]) -> bool:
    """ "Those are all 14-2s", where there are cables of two sizes: of which nobody can say, unless
    they were said last."""
    sizes = {getattr(one.content, "awg", None) for one in found}
    if len(sizes) < 2 or not isinstance(act.thing, acts.AddCable) or not _THEY.match(act.words):
        return False
    last = turn.state.item(turn.state.last)
    like = replace(references.to_thing(act.thing), count=None)
    known = last is not None and references.agrees(last, like)
    (turn.understood if known else turn.unplaced).append(act.words)
    return True


def _all_unsized(act: acts.Replace) -> bool:
    """ "Both cables are 12-2": first of all of cables whose size is open."""
    return (
        isinstance(act.thing, acts.AddCable)
        and act.target.kind == "cable"
        and act.target.which in ("both", "all")
    )


def _unnamed_device(found: Sequence[Item], target: Reference, thing: Thing) -> Item | None:
    """ "One's a receptacle, one's a switch", of two devices: those that have no name yet."""
    if target.name is not None or not isinstance(thing, acts.AddDevice):
        return None
    return next((one for one in reversed(found) if references.called(one) == "device"), None)


#: An order to change what is there says that it is there.
_ORDERS = ("make", "change", "swap", "replace", "switch", "turn", "convert")


def _replace_absent(turn: Turn, act: acts.Replace, units: int) -> None:
    """What is to be replaced is not there: where that may be, the new thing comes in."""
    target, thing = act.target, parts_said_apart.of_all(act)
    if isinstance(thing, acts.AddCable) and _fill_pending(turn, act):
        return
    if isinstance(thing, acts.AddCable) and thing.count is None and target.which in ("both", "all"):
        _all_of_unknown(turn, thing, target)
        return
    ordered = act.words.lower().startswith(_ORDERS)
    further = target.ordinal == units + 1 and not ordered  # "and the third one's a 14-3"
    bare = target.awg is None and target.name is None
    unnamed = bare and target.kind in ("anything", "cable", "wire", "device")
    # "I replaced the old switch with a dimmer"
    named = target.kind in ("device", "fitting") and target.name is not None
    if ordered and target.ordinal is not None:
        unnamed = named = False  # "make the second switch a timer" where there is but one
    if further or unnamed or named:
        mentions.mention(turn, thing)
        return
    item_changes.not_found(turn, target, act.words)


def _all_of_unknown(turn: Turn, cable: acts.AddCable, target: Reference) -> None:
    """ "Line and load, both are 14-2" of cables that nobody counted: two, or it is asked."""
    if target.which == "both":
        mentions.mention(turn, replace(cable, count=2))
        return
    from boxaloud.assistant.dialogue.belief import held_acts

    held_acts.wait(turn, cable, "count", "vague")


def _units(item: Item, target: Reference, thing: Thing, kinds: int) -> int:
    """How many of an item are to become something else."""
    if target.count is not None:
        return target.count
    if target.ordinal is not None:
        return 1
    if thing.count is not None and thing.count < item.content.count:
        return thing.count
    if target.which in ("other", "others") and kinds == 1:
        return item.content.count - 1 or 1
    return item.content.count


def _replace_whole(turn: Turn, item: Item, target: Reference, thing: Thing) -> None:
    """All of an item becomes something else."""
    state = turn.state
    try:
        new = added_items.content_of(_whole_count(thing, item, target), state.without(item.key))[0]
    except RulesError as refusal:
        turn.refuse(thing.words, str(refusal))
        return
    if type(new) is not type(item.content):
        out = Recalled(item.content, item.words)
        taken = altered(state.without(item.key), recalled=(*state.recalled[-4:], out))
        turn.enter(taken, say("echo.taken_out", what=item_names.heard(item.content)))
        mentions.mention(turn, thing)
        return
    before = item.content
    item_changes.put_in_place(turn, item, new, thing)
    if turn.state is not state:
        key = turn.state.last if isinstance(turn.state.last, int) else None
        gone = Recalled(before, item.words, key, new.count)
        turn.state = altered(turn.state, recalled=(*state.recalled[-4:], gone))


def _more_replaced(turn: Turn, item: Item, units: int, act: acts.Replace) -> bool:
    """ "One of the 14-2s is a 14-3 … no, two of them": the change just made, for so many."""
    recalled = turn.state.recalled[-1] if turn.state.recalled else None
    by = turn.state.item(recalled.by) if recalled is not None and recalled.by is not None else None
    if recalled is None or by is None:
        return False
    same = references.agrees(by, replace(references.to_thing(act.thing), count=None))
    source = next((i for i in turn.state.items if merging.alike(i.content, recalled.content)), None)
    if (
        not same
        or source is None
        or units == by.content.count
        or item.key not in (by.key, source.key)
    ):
        return False
    step = units - by.content.count
    if not 0 < step <= source.content.count:
        return False
    left = source.content.count - step
    state = (
        turn.state.with_content(source.key, replace(source.content, count=left))
        if left
        else turn.state.without(source.key)
    )
    new = replace(by.content, count=units)
    turn.enter(
        state.with_content(by.key, new),
        item_changes.changed(by.content, new),
        item_names.shown(new),
    )
    return True


#: "One receptacle in place of both": one in all, and not "a receptacle" for each of them.
_ONE = lazy_pattern(r"(?i)(?:(?:just|only|the|an?) )*(?:one|1|single)\b")


def _whole_count(thing: Thing, item: Item, target: Reference) -> Thing:
    """The count of what comes in place of a whole item."""
    each = thing.count == 1 and not _ONE.match(thing.words)
    if thing.count is None or (target.count is not None and each):
        return replace(thing, count=item.content.count)
    return thing


def _fill_pending(turn: Turn, act: acts.Replace) -> bool:
    """ "They're 14-2s" of cables whose size was still open."""
    for pending in turn.state.pending:
        if isinstance(pending.act, acts.AddCable) and pending.reason == "unsized":
            from boxaloud.assistant.dialogue.belief import held_acts

            thing = act.thing
            count = (
                pending.act.count
                if thing.count is None or act.target.which == "both"
                else thing.count
            )
            held_acts.drop(turn, pending)
            mentions.mention(turn, replace(thing, count=count))
            return True
    return False


def _replace_all(turn: Turn, items: list[Item], thing: Thing) -> None:
    for item in items:
        try:
            new = added_items.content_of(replace(thing, count=item.content.count), turn.state)[0]
        except RulesError as refusal:
            turn.refuse(thing.words, str(refusal))
            return
        item_changes.put_in_place(turn, item, new, thing)


def replace_some(turn: Turn, item: Item, units: int, thing: Thing) -> None:
    """So many of an item become something else; the rest stays."""
    said = thing.count is not None and (thing.count > 1 or _ONE.match(thing.words) is not None)
    count = thing.count if thing.count is not None and said else units
    try:
        new = added_items.content_of(replace(thing, count=count), turn.state)[0]
    except RulesError as refusal:
        turn.refuse(thing.words, str(refusal))
        return
    new = item_changes.kept(item.content, new, thing)
    if merging.alike(item.content, new):  # "one of those is a three-way", of three-ways
        what = item_names.heard(item.content)
        turn.answer(say("echo.already", what=what), item_names.shown(item.content))
        return
    old = replace(item.content, count=item.content.count - units)
    state = turn.state.with_content(item.key, old)
    twin = next((one for one in state.items if merging.alike(one.content, new)), None)
    if twin is not None and twin.key != item.key:
        state = state.with_content(twin.key, replace(new, count=twin.content.count + count))
    else:
        state = state.with_item(new, thing.words, added_items.open_of(new, thing))
    key = state.last if isinstance(state.last, int) else None
    gone = Recalled(replace(item.content, count=units), item.words, key, count)
    state = altered(state, recalled=(*turn.state.recalled[-4:], gone))
    echo = say(
        "echo.changed_one", old=counted(units), all=item_names.heard(item.content),
        new=item_names.heard(new),
    )  # fmt: skip
    turn.enter(state, echo, item_names.shown(new))
