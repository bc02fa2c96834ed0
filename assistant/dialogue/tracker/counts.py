""" "There are three of them", "one more": how many of what is there."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import counted, listed, say
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import (
    added_items,
    agreeing_numbers,
    counted_parts,
    item_changes,
    more_of_those,
    yoke_sharing,
)
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Reference, Thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import (
    Cable,
    Grounds,
    Uncounted,
    Yoke,
)

_ABOUT = 3
"""Counts that differ by more are not of the same things."""


def recount_act(turn: Turn, act: acts.Recount) -> None:
    """ "The 14-2s are three", "there are three cables"."""
    if act.of is not None or (act.target.kind == "anything" and act.target.which == "all"):
        (_in_all if act.of is None else _of_so_many)(turn, act)
        return
    picked = act.target.item is not None
    ordered = act.words.lower().startswith(("make", "change", "set", "bump"))
    few = (act.count or 0) <= 2
    clamps_last = _clamps_last(turn) and act.target.kind == "anything"
    if clamps_last and few and not picked and not ordered:
        turn.understood.append(act.words)  # "one clamp. Well, two of them": they count as one
        return
    if act.stays is not None:
        yoke_sharing.keep_only(turn, act.stays, act.count or 1, act.words)
        return
    count = act.count or 0
    general = act.target.kind == "device" and act.target.name in (None, "device")
    if general and not picked and yoke_sharing.count_all(turn, count, act.words):
        return
    _count_those(turn, act, count)


#: Nothing but some of what is there: of those, or so many of those further?
_SOME = lazy_pattern(
    r"(?i)\W*(?:(?:um|uh|er|oh|ok|okay|hello|hi|hey|so|and|please)\b\W*)*"
    r"[a-z0-9]+\s+of\s+(?:them|those|these)\W*(?:please\W*)?"
)


def _count_those(turn: Turn, act: acts.Recount, count: int) -> None:
    """So many of what the words point at, or the question what they count."""
    found = references.find_all(turn.state, act.target)
    if _SOME.fullmatch(turn.heard) and count < sum(item.content.count for item in found):
        turn.unplaced.append(act.words)
        return
    if (several := counted_parts.of_several(turn, act, found)) is not None:
        item_changes.recount(turn, several, count, act.words)
        return
    if not found:
        if act.target.kind == "cable" and act.target.awg is None:
            _cables_to_come(turn, act)
        elif act.target.awg is not None or act.target.name is not None:
            _first_mention(turn, act)
        elif (item := _near_in_number(turn, act)) is not None:
            item_changes.recount(turn, item, count, act.words)
        else:
            item_changes.not_found(turn, act.target, act.words)
        return
    if len(found) > 1 and act.target.kind in ("cable", "wire", "conductors"):
        total = sum(item.content.count for item in found)
        if total == count:
            turn.answer(say("echo.agrees", count=counted(count)), act.words)
            return
        last = turn.state.item(turn.state.last)
        if last not in found or act.target.awg is None:
            turn.unplaced.append(act.words)
            return
    item = references.find(turn.state, act.target)
    if item is None:
        item_changes.not_found(turn, act.target, act.words)
        return
    if act.target.item is None and abs(item.content.count - count) > _ABOUT:
        item = _near_in_number(turn, act) or item
    item_changes.recount(turn, item, count, act.words)


def _near_in_number(turn: Turn, act: acts.Recount) -> Item | None:
    """ "Hang on, five of them", where the clamps or the box came last: the cables or wires of the
    only kind, where there are about so many; else it is asked."""
    item = item_changes.countable(turn.state)
    pointed = act.target.kind == "anything" and act.target.which == "said"
    if item is None or not pointed or abs(item.content.count - (act.count or 0)) > _ABOUT:
        return None
    return item


def _of_so_many(turn: Turn, act: acts.Recount) -> None:
    """ "One of those I cut loose, so two": what there are three of, or it is left unread."""
    alike = [
        item
        for item in turn.state.items
        if item.content.count == act.of
        and references.agrees(item, act.target)
        and not isinstance(item.content, Grounds | Uncounted)
    ]
    if len(alike) > 1:
        alike = [item for item in alike if item.key == turn.state.last]
    if (put_right := agreeing_numbers.one_in_place(turn, act)) is not None:
        alike = [put_right]  # "two more", "no, one more, so three": of the four that there are
    if len(alike) == 1 and act.count is not None:
        item_changes.recount(turn, alike[0], act.count, act.words)
    else:
        turn.unplaced.append(act.words)


def _clamps_last(turn: Turn) -> bool:
    """Whether so many can be clamps: not where it was said before that there are none."""
    named = any(isinstance(act, acts.SetClamps) for act in turn.done)
    return turn.state.last == "clamps" and (named or turn.state.clamps != "none")


def _in_all(turn: Turn, act: acts.Recount) -> None:
    """ "So three total": held against what is there of the kind that was said last; asked where
    it is another number."""
    last = turn.state.item(turn.state.last)
    kind = type(last.content) if last is not None else Cable
    if act.target.awg is not None and act.target.conductors is not None:
        kind = Cable  # what was just taken from
    alike = [
        item
        for item in turn.state.items
        if isinstance(item.content, kind)
        and references.agrees(item, replace(act.target, kind="anything"))
    ]
    count = act.count or 0
    if not alike and counted_parts.left_first(act, turn.state):
        _first_mention(turn, replace(act, target=replace(act.target, kind="cable", which="said")))
    elif sum(item.content.count for item in alike) == count or _as_changed(turn, count):
        turn.answer(say("echo.agrees", count=counted(count)), act.words)
    elif len(alike) == 1 and (act is turn.settled or turn.supposed or _plainly(turn, count)):
        item_changes.recount(turn, alike[0], count, act.words)
    elif len(alike) == 1:
        from boxaloud.assistant.dialogue.belief import held_acts

        held_acts.wait(turn, act, "count", "some")
    elif alike:
        there = listed([item_names.heard(item.content) for item in alike])
        item_changes.pointed_past(turn, say("these_are_there", what=there))
    else:
        turn.unplaced.append(act.words)


def _as_changed(turn: Turn, count: int) -> bool:
    """ "Two more 14-2s, that makes five", beside two 14-3s: so many of what just came in."""
    now = agreeing_numbers.changed(turn)
    return len(now) == 1 and now[0].content.count == count


def _plainly(turn: Turn, count: int) -> bool:
    """Whether a sum can be of one kind alone, and nothing was taken out beside it."""
    taken = any(isinstance(act, (acts.Remove, acts.Deny)) for act in turn.done)
    return count != _things(turn) and not taken


def _things(turn: Turn) -> int:
    """How many cables and devices there are: "three in all" may be of both."""
    return sum(
        item.content.count for item in turn.state.items if isinstance(item.content, Cable | Yoke)
    )


_FURTHER = frozenset({"more", "another", "extra", "additional", "same", "further", "others"})
_KNOWN = frozenset({"the", "those", "these", "my", "this", "that"})


def unsized_cables(turn: Turn, cable: acts.AddCable) -> None:
    """ "There are three cables" where cables are in the box: how many of them there are."""
    target = Reference("cable", words=cable.words)
    low = cable.words.lower()
    words = frozenset(low.split())
    if cable.count is None and not words & {"a", "an", "another", "more", "same"}:
        turn.understood.append(cable.words)  # "the old cable": nothing more
        return
    if (
        words & _FURTHER
        or ("other" in words and not words & _KNOWN)
        or low.startswith(("another ", "one more ", "a second", "a third"))
        or cable.count is None
        or (cable.count == 1 and low.startswith(("a ", "an ")))
    ):
        more_of_those.more(
            turn, acts.More(target=target, count=cable.count or 1, words=cable.words)
        )
        return
    if any(doubt.reason == "some" for doubt in cable.doubts):
        there = references.find_all(turn.state, replace(target, words=""))
        if sum(item.content.count for item in there) >= cable.count:
            turn.understood.append(cable.words)  # "one cable goes to the porch": one of those
            return
    recount_act(turn, acts.Recount(target=target, count=cable.count, words=cable.words))


def _cables_to_come(turn: Turn, act: acts.Recount) -> None:
    """ "Two cables": their size is asked."""
    from boxaloud.assistant.dialogue.belief import held_acts

    cable = acts.AddCable(count=act.count, words=act.words, span=act.span)
    held_acts.wait(turn, cable, "awg", "unsized")


def _first_mention(turn: Turn, act: acts.Recount) -> None:
    """ "The 14-2s are three" where none was named before: three of them come in."""
    target = act.target
    thing: Thing
    if target.kind == "cable":
        thing = acts.AddCable(
            count=act.count, awg=target.awg, conductors=target.conductors, words=act.words
        )
    elif target.kind == "device":
        thing = acts.AddDevice(count=act.count, name=target.name, awg=target.awg, words=act.words)
    elif target.kind == "conductors" and target.awg is not None:
        thing = acts.AddConductors(count=act.count, awg=target.awg, words=act.words)
    else:
        item_changes.not_found(turn, target, act.words)
        return
    added_items.enter(turn, thing)
