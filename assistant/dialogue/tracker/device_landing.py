"""Where a device or a terminal block lands, and how many gangs wide it is."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import counted, plain, say, sentence
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import added_items, item_changes
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Reference
from boxaloud.rules import RulesError, validate
from boxaloud.rules.contents import (
    TerminalBlock,
    Yoke,
)


def land(turn: Turn, act: acts.Land) -> None:
    """ "The switch goes on the twelves": the largest conductor landed on a device."""
    state, target = turn.state, act.target
    plural = references.plural(target.words)
    if target.which == "both" or plural or target.which == "all":
        sized = [
            i
            for i in references.find_all(state, target)
            if isinstance(i.content, Yoke | TerminalBlock)
        ]
        if target.count is None and len(sized) > 1:
            for one in sized:
                land_item(turn, one, act.awg, None, act.words)
            return
    item = state.item(target.item) if target.item is not None else _landed(turn, target)
    if item is not None and not isinstance(item.content, Yoke | TerminalBlock):
        item = None  # what was pointed at is no longer there
    if item is None:
        landed = all(i.content.awg is not None for i in state.items if isinstance(i.content, Yoke))
        if target.name and landed and not (target.count is None and plural):
            # with every device landed already, this is the first mention of one
            added_items.enter(
                turn,
                acts.AddDevice(
                    name=target.name, count=target.count or 1, awg=act.awg, words=act.words
                ),
            )
        elif target.name and target.words.lower().startswith(("a ", "an ", "one ", "another ")):
            added_items.enter(
                turn, acts.AddDevice(name=target.name, count=1, awg=act.awg, words=act.words)
            )
        else:
            item_changes.not_found(turn, target, act.words)
        return
    land_item(turn, item, act.awg, target.count, act.words)


def _landed(turn: Turn, target: Reference) -> Item | None:
    """The device or terminal block meant: the one asked about, the one named, the last unsized."""
    state = turn.state
    if target.name and target.name != "device":
        return references.find(state, target)
    if target.kind == "terminal_block":
        return references.find(state, target)
    asked = state.item(turn.subject) if turn.subject is not None else None
    if (
        asked is not None
        and isinstance(asked.content, Yoke | TerminalBlock)
        and target.ordinal is None
        and target.which == "said"
    ):
        return asked
    if target.ordinal is not None or target.which in ("other", "others"):
        return references.find(state, replace(target, kind="device"))
    return last_sized(state)


def last_sized(state: State) -> Item | None:
    """The device or terminal block last said, one whose size is still unsaid before others."""
    sized = [item for item in state.items if isinstance(item.content, Yoke | TerminalBlock)]
    last = state.item(state.last)
    if last in sized:
        return last
    unsaid = [item for item in sized if getattr(item.content, "awg", None) is None]
    return next(reversed(unsaid or sized), None)


def land_item(turn: Turn, item: Item, awg: int, some: int | None, words: str) -> None:
    """Set the size on a device; on some of several where a count is said."""
    content = item.content
    if not isinstance(content, Yoke | TerminalBlock):
        turn.unplaced.append(words)
        return
    if some is not None and some < content.count:
        rest = replace(content, count=content.count - some)
        part = replace(content, count=some, awg=awg)
        try:
            validate(part)
        except RulesError as refusal:
            turn.refuse(words, str(refusal))
            return
        state = turn.state.with_content(item.key, rest).with_item(part, item.words)
        turn.enter(state, sentence(item_names.heard(part)), item_names.shown(part))
        return
    item_changes.change_content(turn, item, replace(content, awg=awg), words)


def widen(turn: Turn, act: acts.Widen) -> None:
    """ "It takes up two gangs"."""
    target = act.target
    item = turn.state.item(target.item) if target.item is not None else None
    if item is None and target.name:
        item = references.find(turn.state, replace(target, which="said", words=""))
    if item is None:
        devices = [i for i in turn.state.items if isinstance(i.content, Yoke)]
        last = turn.state.item(turn.state.last)
        open_ = [i for i in devices if i.open == "gangs"]
        item = open_[-1] if open_ else last if last in devices else devices[-1] if devices else None
    if item is None or not isinstance(item.content, Yoke):
        item_changes.not_found(turn, target, act.words)
        return
    gangs = f"{counted(act.gangs)} {item_names.plural('gang', act.gangs)}"
    state = turn.state.closed(item.key, replace(item.content, gangs=act.gangs))
    turn.enter(state, say("echo.gangs", what=item.content.name, gangs=gangs))


def deepen(turn: Turn, act: acts.Deepen) -> None:
    """ "The dimmer is four centimetres deep": how far it reaches behind its strap."""
    target = act.target
    item = turn.state.item(target.item) if target.item is not None else None
    if item is None:
        item = references.find(turn.state, target)
    if item is None or not isinstance(item.content, Yoke):
        item_changes.not_found(turn, target, act.words)
        return
    content = replace(item.content, depth=act.depth)
    try:
        validate(content)
    except RulesError as refusal:
        turn.refuse(act.words, str(refusal))
        return
    state = turn.state.with_content(item.key, content)
    depth = plain(act.depth)
    turn.enter(state, say("echo.deepened", what=item_names.bare(item.content), depth=depth))
