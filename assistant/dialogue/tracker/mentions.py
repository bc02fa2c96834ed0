"""A thing that is told of: one more of it, the size of one that is there, or how many there are."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue import named_devices
from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import (
    added_items,
    bonding_jumpers,
    conductor_sums,
    counts,
    device_landing,
    device_named,
    item_changes,
    known_cables,
    recaps,
    yoke_sharing,
)
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import (
    AddCable,
    AddDevice,
    AddFitting,
    AddJumper,
    Recount,
    Reference,
    Restate,
    Thing,
    Widen,
)
from boxaloud.rules.contents import Cable, SupportFitting, Yoke


def mention(turn: Turn, thing: Thing) -> None:
    """Enter a thing, unless the words are of one that the box holds already."""
    if isinstance(thing, AddCable) and thing.awg is None:
        counts.unsized_cables(turn, thing)
        return
    again = recaps.summed_up(turn, thing) or conductor_sums.sums_up(turn, thing)
    if again or _all_of_them(turn, thing) or _revised(turn, thing) or _of_cables(turn, thing):
        return
    if known_cables.told_of(turn, thing):
        turn.understood.append(thing.words)
        return
    if isinstance(thing, AddDevice) and thing.count is None and thing.awg is not None:
        known = references.find(turn.state, references.to_thing(replace(thing, awg=None)))
        if known is not None and _lands(turn, thing, known):
            return
    if isinstance(thing, AddDevice) and (
        device_named.said_by_itself(turn, thing)
        or device_named.for_the_way(turn, thing)
        or device_named.pigtailed(turn, thing)
    ):
        return
    if isinstance(thing, AddDevice) and (known := _landed_now(turn, thing)) is not None:
        device_landing.land_item(turn, known, thing.awg or 0, thing.count, thing.words)
        return
    if device_landing.is_open(turn, thing) or _devices_anew(turn, thing):
        return
    if _known(turn, thing) or _told_of(turn, thing) or known_cables.told_of(turn, thing):
        turn.understood.append(thing.words)  # "the switch is on the second one": no further one
        return
    if isinstance(thing, AddJumper) and bonding_jumpers.mention(turn, thing):
        return
    echoes = len(turn.echoes)
    called = any(doubt.reason == "named" for doubt in thing.doubts) and not turn.began.items
    thing = named_devices.counted_by_gangs(turn, thing) if called else thing
    added_items.enter(turn, thing)
    last = turn.state.last
    if called and isinstance(last, int):
        turn.state = altered(turn.state, named_by=last)
        named_devices.left_open(turn, thing, echoes)


_ON = re.compile(r"(?i)^[^,.;]*(?:['’]s| is| goes| sits| lands) (?:still )?on\b")


def _lands(turn: Turn, thing: AddDevice, known: Item) -> bool:
    """ "The switch is on the 14": the size of the device that is there, or, where it was said
    ("Receptacle's on the twelve", fed by a 12-2), no news; False where another comes in."""
    if getattr(known.content, "awg", 0) is None:
        device_landing.land_item(turn, known, thing.awg or 0, None, thing.words)
        return True
    content = known.content
    lone = isinstance(content, Yoke) and content.count == 1 and content.awg == thing.awg
    if turn.supposed or not lone or _ON.match(thing.words) is None:
        return False
    turn.understood.append(thing.words)
    return True


def _of_cables(turn: Turn, thing: Thing) -> bool:
    return isinstance(thing, AddCable) and (_counted_anew(turn, thing) or _the_cable(turn, thing))


_REVISED = re.compile(
    r"(?i)\W*(?:(?:um|uh|er|ok|okay|so|and|well|hello|hi|please)\b\W*)*"
    r"(?:addend(?:um|a)|revision|revised?|rev|bulletin|change order|clarification)\b"
)
_QUANTITY = re.compile(r"(?i)\b(?:qty|quantity)\b")
_ADDED = re.compile(r"(?i)\b(?:add\w*|plus|another|more|extra|new|furnish|provide|install)\b")


def _revised(turn: Turn, thing: Thing) -> bool:
    """ "Addendum: duplex qty 2", where one was listed: so many in place of those."""
    if thing.count is None or not (_REVISED.match(turn.heard) and _QUANTITY.search(thing.words)):
        return False
    if _ADDED.search(_REVISED.sub("", turn.heard, count=1)):
        return False
    known = references.find_all(turn.began, references.to_thing(replace(thing, count=None)))
    if len(known) != 1 or turn.state.item(known[0].key) is None:
        return False
    item_changes.recount(turn, known[0], thing.count, thing.words)
    return True


_THE_CABLE = re.compile(r"(?i)(?:the|that|this|my) (?:cable|wire|nm)(?: is|'s| was)\b")


def _the_cable(turn: Turn, thing: AddCable) -> bool:
    """ "The cable is 8-3 actually", where there is one cable: that one, and no further."""
    cables = [one for one in turn.began.items if isinstance(one.content, Cable)]
    if thing.count is not None or not _THE_CABLE.match(thing.words) or len(cables) != 1:
        return False
    if cables[0].content.count != 1 or turn.state.item(cables[0].key) is None or turn.supposed:
        return False
    content = added_items.content_of(replace(thing, count=1), turn.state)[0]
    item_changes.put_in_place(turn, cables[0], content, thing)
    return True


def _all_of_them(turn: Turn, thing: Thing) -> bool:
    """ "Six twelves, I forgot the other pair", of four that are there: six in all."""
    if not any(doubt.reason == "anew" for doubt in thing.doubts):
        return False
    like = replace(references.to_thing(thing), count=None)
    known = references.find(turn.state, like)
    began = {item.key for item in turn.began.items}
    if known is None or known.key not in began or (thing.count or 0) <= known.content.count:
        return False
    item_changes.recount(turn, known, thing.count or 0, thing.words)
    return True


def _counted_anew(turn: Turn, thing: AddCable) -> bool:
    """ "There's three 14-2s", of two that are there: in all, or so many more? It is asked."""
    if turn.supposed or not any(doubt.reason == "some" for doubt in thing.doubts):
        return False
    like = replace(references.to_thing(thing), count=None)
    known = references.find(turn.state, replace(like, words=""))
    if known is None or known.key not in {item.key for item in turn.began.items}:
        return False
    if _AS_WELL.match(turn.heard, thing.span[1]):
        return False
    from boxaloud.assistant.dialogue.belief import held_acts

    clear = replace(thing, doubts=tuple(d for d in thing.doubts if d.reason != "some"))
    in_all = Restate(
        thing=clear, instead_of=like, words=thing.words, span=thing.span, function="correction"
    )
    held_acts.wait(turn, in_all, "count", "some")
    return True


_AS_WELL = re.compile(r"(?i)[^,.;:?!]{0,30}\b(?:as well|too|also|besides|on top|in addition)\b")
_FURTHER = re.compile(
    r"\b(?:another|more|second|third|extra|additional|other|add|adding|put|install)\b"
)
_STILL = re.compile(r"\bstill\W*$")
_IN_ALL = re.compile(r"\b(?:just|only)\W*$")
_BEHIND_IT = re.compile(r"(?i)\b(?:behind|under|in back of|beside|next to)\W*$")
_POINTED_AT = re.compile(r"(?:both|the|those|these|all|that|this|my)\b")
_ON_TOP = re.compile(r"\b(?:and|plus|add|also|with|w|then|put(?: in)?|got|another)\W*$")


def _devices_anew(turn: Turn, thing: Thing) -> bool:
    """ "There are three devices", "both devices", where some are in the box: how many they are in
    all. Without a word that says so it is asked; "and two devices" come on top."""
    if not isinstance(thing, AddDevice) or thing.name not in (None, "device"):
        return False
    low = thing.words.lower()
    began = any(isinstance(item.content, Yoke) for item in turn.began.items)
    if thing.count is None or thing.awg is not None or not began or turn.supposed:
        return False
    before = turn.heard[: thing.span[0]].lower()
    if low.startswith(("a ", "an ")) or _FURTHER.search(low) or _ON_TOP.search(before):
        return False
    there = sum(i.content.count for i in turn.state.items if isinstance(i.content, Yoke))
    if there == thing.count and (_STILL.search(before) or there > 1):
        turn.understood.append(thing.words)
        return True
    if _POINTED_AT.match(low) or _IN_ALL.search(before):
        return yoke_sharing.count_all(turn, thing.count, thing.words)
    from boxaloud.assistant.dialogue.belief import held_acts

    target = Reference("device", words=thing.words)
    in_all = Recount(target=target, count=thing.count, words=thing.words, span=thing.span)
    held_acts.wait(turn, in_all, "count", "some")
    return True


_STANDS = re.compile(r"\b(?:is|are|goes|go|lands?|sits?|'s)\b")


def _landed_now(turn: Turn, thing: AddDevice) -> Item | None:
    """ "One switch is on the fourteen", of switches whose size nobody said before this breath."""
    if thing.awg is None or thing.count is None:
        return None
    if thing.name not in (None, "device") and not _STANDS.search(thing.words.lower()):
        return None
    known = references.find_all(turn.state, references.to_thing(replace(thing, awg=None)))
    before = {item.key for item in turn.began.items}
    open_ = [item for item in known if getattr(item.content, "awg", 0) is None]
    enough = [item for item in open_ if item.content.count >= thing.count and item.key in before]
    return enough[0] if len(enough) == 1 else None


_SUBJECT_OF = re.compile(
    r"\s*(?:'s|'re|is|are|was|has|looks|runs|feels|sits|takes|faces|came|comes)\b", re.IGNORECASE
)
_GOES = re.compile(
    r"\s*(?:(?:cables?|wires?|both|all|just|only|really|actually|one|ones)\s+)*(?:is|are|was|were|go"
    r"|goes|lands?|runs?|comes?|came|feeds?|heads?|ties?|leaves?|serves?|powers?|ends?|stays?|hits?"
    r"|hooks?|carry|carries)\b",
    re.IGNORECASE,
)
#: "The three-way was hanging out, goes back in".
_GOES_IN = re.compile(
    r"(?i)\b(?:go|come)(?:es|s)? (?:back )?in\b(?! (?:the|that|this|a|an|there)\b)"
)
_BOTH = re.compile(r"(?:both|all (?:two|three|four|five|of)|the|those|these|that|this)\b")
_OTHERS = re.compile(r"\b(?:other|others|another|more|second|third|new|next|last|extra)\b")


def _told_of(turn: Turn, thing: Thing) -> bool:
    """ "Dimmer's a fat one", "both 14-3s go to the hall", "the 12-2 lands on it": something is
    told of what is there, and no further one comes in."""
    low = thing.words.lower().removesuffix("'s").strip()
    if _OTHERS.search(low) or turn.supposed:
        return False
    like = replace(references.to_thing(thing), words="")
    found = [item for item in turn.state.items if references.agrees(item, like)]
    if len(found) != 1:
        return False
    if isinstance(thing, AddDevice) and thing.count is None:
        named = thing.name not in (None, "device") and found[0].content.count == 1
        behind = turn.heard[thing.span[0] + len(low) :]
        told = named and _SUBJECT_OF.match(behind) is not None and not _GOES_IN.search(behind)
        if told and thing.gangs is not None:  # "the receptacle is the wide one, two gangs"
            wide = Widen(target=replace(like, item=found[0].key), gangs=thing.gangs)
            turn.ahead[:0] = [replace(wide, words=thing.words, span=thing.span)]
        return told
    if not isinstance(thing, AddCable) or thing.awg is None or not _BOTH.match(low):
        return False
    behind = turn.heard[thing.span[1] :]
    return thing.count in (None, found[0].content.count) and _GOES.match(behind) is not None


def _known(turn: Turn, thing: Thing) -> bool:
    """Whether "the switch" is the one device of its name that was in the box before, "both
    switches" the two of it; "the device" is any."""
    if isinstance(thing, AddFitting):
        # "a hickey on the stud", "the stud is in the middle"
        there = [i.content for i in turn.began.items if isinstance(i.content, SupportFitting)]
        pointed = thing.count is None and thing.words.lower().startswith(("the ", "that "))
        return pointed and any(one.kind == thing.name for one in there)
    if not isinstance(thing, AddDevice):
        return False
    both = thing.count == 2 and thing.words.lower().startswith("both ")
    if not both and (
        thing.count is not None or not thing.words.lower().startswith(("the ", "that "))
    ):
        return False
    began = [i.content for i in turn.began.items if isinstance(i.content, Yoke)]
    if not both:
        began += _put_right(turn, thing)
    if thing.name == "device":
        return bool(began)
    alike = [one for one in began if thing.name is not None and one.name == thing.name]
    if not alike and not both and _BEHIND_IT.search(turn.heard[: thing.span[0]]):
        # "one more 14-2 behind the switch", of a three-way: where it lies
        wider = [one for one in began if references.same_name(one.name or "", thing.name or "")]
        return len(wider) == 1
    return len(alike) == 1 and alike[0].count == (thing.count or 1)


def _put_right(turn: Turn, thing: AddDevice) -> list[Yoke]:
    """ "It's a dimmer. Two 14-3s and the dimmer": the one of that name that is said in the same
    breath to be what the box has."""
    told = [one.thing for one in turn.done if isinstance(one, Restate)]
    if not any(isinstance(one, AddDevice) and one.name == thing.name for one in told):
        return []
    old = {item.key for item in turn.began.items if item in turn.state.items}
    there = [item.content for item in turn.state.items if item.key not in old]
    return [one for one in there if isinstance(one, Yoke) and one.name == thing.name]
