"""The size that was said once for all wires: "all number twelve", and then "six wires"."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.belief import held_acts
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.rules.contents import Cable, Conductors, TerminalBlock, Yoke

#: "Only number tens", "all #14": conductors, of which it is open how many there are.
_ALL_OF = re.compile(r"(?i)\b(?:only|just|all|nothing but|everything)\b[^.;]*$")
_AND_NO_OTHER = re.compile(r"(?i),? only\b")


def of_all(turn: Turn, act: acts.AddConductors) -> acts.AddConductors:
    """Wires without a size, with the one that was said for all of them, whose number is then
    open no longer; as they are where none was said."""
    for waiting in turn.state.pending:
        held = waiting.act
        if not isinstance(held, acts.AddConductors) or held.count is not None or not held.awg:
            continue
        if waiting.reason == "vague":
            held_acts.drop(turn, waiting)
            doubts = tuple(doubt for doubt in act.doubts if doubt.slot != "awg")
            return replace(act, awg=held.awg, doubts=doubts)
    return act


def open_count(turn: Turn, act: acts.Size, awg: int) -> Act | None:
    """The conductors of an empty box that are said to be of one size, and not how many."""
    state = turn.state
    before, behind = turn.heard[: act.span[1]], turn.heard[act.span[1] :]
    said = _ALL_OF.search(before) or _AND_NO_OTHER.match(behind)
    if state.items or state.pending or turn.supposed or not said:
        return None
    doubt = acts.Doubt("count", "vague")
    made = acts.AddConductors(awg=awg, words=act.words, span=act.span)
    return replace(made, doubts=(*act.doubts, doubt))


_EVERYTHING = re.compile(r"(?i)\b(?:all|everything|every one|each one|the lot|the whole)\b")
_AROUND = 14
"""Characters before a size, and behind its beginning, in which it is said that it is of all."""


def of_all_there(turn: Turn, act: acts.Size, awg: int) -> Act | None:
    """ "Everything is 12", of what is there: it agrees with that, or else is not understood, and
    is no volume. None where it is not said of all, or nothing is there."""
    wired = [item.content for item in turn.state.items if isinstance(item.content, _WIRED)]
    begins = max(0, act.span[0] - _AROUND)
    said = _EVERYTHING.search(turn.heard[begins : act.span[0] + _AROUND])
    if not wired or said is None:
        return None
    if any(one.awg != awg for one in wired):
        return act
    return acts.OtherTalk(words=act.words, span=act.span)


_WIRED = (Cable, Conductors)
_THE = re.compile(r"(?i)\bthe (?:number |no\.? ?|#)?$")
_NEAR = 3
"""A number so far from how many there are, or less, may be a count of them."""


def landed_anew(turn: Turn, act: acts.RestateNumber | acts.Size) -> acts.Land | None:
    """ "It's on the 14", and then "no, I meant the 12": the device that landed is on the other
    size; None where the number is none of the box's wires, or may be of something else."""
    awg = int(act.value) if isinstance(act, acts.RestateNumber) else act.awg
    if awg is None or not _is_of_wires(turn, act, awg):
        return None
    state, low = turn.state, act.words.lower()
    pointed = low.startswith("the ") or _THE.search(turn.heard[: act.span[0]]) is not None
    landed = [
        item
        for item in state.items
        if isinstance(item.content, Yoke | TerminalBlock) and item.content.awg not in (None, awg)
    ]
    last = state.item(state.last)
    if last in landed and (pointed or _alone(turn, last, awg)):
        meant = last
    elif pointed and len(landed) == 1:
        meant = landed[0]
    else:
        return None
    target = acts.Reference("device", item=meant.key, words=act.words)
    return acts.Land(
        target=target, awg=awg, words=act.words, span=act.span, doubts=act.doubts,
        function="correction",
    )  # fmt: skip


def _is_of_wires(turn: Turn, act: acts.RestateNumber | acts.Size, awg: int) -> bool:
    """Whether a number is a size of wires that are in the box, and is said in place of no count."""
    if isinstance(act, acts.RestateNumber) and (act.value != awg or act.instead_of is not None):
        return False
    if isinstance(act, acts.Size) and act.function != "correction":
        return False
    wires = (i.content for i in turn.state.items if isinstance(i.content, Cable | Conductors))
    return any(one.awg == awg for one in wires)


def _alone(turn: Turn, item: Item, awg: int) -> bool:
    """Whether a bare number is the size of a device, and neither a volume nor a count."""
    return turn.asked != "box" and abs(item.content.count - awg) > _NEAR
