"""A box known by its inside dimensions, 314.16(A)(2): of metal, and over 100 cubic inches."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.state_parts import PartialBox
from boxaloud.assistant.dialogue.tracker import marked_box
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import Act, SetSize
from boxaloud.rules import RulesError, inches_of, validate_part
from boxaloud.rules.contents import Measured

_A_BOX = re.compile(r"box|enclosure|cabinet|inch|\"|\bmm\b|\bcm\b|inside")
_ANOTHER = re.compile(
    r"(?<!box)(?<!enclosure)(?<!\bit)(?<!\bthis)(?<!\bthat) (?:is|are|was|measures) [^,;.]*$"
)
_LONG = re.compile(r"[ -]*(?:feet|foot|ft|'|yards?|met(?:er|re)s?|m)\b|'")


def _of_something_else(turn: Turn, act: Act) -> bool:
    """ "The room is 10 by 12 by 8", "12 by 10 by 8 feet": dimensions of no box.

    Words of the act itself that name a box, or its inches, settle that they are of one.
    """
    if _A_BOX.search(act.words.lower()):
        return False
    start, end = act.span
    before, behind = turn.heard[:start].lower(), turn.heard[end:].lower()
    return bool(_ANOTHER.search(before) or _LONG.match(behind))


def in_inches(act: SetSize) -> SetSize:
    """The same size with its lengths in inches."""
    unit = act.unit
    depth = inches_of(act.depth, unit) if isinstance(act.depth, Decimal) else act.depth
    return replace(
        act,
        unit=None,
        width=None if act.width is None else inches_of(act.width, unit),
        height=None if act.height is None else inches_of(act.height, unit),
        depth=depth,
    )


def measured(turn: Turn, partial: PartialBox, act: Act) -> bool:
    """Take a box that is no row of Table 314.16(A) by its three dimensions; False where it was
    not described by three, or is round.

    One of 100 cubic inches or less, or of plastic, is refused: its volume must be marked on it.
    """
    width, depth = partial.width, partial.depth
    height = partial.height or (width if partial.family == "square" else None)
    if width is None or height is None or not isinstance(depth, Decimal):
        return False
    if partial.label != "box" or partial.gangs != 1 or partial.family not in ("square", "device"):
        return False
    if _of_something_else(turn, act):
        turn.refuse(act.words, say("of_which_box"))
        return True
    box = Measured(width, height, depth)
    try:
        validate_part(box)
    except RulesError as refusal:
        turn.refuse(act.words, str(refusal))
        return True
    if marked_box.is_nonmetallic(turn, act):
        turn.refuse(act.words, say("nonmetallic_marked"))
        return True
    marked_box.set_box(turn, box, act)
    return True
