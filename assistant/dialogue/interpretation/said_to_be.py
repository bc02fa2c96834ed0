""" "One switch is a fan control, that's still one device": what a device of the box is said to be,
which is no further one."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern

_IS = lazy_pattern(
    r"(?i)(?:\s+of (?:them|those))?(?:['’]s|['’]re|\s+(?:is|are|was|were))"
    r"(?:\s+(?:really|actually|just|only|in fact|going to be|gonna be))*(?:\s+(?:a|an|the))?\s+"
)
_STILL = lazy_pattern(r"(?i)\bstill(?:\s+(?:just|only|counts? as|makes?))*\s+$")
_FURTHER = lazy_pattern(r"(?i)\b(?:more|another|other|extra|new|additional|further)\b")


def said_to_be(read: Utterance, state: State) -> Utterance:
    """The utterance with the one device in the other's place; `read` where no such is there."""
    if state.pending:
        return read
    kept: list[Act] = []
    for act in read.acts:
        last = kept[-1] if kept else None
        if not isinstance(act, acts.AddDevice):
            kept.append(act)
        elif isinstance(last, acts.AddDevice) and _is_that(last, act, read.heard, state):
            words = read.heard[last.span[0] : act.span[1]]
            target = replace(references.to_thing(last), count=last.count)
            kept[-1] = acts.Replace(
                target=target, thing=replace(act, count=last.count), words=words,
                span=(last.span[0], act.span[1]), doubts=act.doubts, function="correction",
            )  # fmt: skip
        elif not (isinstance(last, acts.Replace) and _still(last, act, read.heard)):
            kept.append(act)
    return read if len(kept) == len(read.acts) else replace(read, acts=tuple(kept))


def _is_that(was: acts.AddDevice, new: acts.AddDevice, heard: str, state: State) -> bool:
    """Whether so many of the devices of the box are said to be as many others."""
    if was.count is None or new.count not in (None, was.count) or "device" in (was.name, new.name):
        return False
    if _FURTHER.search(was.words) or _FURTHER.search(new.words):
        return False
    target = references.to_thing(was)
    there = sum(one.content.count for one in state.items if references.agrees(one, target))
    between = heard[was.span[1] : new.span[0]] + " "
    return was.count <= there and _IS.fullmatch(between.replace("  ", " ")) is not None


def _still(changed: acts.Replace, act: acts.AddDevice, heard: str) -> bool:
    """ "That's still one device": as many as were changed."""
    many = changed.target.count or 1
    same = act.name == "device" and (act.count or 1) == many
    return same and _STILL.search(heard, 0, act.span[0]) is not None
