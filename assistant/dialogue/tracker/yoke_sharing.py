"""Devices on one yoke count as one, 314.16(B)(4)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.belief import held_acts
from boxaloud.assistant.dialogue.interpretation import reference_ambiguity, references
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import counted, listed, say
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import added_items, item_changes
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.rules.contents import Yoke

COMBINED = "combination device"


def share(turn: Turn, act: acts.ShareYoke) -> None:
    """ "Both devices are on one yoke", "each is on its own yoke": said of what is there."""
    yokes = yokes_of(turn.state)
    joined = any(isinstance(i.content, Yoke) and i.content.name == COMBINED for i in yokes)
    if act.apart:
        if joined or not yokes:
            turn.unplaced.append(act.words)
        else:
            turn.understood.append(act.words)
        return
    if not yokes:
        _first_said(turn, act)
        return
    meant = _meant(turn, act, yokes)
    units = sum(item.content.count for item in meant)
    said = act.count or sum(target.count or 0 for target in act.targets)
    if not meant or (said and units not in (1, said)):
        turn.unplaced.append(act.words)  # of three that are there, which are both?
    elif units == 1:
        turn.answer(say("echo.already", what=item_names.heard(meant[0].content)), act.words)
    else:
        join(turn, meant, act.words)


def _first_said(turn: Turn, act: acts.ShareYoke) -> None:
    """Of no device that was said before: one yoke comes in, by what it carries."""
    named = any(target.name for target in act.targets)
    if not named and act.count is not None:
        turn.unplaced.append(act.words)
        return
    thing = acts.AddDevice(count=1, name=COMBINED if named else "device", words=act.words)
    added_items.enter(turn, thing)


def _meant(turn: Turn, act: acts.ShareYoke, yokes: list[Item]) -> list[Item]:
    """The devices that are meant; none where one that is named is not there."""
    found: list[Item] = []
    for target in act.targets:
        like = replace(target, count=None, words="")
        named = references.find_all(turn.state, like) if target.name else yokes
        if not named:
            return []
        found += [item for item in named if item not in found]
    return found if act.targets else yokes


def yokes_of(state: State) -> list[Item]:
    """The devices of the box."""
    return [item for item in state.items if isinstance(item.content, Yoke)]


def join(turn: Turn, items: Sequence[Item], words: str) -> None:
    """Put one yoke in place of several, on the largest of the conductors that they land on."""
    pending = turn.state.pending
    if reference_ambiguity.is_open(turn.state) and isinstance(pending[0].act, acts.Recount):
        held_acts.drop(turn, pending[0])  # which of them is left is told by this
    state = turn.state
    contents = [item.content for item in items if isinstance(item.content, Yoke)]
    sizes = [content.awg for content in contents]
    awg = None if None in sizes else min(size for size in sizes if size is not None)
    for item in items:
        state = state.without(item.key)
    one = Yoke(COMBINED, awg, max(content.gangs for content in contents))
    old = listed([item_names.heard(content) for content in contents])
    echo = say("echo.changed_item", old=old, new=item_names.heard(one))
    turn.enter(state.with_item(one, words), echo, item_names.shown(one))


def count_all(turn: Turn, count: int, words: str) -> bool:
    """ "Only one device", "no, three devices": how many there are in all, whatever they are;
    False where there is none yet. Of several kinds that are more than that it is asked which."""
    yokes = yokes_of(turn.state)
    units = sum(item.content.count for item in yokes)
    if not yokes or count < 1:
        return False
    if units == count:
        turn.answer(say("echo.agrees", count=counted(count)), words)
    elif len(yokes) == 1:
        item_changes.recount(turn, yokes[0], count, words)
    elif units < count:
        added_items.enter(turn, acts.AddDevice(count=count - units, name="device", words=words))
    else:
        target = acts.Reference("device", words=words)
        reference_ambiguity.ask_which(turn, acts.Recount(target=target, count=count, words=words))
    return True


def keep_only(turn: Turn, stays: acts.Reference, count: int, words: str) -> None:
    """ "The switch", where it was asked which of the devices is left: the others go."""
    staying = references.find_all(turn.state, replace(stays, count=None, words=""))
    for item in yokes_of(turn.state):
        if item not in staying:
            item_changes.recount(turn, item, 0, words)
        elif item.content.count > count:
            item_changes.recount(turn, item, count, words)
