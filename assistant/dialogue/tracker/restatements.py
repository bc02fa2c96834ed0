""" "Actually three 14-2s", "make that three", "they're twelves": said anew in place of before."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.belief import held_acts, slot_values
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state_parts import Item, mark_of
from boxaloud.assistant.dialogue.tracker import (
    added_items,
    agreeing_numbers,
    cables_restated,
    conductor_sums,
    counts,
    devices_counted,
    item_changes,
    lone_corrections,
    marked_box,
    mentions,
    pointed_restatements,
    proposals_said_over,
    replacements,
    restated_items,
    restorations,
    sizes_anew,
    wider_names,
    yoke_sharing,
)
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Thing
from boxaloud.rules import RulesError
from boxaloud.rules.contents import Cable, Conductors, FixtureWires, Yoke


def restate(turn: Turn, act: acts.Restate) -> None:
    """ "Actually three 14-2s", "it's a smart dimmer", "14-3s not 14-2s"."""
    act = restated_items.denied_behind(turn, act)
    state, thing = turn.state, act.thing
    known = _proposed(turn, thing) or pointed_restatements.pointed(turn, act)
    if known or conductor_sums.restated(turn, act):
        return
    if isinstance(thing, acts.AddCable) and thing.awg is None:
        counts.unsized_cables(turn, thing)
        return
    if (
        isinstance(thing, acts.AddDevice)
        and thing.name == "combination device"
        and _combined(turn, thing)
    ):
        return
    if (
        devices_counted.made_up_behind(turn, act)
        or _of_all_devices(turn, act)
        or cables_restated.of_every_kind(turn, act)
        or cables_restated.all_again(turn, act)
        or sizes_anew.called_wire(turn, act)
    ):
        return
    item = restated_items.restated(turn, act)
    if item is None or _goes_on(turn, act, item):
        _come_in(turn, act, item)
        return
    if cables_restated.of_some_or_all(turn, act, item):
        return
    if isinstance(item.content, FixtureWires) and thing.count is not None:
        item_changes.recount(turn, item, thing.count, act.words)
        return
    if wider_names.counted(turn, thing, item):
        return
    if restated_items.puts_another_count_right(turn, act, item):
        return
    if _stands_for_more(turn, act, item) or _some_of_those(turn, act, item):
        held_acts.wait(turn, act, "count", "fewer")
        return
    try:
        contents = added_items.content_of(_with_count(thing, item), state.without(item.key))
    except RulesError as refusal:
        turn.refuse(thing.words, str(refusal))
        return
    item_changes.put_in_place(turn, item, contents[0], thing)


def _come_in(turn: Turn, act: acts.Restate, item: Item | None) -> None:
    """What stands in no place of another comes in, or is asked about."""
    if item is None and _of_any_wires(turn, act.thing):
        turn.unplaced.append(act.words)
    else:
        mentions.mention(turn, act.thing)


def _of_any_wires(turn: Turn, thing: Thing) -> bool:
    """ "Sorry, four wires", of no size, where there are several kinds and none came last."""
    kinds = [one for one in turn.began.items if isinstance(one.content, Conductors)]
    return isinstance(thing, acts.AddConductors) and thing.awg is None and len(kinds) > 1


_AND = re.compile(r"\s*,?\s*(?:and|plus|with|,)\s*(?:the |also )?")
#: Of another kind there may be words between: "ten 12s spliced in it and one green".
_FURTHER_ON = re.compile(r"[^.;!?]*(?:\b(?:and|plus|with)|,)\s*")


def _goes_on(turn: Turn, act: acts.Restate, item: Item) -> bool:
    """ "I've only got four number 10s and two number 14s": the second is joined to the first, and
    stands in no place of it."""
    before = [one for one in turn.done if isinstance(one, acts.Restate) and one is not act]
    if not before or act.thing.count is None or before[-1].thing.count is None:
        return False
    last = before[-1]
    between = turn.heard[last.span[1] : act.span[0]].lower()
    kinds = references.TYPES[references.kind_of(act.thing)]
    if not isinstance(item.content, kinds) and _FURTHER_ON.fullmatch(between):
        return True
    of_that = _told(item.content) == _told(last.thing) != _told(act.thing)
    return of_that and _AND.fullmatch(between) is not None


def _told(thing: object) -> tuple[object, ...]:
    return tuple(getattr(thing, name, None) for name in ("awg", "conductors", "name"))


_OF_THOSE = re.compile(r"(?i)[a-z0-9]+ of (?:those|these|the|them|my|our)\b")


def _some_of_those(turn: Turn, act: acts.Restate, item: Item) -> bool:
    """ "I'll run one of those 12-2s", of four: it is one of them that something is done with, and
    not all that there is."""
    if act is turn.settled or turn.supposed or _OF_THOSE.match(act.thing.words) is None:
        return False
    return act.thing.count is not None and act.thing.count < item.content.count


_ONE = re.compile(r"(?i)(?:just |only )?(?:one|1)\b")
_MADE = re.compile(r"(?i)(?:[a-z]+,? )?(?:make|call) (?:that|it) (?:a|an) ")


def _stands_for_more(turn: Turn, act: acts.Restate, item: Item) -> bool:
    """ "Actually a 14-3", of two 14-2s: one of them, or both? Fewer conductors are asked about, and
    a 12-2 that "that" should be, of two that are there."""
    if act is turn.settled or turn.supposed:
        return False
    thing, content = act.thing, item.content
    a_single = thing.words.lower().startswith(("a ", "an ")) and not _ONE.match(act.words)
    if isinstance(thing, acts.AddDevice):  # "it's a dimmer", of two switches
        was = turn.began.item(item.key) or item
        return was.content.count > 1 and a_single
    if isinstance(thing, acts.AddConductors) and isinstance(content, Cable):
        return (thing.count or 0) <= content.count * content.conductors  # "so two 12s", of 12-2s
    if act.instead_of is not None or (_MADE.match(act.words) and turn.began.item(item.key)):
        return a_single and thing.count == 1 < content.count
    if not isinstance(thing, acts.AddCable) or not isinstance(content, Cable):
        return False
    same = thing.awg in (None, content.awg) and thing.conductors in (None, content.conductors)
    return not same and thing.count is not None and thing.count < content.count


_TWO_SWITCHES = re.compile(r"(?i)\b(?:double|twin|duplex) switch")


def _combined(turn: Turn, thing: acts.AddDevice) -> bool:
    """ "It's a double switch, both on one yoke": two devices become one yoke; False for others."""
    yokes = yoke_sharing.yokes_of(turn.state)
    if _TWO_SWITCHES.search(thing.words):  # and of no receptacle beside them
        switches = [one for one in yokes if references.called(one).endswith("switch")]
        yokes = switches or yokes
    if sum(i.content.count for i in yokes) != 2:
        return False
    yoke_sharing.join(turn, yokes, thing.words)
    return True


def _of_all_devices(turn: Turn, act: acts.Restate) -> bool:
    """ "There's only one device": so many of all; "it's a device" says nothing of how many."""
    thing, instead = act.thing, act.instead_of
    if not isinstance(thing, acts.AddDevice) or thing.name not in (None, "device"):
        return False
    named = instead is not None and instead.name not in (None, "device")
    article = thing.words.lower().startswith(("a ", "an "))
    if thing.count is None or thing.awg is not None or article or named:
        return False
    return yoke_sharing.count_all(turn, thing.count, act.words)


def _proposed(turn: Turn, thing: Thing) -> bool:
    """ "Well, it is a 12-2": what was only supposed just before is so."""
    for one in turn.state.proposed:
        same = getattr(one, "thing", None)
        if (
            isinstance(one, acts.Replace)
            and same is not None
            and mark_of(replace(same, count=None)) == mark_of(replace(thing, count=None))
        ):
            turn.state = altered(turn.state, proposed=())
            replacements.replace_act(turn, replace(one, thing=replace(same, doubts=())))
            return True
    return False


def _with_count(thing: Thing, item: Item) -> Thing:
    """The thing with the item's count where it names none ("make that twelve-two")."""
    said = thing.words.lower()
    article = thing.count == 1 and said.startswith(("a ", "an "))
    if thing.count is not None and not (article and item.content.count == 1):
        return thing
    if thing.count is not None:
        return thing
    return replace(thing, count=item.content.count)


