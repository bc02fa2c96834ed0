"""What stands on a box or in it: rings, covers, barriers, clamp assemblies, 314.16(A)."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from typing import Literal

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.interpretation import act_volumes
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.state_parts import PartialBox
from boxaloud.assistant.dialogue.tracker import marked_box, table_box
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import Act, AddBarrier, AddClampAssembly, AddPart
from boxaloud.rules import RulesError, table_row, validate_part
from boxaloud.rules.contents import Barrier, ClampAssembly, Marked, Part, TableBox, Unmarked


def part(turn: Turn, act: AddPart) -> None:
    """A ring or cover: it adds its volume when it is marked or made from a table box."""
    bare = _BARE_RING.match(act.words) is not None
    if bare and act.name == "plaster ring" and _extended(turn):
        act = replace(act, name="extension ring")
    label = act.name or "ring"
    if bare or act.words.lower().startswith(("the ", "that ")):  # the one there, said anew
        if _only_named(turn, act, label):
            turn.understood.append(act.words)
            return
        kept = tuple(one for one in turn.state.extras if getattr(one, "label", "") != label)
        turn.state = altered(turn.state, extras=kept)
    if act.volume is not None:
        thing: Part = Marked(act_volumes.volume_of(act), label, act_volumes.metric_of(act))
    elif _made_like_a_box(act, label) and act.marked is not False:
        family, width = _outline_of(turn, act)
        partial = PartialBox(family, width, depth=act.depth, label=label)
        table_box.settle(turn, partial, act)
        return
    else:
        thing = Unmarked(label)
    _try_extra(turn, thing, act)


def _only_named(turn: Turn, act: AddPart, label: str) -> bool:
    """ "A duplex in the ring": the one that is there, of which nothing is said."""
    led = _BESIDE.search(turn.heard[: act.span[0]]) is not None
    if not led or _OF_ITS_MARK.search(turn.heard):
        return False
    told = act.volume, act.family, act.width, act.depth, act.marked
    there = [one for one in turn.state.extras if getattr(one, "label", "") == label]
    return any(isinstance(one, Marked) for one in there) and told == (None,) * len(told)


_BESIDE = re.compile(r"(?i)\b(?:in|on|onto|into|inside|behind|off)\s*$")
_OF_ITS_MARK = re.compile(
    r"(?i)\b(?:not|no|nothing|never|without)\b|n['’]t\b|mark|stamp|\bsays?\b|print|read"
)
_BARE_RING = re.compile(r"(?i)(?:the |that |this |my )?ring\b(?! on\b)")


def _extended(turn: Turn) -> bool:
    """Whether an extension ring stands on the box, which "the ring" then means."""
    open_ = turn.state.partial_ring
    labels = {getattr(one, "label", "") for one in turn.state.extras}
    if open_ is not None:
        labels.add(open_.label)
    return "extension ring" in labels and "plaster ring" not in labels


def _made_like_a_box(act: AddPart, label: str) -> bool:
    """Whether a part was named by the size of a standard box, or is an extension ring."""
    named = act.depth is not None or "ring" in act.words.lower()
    return bool(act.family) or (label == "extension ring" and named)


def _outline_of(turn: Turn, act: AddPart) -> tuple[str, Decimal | None]:
    """The family and width in inches said of an extension ring, else those of the box that it
    stands on: a ring has the outline of its box (common practice)."""
    box = turn.state.box[0] if turn.state.box else None
    if not isinstance(box, TableBox):
        return act.family or "square", act.width
    row = table_row(box.row)
    if act.family not in (None, row.family):
        return act.family or "", act.width
    return row.family, row.width if act.width is None else act.width


_UNSAID = "barrier not described"
_DIVIDED = re.compile(r"\b(?:divided|partitioned)\b")


def barrier(turn: Turn, act: AddBarrier) -> None:
    """A barrier that divides the box takes its volume away, 314.16(A).

    "A divided box" names one that may be described later: it is the same.
    """
    unsaid = _UNSAID in turn.state.tags
    if _DIVIDED.search(act.words.lower()):
        if any(isinstance(part, Barrier) for part in turn.state.extras):
            turn.understood.append(act.words)
            return
        turn.state = altered(turn.state, tags=turn.state.tags | {_UNSAID})
    elif unsaid:
        kept = tuple(part for part in turn.state.extras if not isinstance(part, Barrier))
        turn.state = altered(turn.state, extras=kept, tags=turn.state.tags - {_UNSAID})
    plastic = marked_box.MATERIALS.get(str(act.material))
    if plastic is None:  # unsaid: the one of a metal box is taken for metal, else the larger
        plastic = not any(isinstance(part, TableBox) for part in turn.state.box)
    material: Literal["metal", "nonmetallic"] = "nonmetallic" if plastic else "metal"
    volume = act_volumes.volume_of(act) if act.volume is not None else None
    _try_extra(turn, Barrier(material, volume), act)


def assembly(turn: Turn, act: AddClampAssembly) -> None:
    """A clamp assembly with a cable termination: its volume comes off, 314.16(B)(2)."""
    if act.volume is None:
        turn.refused.append(say("assembly_needs_volume", words=act.words))
        turn.unplaced.append(act.words)
        return
    count = act.count or 1
    _try_extra(turn, ClampAssembly(act_volumes.volume_of(act), count), act)
    if turn.state.clamps == "unknown":
        turn.state = altered(turn.state, clamps="none")


def _try_extra(turn: Turn, thing: Part, act: Act) -> None:
    try:
        validate_part(thing)
    except RulesError as refusal:
        turn.refuse(act.words, str(refusal))
        return
    marked_box.add_extra(turn, thing)
