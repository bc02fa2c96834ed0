"""Where a device or a terminal block lands, and how many gangs wide it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.belief import held_acts
from boxaloud.assistant.dialogue.interpretation import (
    pointed_devices,
    reference_ambiguity,
    references,
)
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import counted, plain, say, sentence
from boxaloud.assistant.dialogue.state import State, sizes_present
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import added_items, item_changes
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Reference
from boxaloud.grammar.utterance.device_groups import for_unlike, purposes
from boxaloud.rules import RulesError, validate
from boxaloud.rules.contents import (
    TerminalBlock,
    Yoke,
)

_BOTH = 2


def land(turn: Turn, act: acts.Land) -> None:
    """ "The switch goes on the twelves": the largest conductor landed on a device."""
    target = act.target
    if target.words.lower().startswith("both ") and references.find(turn.state, target):
        target = replace(target, which="both", count=None)
        act = replace(act, target=target)
    if _is_held(turn, act):
        return
    if target.which in ("both", "all") or references.plural(target.words):
        sized = _sized(references.find_all(turn.state, target))
        if target.which == "both" and sum(one.content.count for one in sized) > _BOTH:
            _land_last_two(turn, act, sized)
            return
        if target.count is None and len(sized) > 1:
            for one in sized:
                land_item(turn, one, act.awg, None, act.words)
            return
    if _is_any_of_several(turn, act):
        reference_ambiguity.ask_which(turn, act)
        return
    item = turn.state.item(target.item) if target.item is not None else _landed(turn, act)
    if item is not None and not isinstance(item.content, Yoke | TerminalBlock):
        item = None  # what was pointed at is no longer there
    if item is None:
        _land_first_said(turn, act)
    elif _are_more(act, item):
        further = acts.AddDevice(
            name=target.name or getattr(item.content, "name", None),
            count=target.count or 1, awg=act.awg, words=act.words,
        )  # fmt: skip
        added_items.enter(turn, further)
    elif _is_one_of_more(turn, act, item):
        held_acts.wait(turn, act, "target", "unusual")
    else:
        single = target.ordinal is not None or target.words.lower().startswith("the other one")
        named = target.count is None and bool(purposes(target.words))
        single = single or (named and not references.plural(target.words))
        some = 1 if single else target.count
        land_item(turn, item, act.awg, some, act.words)


def _is_held(turn: Turn, act: acts.Land) -> bool:
    """Whether a size that is not there, or more devices than are, leave the landing open."""
    if _is_strange(turn, act):
        held_acts.wait(turn, act, "awg", "unusual")
    elif _are_fewer(turn, act.target):
        turn.unplaced.append(act.words)
    else:
        return False
    return True


def _are_fewer(turn: Turn, target: Reference) -> bool:
    """ "All three switches are on the 14", where one is there: of those that nobody told."""
    if target.which not in ("both", "all") or target.name is None or target.count is None:
        return False
    there = sum(one.content.count for one in references.find_all(turn.state, target))
    return 0 < there < target.count


def _are_more(act: acts.Land, item: Item) -> bool:
    """ "The other two switches are on the 12", where one stands on the 14: further ones."""
    stands, content = getattr(item.content, "awg", None), item.content
    if not isinstance(content, Yoke) or stands in (None, act.awg):
        return False
    return (act.target.count or 0) > content.count or _is_for_another(act, item)


def _is_for_another(act: acts.Land, item: Item) -> bool:
    """ "The fan switch is on the 12s, the light switch is on the 14s": two, each for its own."""
    target = act.target
    if target.item is not None or target.which != "said" or item.content.count > 1:
        return False
    return for_unlike(item.words, target.words)


def _land_last_two(turn: Turn, act: acts.Land, found: Sequence[Item]) -> None:
    """ "Two three-ways, both on the 14", beside another device: the two said last; which, else."""
    last = next((one for one in found if one.key == turn.state.last), None)
    if last is None or last.content.count != _BOTH:
        reference_ambiguity.ask_which(turn, act)
    elif getattr(last.content, "awg", None) == act.awg:
        turn.understood.append(act.words)
    else:
        land_item(turn, last, act.awg, None, act.words)


def _land_first_said(turn: Turn, act: acts.Land) -> None:
    """A device that was not said before: it comes in, where the words do not point."""
    target = act.target
    device = acts.AddDevice(name=target.name, count=1, awg=act.awg, words=act.words)
    landed = all(i.content.awg is not None for i in turn.state.items if isinstance(i.content, Yoke))
    if target.name and landed and (target.count or not references.plural(target.words)):
        # with every device landed already, this is the first mention of one
        added_items.enter(turn, replace(device, count=target.count or 1))
    elif target.name and target.words.lower().startswith(("a ", "an ", "one ", "another ")):
        added_items.enter(turn, device)
    elif _is_the_box(turn, act):
        turn.understood.append(act.words)
    else:
        item_changes.not_found(turn, target, act.words)


def _is_the_box(turn: Turn, act: acts.Land) -> bool:
    """ "A switch loop on it", where no device was told: the cable comes to the box."""
    devices = any(isinstance(item.content, Yoke | TerminalBlock) for item in turn.state.items)
    return not devices and not turn.state.pending and act.target.words.lower() == "it"


def is_open(turn: Turn, thing: acts.Thing) -> bool:
    """ "Dimmer on the 12", of one that stands on the 14: that one, or one more? It is asked."""
    if not isinstance(thing, acts.AddDevice) or thing.awg is None or thing.count is not None:
        return False
    known = pointed_devices.known(turn.state, thing)
    if turn.supposed or len(known) != 1 or known[0].content.count > 1:
        return False
    said_before = known[0].key in {item.key for item in turn.began.items}
    if not said_before or getattr(known[0].content, "awg", None) in (None, thing.awg):
        return False
    target = Reference("device", thing.name, item=known[0].key, words=thing.words)
    act = acts.Land(target=target, awg=thing.awg, words=thing.words, span=thing.span)
    held_acts.wait(turn, act, "target", "some")
    return True


def _sized(items: Sequence[Item]) -> list[Item]:
    """Those of the items that land on a conductor."""
    return [item for item in items if isinstance(item.content, Yoke | TerminalBlock)]


def _is_strange(turn: Turn, act: acts.Land) -> bool:
    """Whether a device that stands on one size is to stand on another of which no conductor is in
    the box, or on one that is smaller than any there. "It has twelves on it" tells of a larger."""
    if act is turn.settled or turn.supposed:
        return False
    sizes = sizes_present(turn.state)
    if not sizes or act.awg in sizes or act.awg in {getattr(a, "awg", None) for a in turn.ahead}:
        return False
    item = turn.state.item(act.target.item or 0) or _landed(turn, act)
    stands = getattr(item.content, "awg", None) if item is not None else None
    return stands not in (None, act.awg) or act.awg > max(sizes)


def _is_any_of_several(turn: Turn, act: acts.Land) -> bool:
    """ "Move the device to the 12" with a switch and a dimmer there, none of them just said."""
    target, state = act.target, turn.state
    if target.kind != "device" or target.name not in (None, "device") or target.item is not None:
        return False
    if target.ordinal is not None or target.which != "said" or turn.subject is not None:
        return False
    sized = _sized(state.items)
    open_ = any(getattr(item.content, "awg", None) is None for item in sized)
    return len(sized) > 1 and not open_ and state.item(state.last) not in sized


def _is_one_of_more(turn: Turn, act: acts.Land, item: Item) -> bool:
    """ "Move the switch to the 12" of three that stand on the 14: one of them, or all?"""
    target = act.target
    if act is turn.settled or turn.supposed or target.item is not None or not target.name:
        return False
    standing = getattr(item.content, "awg", None) not in (None, act.awg)
    single = target.ordinal is None and target.count is None and target.which == "said"
    return standing and single and item.content.count > 1 and not references.plural(target.words)


def _landed(turn: Turn, act: acts.Land) -> Item | None:
    """The device or terminal block meant: the one asked about, the one named, the last unsized."""
    state, target = turn.state, act.target
    if target.name and target.name != "device":
        return _named(state, act)
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
    unsaid = [one for one in _sized(state.items) if getattr(one.content, "awg", None) is None]
    if target.count is not None and unsaid:
        return unsaid[-1]  # "two are on the 12 and one on the 14": one of those that are left
    return last_sized(state)


def _named(state: State, act: acts.Land) -> Item | None:
    """The device of that name; of several the one that does not stand there already."""
    found = references.find_all(state, act.target)
    sizes = [getattr(item.content, "awg", None) for item in found]
    elsewhere = [item for item, awg in zip(found, sizes, strict=True) if awg != act.awg]
    if purposes(act.target.words) and None in sizes and len(found) > 1:
        return found[sizes.index(None)]  # "the light switch": the other one stands already
    one = None not in sizes and len(elsewhere) == 1
    if one and act.target.ordinal is None and act.target.which == "said":
        return elsewhere[0]
    return references.find(state, act.target)


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