def _stands_in(turn: Turn, act: acts.RestateNumber) -> bool:
    """True where the value can stand in what is asked back: "did you say two?" "no three"."""
    held = turn.state.pending
    return bool(held) and slot_values.slot_for(held[0], act.value) is not None


def _carried_out(turn: Turn, act: acts.RestateNumber) -> bool:
    """ "If I went to three 12-2s … it's three now": what was supposed is so."""
    supposed = proposals_said_over.counted(turn.state.proposed, act.value)
    if supposed is None or act.instead_of is not None:
        return False
    restate(turn, acts.Restate(thing=supposed, words=act.words, span=act.span))
    return True


def restate_number(turn: Turn, act: acts.RestateNumber) -> None:
    """ "Make that three", "it was three", "no, twenty": a value alone, in place of another."""
    state, value = turn.state, act.value
    whole = value == int(value)
    if turn.asked == "confirm" and act.instead_of is None and _stands_in(turn, act):
        held_acts.replaced(turn, int(value) if whole else value, act)
        return
    if sizes_anew.said_of_size(turn, act) or _carried_out(turn, act):
        return
    if restorations.after_all(turn, act) or agreeing_numbers.says_again(turn, act):
        return
    meant = lone_corrections.meant(turn, act)
    if meant == "volume":
        marked_box.set_volume(turn, value, act)
        return
    if meant == "either":
        turn.unplaced.append(act.words)
        return
    item = lone_corrections.counted(state, act)
    if (
        act.instead_of is not None
        and item is not None
        and act.instead_of == state.added != item.content.count
        and whole
    ):
        # "two more … not two, one": of what came in last
        item_changes.recount(turn, item, item.content.count - state.added + int(value), act.words)
        return
    if " more" in act.words.lower():
        turn.unplaced.append(act.words)  # "one more, not two", of what did not come in last
        return
    if act.instead_of is not None and act.instead_of == int(act.instead_of):
        same = [one for one in state.items if one.content.count == act.instead_of]
        if item not in same and len(same) == 1:
            item = same[0]
    if (
        item is None
        or not whole
        or lone_corrections.is_far(item, act)
        or lone_corrections.may_be_one_more(turn, act, item)
        or lone_corrections.may_be_of_cables(turn, act)
    ):
        turn.unplaced.append(act.words)
        return
    if (
        isinstance(item.content, Cable | Yoke)
        and lone_corrections.as_pair(value) is None
        and int(value) in (10, 12, 14)
    ):
        turn.unplaced.append(act.words)
        return
    item_changes.recount(turn, item, int(value), act.words)
