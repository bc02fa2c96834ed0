"""What every correction comes down to: an item with another content or another count."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace

from boxaloud.assistant.dialogue import merging
from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import counted, say, sentence
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item, Recalled
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Reference, Thing
from boxaloud.rules import RulesError, validate
from boxaloud.rules.contents import (
    Cable,
    Conductors,
    Content,
    Grounds,
    TerminalBlock,
    Yoke,
)

_WIRES = (Cable, Conductors)


def not_found(turn: Turn, reference: Reference, words: str) -> None:
    """There is no such thing in the box: it is said, and no verdict stands until it is said what
    was meant, for the box is not the one that the person has in mind."""
    named = reference.words or words
    if reference.kind == "anything" and reference.item is None:
        turn.unplaced.append(words)
        return
    pointed_past(turn, say("not_in_box", words=named.removeprefix("the ")), words)


def fewer(turn: Turn, item: Item) -> None:
    """Fewer are there than were pointed at: it is said how many, and no verdict stands."""
    pointed_past(turn, say("fewer_than_that", what=item_names.heard(item.content)))


def pointed_past(turn: Turn, why: str, words: str = "") -> None:
    """What was pointed at is not there: told, and asked what it should be. Before anything is in
    the box, the words wait: what comes into it in the same breath is not all that was meant."""
    turn.refused.append(why)
    if turn.state.items:
        turn.missed = True
        turn.state = replace(turn.state, mistaken=True)
    elif words:
        turn.ahead_of_things.append(words)


def change_content(turn: Turn, item: Item, content: Content, words: str) -> None:
    """Put `content` in place of an item's, and say from what to what."""
    try:
        validate(content)
    except RulesError as refusal:
        turn.refuse(words, str(refusal))
        return
    if content == item.content:
        turn.answer(say("echo.already", what=item_names.heard(content)), item_names.shown(content))
        return
    echo = changed(item.content, content)
    state = _merged(turn.state.with_content(item.key, content), item.key)
    state = _devices_follow(state, item.content, content)
    turn.enter(altered(state, added=0), echo, item_names.shown(content))


def _devices_follow(state: State, old: Content, new: Content) -> State:
    """Where the last wires of a size became others, what was landed on that size lands on theirs:
    a device goes by what is landed on it, 314.16(B)(4)."""
    if not isinstance(old, _WIRES) or not isinstance(new, _WIRES) or old.awg == new.awg:
        return state
    if any(isinstance(i.content, _WIRES) and i.content.awg == old.awg for i in state.items):
        return state
    items = tuple(
        replace(item, content=replace(item.content, awg=new.awg))
        if isinstance(item.content, Yoke | TerminalBlock) and item.content.awg == old.awg
        else item
        for item in state.items
    )
    return altered(state, items=items)


def _merged(state: State, key: int) -> State:
    """An item that became like another is one with it."""
    item = state.item(key)
    if item is None:
        return state
    twin = next(
        (
            other
            for other in state.items
            if other.key != key
            and other.open == item.open
            and merging.alike(other.content, item.content)
        ),
        None,
    )
    if twin is None:
        return state
    total = replace(twin.content, count=twin.content.count + item.content.count)
    with suppress(RulesError):
        validate(total)
        return altered(state.without(key).with_content(twin.key, total), last=twin.key)
    return state


def changed(old: Content, new: Content) -> str:
    """From what to what; where one thing alone changed, no more than that."""
    if type(old) is type(new):
        if replace(old, count=new.count) == new:
            return say("echo.recounted", old=counted(old.count), new=item_names.heard(new))
        unsized = isinstance(old, Yoke | TerminalBlock) and old.awg is None
        if unsized and item_names.bare(old) == item_names.bare(new):
            return sentence(item_names.heard(new))
    return say("echo.changed_item", old=item_names.heard(old), new=item_names.heard(new))


def recount(turn: Turn, item: Item, count: int, words: str) -> None:
    """Give an item another count; none takes it out."""
    if count <= 0:
        taken = altered(
            turn.state.without(item.key),
            recalled=(*turn.state.recalled[-4:], Recalled(item.content, item.words)),
        )
        turn.enter(taken, say("echo.taken_out", what=item_names.heard(item.content)))
        return
    before = turn.state
    change_content(turn, item, replace(item.content, count=count), words)
    if turn.state is not before and count < item.content.count:
        gone = Recalled(replace(item.content, count=item.content.count - count), item.words)
        turn.state = altered(turn.state, recalled=(*before.recalled[-4:], gone))


def put_in_place(turn: Turn, item: Item, new: Content, thing: Thing) -> None:
    """A content in place of an item's; what the words did not mention stays."""
    change_content(turn, item, kept(item.content, new, thing), thing.words)


def kept(old: Content, new: Content, thing: Thing) -> Content:
    """What was not mentioned stays: the size a device lands on, its width, a cable's ground."""
    if isinstance(old, Yoke) and isinstance(new, Yoke) and isinstance(thing, acts.AddDevice):
        awg = new.awg if thing.awg is not None or _of_low_voltage(old, new) else old.awg
        gangs = new.gangs if thing.gangs is not None else old.gangs
        return replace(new, awg=awg, gangs=gangs)
    if isinstance(old, Cable) and isinstance(new, Cable) and isinstance(thing, acts.AddCable):
        unsaid = thing.ground is None and thing.ground_awg is None
        return replace(new, ground=None) if unsaid and old.ground is None else new
    if isinstance(old, Conductors) and isinstance(new, Conductors):
        awg = old.awg if getattr(thing, "awg", 0) is None else new.awg
        path = old.path if getattr(thing, "path", "") is None else new.path
        return replace(new, awg=awg, path=path)
    unsized = getattr(thing, "awg", 0) is None
    if unsized and isinstance(old, Grounds) and isinstance(new, Grounds):
        return replace(new, awg=old.awg)
    if unsized and isinstance(old, TerminalBlock) and isinstance(new, TerminalBlock):
        return replace(new, awg=old.awg)
    return new


def _of_low_voltage(old: Yoke, new: Yoke) -> bool:
    """The size of a thermostat's or a bell's wires is of that device, and of none that comes in
    its place: carried over it would count too little."""
    return old.awg in (18, 16) and old.name != new.name


def countable(state: State) -> Item | None:
    """What a bare number counts where clamps or the box came last: the cables, if they are of one
    kind."""
    cables = [item for item in state.items if isinstance(item.content, Cable | Conductors)]
    return cables[0] if len(cables) == 1 else None
