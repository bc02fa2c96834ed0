""" "How much is the dimmer taking up": the lines of the worksheet that a thing in the box has."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.nlg.sentences import joined, say, sentence, volume
from boxaloud.assistant.dialogue.policy.reason_questions import ITEMS
from boxaloud.assistant.dialogue.state import State, sizes_present
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Reference
from boxaloud.rules import work_out
from boxaloud.rules.contents import Box, Content, Yoke
from boxaloud.rules.worksheet import Line

_BY_ITSELF = ("device", "cable", "conductors")
"""Kinds of which each takes its own: of a line that several share, only what is asked about."""


_KINDS: dict[str, str] = {"size": "conductors"}


def told(act: acts.AskMeaning, state: State) -> str:
    """The lines with volume and section, 314.16(B); empty where it is open how much they take."""
    found = assess(state)
    if found.spaces or not state.items:
        return ""
    kind = (
        references.kind_of(act.thing) if act.thing is not None else _KINDS.get(act.term, act.term)
    )
    if kind in _BY_ITSELF:
        lines = _own_lines(act, kind, state)
    else:
        lines = [line for line in found.sheet.lines if line.item in ITEMS.get(kind, ())]
    if lines is None or (kind == "clamps" and state.clamps in ("unknown", "moulded")):
        return ""
    if not lines:
        return _nothing(act, kind)
    said = (
        say("answer.line", what=line.what, volume=volume(line.subtotal, found.sheet.unit),
            section=line.section)
        for line in lines
    )  # fmt: skip
    return sentence(joined(said, by="; "))


def _nothing(act: acts.AskMeaning, kind: str) -> str:
    """That no line stands for it, and why."""
    if kind == "clamps":
        return say("why.no_clamps")
    named = act.thing.words if act.thing is not None else ""
    return say("not_in_box", words=named.removeprefix("the ")) if named else ""


def _own_lines(act: acts.AskMeaning, kind: str, state: State) -> list[Line] | None:
    """What the things that are meant take by themselves; None where a size is open."""
    like = references.to_thing(act.thing) if act.thing is not None else Reference()
    types = references.TYPES["wire" if kind == "conductors" else kind]
    meant = [
        item.content
        for item in state.items
        if (
            references.agrees(item, like)
            if act.thing is not None
            else isinstance(item.content, types)
        )
    ]
    contents = [_landed(content, state) for content in meant]
    if None in contents:
        return None
    box = Box(contents=tuple(filter(None, contents)), clamps="none", edition=state.edition)
    items = ITEMS["conductors" if kind == "cable" else kind]
    return [line for line in work_out(box).lines if line.item in items] if meant else []


def _landed(content: Content, state: State) -> Content | None:
    """A device with the size that it lands on; None where that is open."""
    if not isinstance(content, Yoke) or content.awg is not None:
        return content
    sizes = sizes_present(state)
    return replace(content, awg=sizes[0]) if len(sizes) == 1 else None
