"""What is said of how large the box is: a volume, a size, or a number that answers for one."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.interpretation import bare_measures
from boxaloud.assistant.dialogue.interpretation.full_acts import full
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.rules.contents import Marked, TableBox, Yoke

LEAST_BOX = Decimal("7.5")
"""Cubic inches that a bare number can mean of a box; fewer are a count. The smallest trade size
has 7.5, Table 314.16(A)."""
LARGEST_BOX = 100
"""Cubic inches of the largest box of 314.16(A)(2) that need be marked; a bare number above it
is asked back."""


def as_volume(turn: Turn, act: acts.Number, value: Decimal) -> Act:
    """A number that answers what the box's volume is; too small or too large for one asks."""
    if value < 3:
        return act
    if metric := bare_measures.in_millilitres(turn.state, acts.SetVolume(volume=value)):
        return full(act, metric, "volume")
    reason = any(doubt.reason == "unusual" for doubt in act.doubts)
    large = value > 60 and value == int(value) and not _of_gangs(turn, value)
    odd = large or not LEAST_BOX <= value <= LARGEST_BOX
    doubts = act.doubts if reason or not odd else (*act.doubts, acts.Doubt("volume", "unusual"))
    return full(replace(act, doubts=doubts), acts.SetVolume(volume=value), "volume")


_GANG = 24
"""Cubic inches that a gang of a deep box has about, common practice."""


def _of_gangs(turn: Turn, value: Decimal) -> bool:
    """Whether a box has as many gangs as make a large number its volume: those that were said, or
    those of the devices that are in it."""
    devices = sum(one.content.count for one in turn.state.items if isinstance(one.content, Yoke))
    return value <= _GANG * max(turn.state.gangs or 1, devices)


_WIDE = Decimal("4.6875")
#: "A 3.9 cu in pancake": the unit is said, and it is no depth.
_CUBIC = re.compile(r"(?i)\bcu\b|\bcub|\bin3\b|in³|\bci\b")

#: "A pancake stamped three point nine": what is marked on a box that the Table has not.
_MARKED = re.compile(r"(?i)\b(?:stamp|mark|label|print)(?:ed|led)\b")
_ACROSS = re.compile(r"(?i)\b(?:diameter|across|wide|deep)\b")


def _stamped(turn: Turn, act: acts.SetVolume) -> bool:
    """Whether a number is stamped on the box, and no measure of it."""
    return _MARKED.search(act.words) is not None and _ACROSS.search(turn.heard) is None


def said_volume(turn: Turn, act: acts.SetVolume) -> Act:
    """A bare "box one" is a box of the job, not one of a cubic inch; "box 4-11/16" is a size."""
    if metric := bare_measures.in_millilitres(turn.state, act):
        return metric
    if (
        act.volume is not None
        and act.volume < 5
        and act.volume != int(act.volume)
        and act.unit is None
        and not _CUBIC.search(act.words)
        and act.family in ("octagon", "square", "handy", "device", "pancake")
        and not (act.family == "pancake" and _stamped(turn, act))
    ):
        return full(act, acts.SetSize(family=act.family, depth=act.volume), "depth")
    if (
        act.volume is not None
        and act.volume < 5
        and act.volume != int(act.volume)
        and act.unit is None
        and not _CUBIC.search(act.words)
        and turn.state.box
        and isinstance(turn.state.box[0], TableBox)
    ):
        return full(act, acts.SetSize(depth=act.volume), "depth")
    if act.volume == _WIDE and act.unit is None:
        return full(act, acts.SetSize(family="square", width=_WIDE), "width")
    if act.volume is not None and act.volume < 3 and act.unit is None and not act.doubts:
        return replace(act, doubts=(acts.Doubt("volume", "unusual"),))
    return act


def said_size(turn: Turn, act: acts.SetSize) -> Act:
    """Dimensions: the depth of the device asked about, a volume, or the size of the box."""
    if (deepened := bare_measures.deepened(turn, act)) is not None:
        return full(act, deepened, "depth")
    if _is_volume(act) and act.width is not None:
        return full(act, acts.SetVolume(volume=act.width), "volume")
    told = _alone(turn, act) or act.family == "handy"  # "handy box, fourteen and a half"
    if isinstance(act.depth, Decimal) and _too_deep(act, act.depth) and told:
        return full(act, acts.SetVolume(volume=act.depth), "volume")
    if _is_of_table(act):
        return replace(act, family="octagon")
    if act.family == "handy" and {act.width, act.height} == _DEVICE_FACE:
        return replace(act, family="device")  # "handy box, three by two by two": the Table's
    return act


_SHALLOWEST = Decimal("1.25")
_ROUND_WIDTH = 4
_DEVICE_FACE = {Decimal(3), Decimal(2)}
"""Inches of the face of a device box of Table 314.16(A)."""


def _is_of_table(act: acts.SetSize) -> bool:
    """ "A shallow round one, 4 by 1-1/4": a round box of Table 314.16(A), by its depth."""
    return (
        act.family == "pancake"
        and act.unit is None
        and act.width in (None, _ROUND_WIDTH)
        and isinstance(act.depth, Decimal)
        and act.depth >= _SHALLOWEST
    )


_DEEPEST = 6
_IN_INCHES = re.compile(r"(?i)\b(?:inch(?:es)?|deep|depth|cm|mm)\b|[\"”″]")


_BEFORE = re.compile(
    r"(?is)(?:^|.*[.,;:!?–—-])\W*(?:(?:ok|okay|so|and|well|now|no|yeah|it|it['’]?s|that|that['’]?s|this|"
    r"the|box|is|was|says?|reads?|marked|stamped|stamp|label|i|see|read|found|got|have|a|an|uh|um"
    r"|he|she|wait|then|hello|hi|please)\b\W*)*"
)
_BEHIND = re.compile(
    r"(?i)\s*(?:$|[.,;:!?–—-]|\b(?:no|none|clamps?|with|and|but|total|in all|altogether|on it"
    r"|it says|please|i (?:think|guess)|he says|box|for the (?:box|volume))\b)"
)


def _alone(turn: Turn, act: acts.SetSize) -> bool:
    """Whether nothing else is measured by it: "twelve and a half amps", "the hole saw's six and
    three eighths"."""
    start, end = act.span
    return (
        _BEFORE.fullmatch(turn.heard, 0, start) is not None
        and _BEHIND.match(turn.heard, end) is not None
    )


def _too_deep(act: acts.SetSize, depth: Decimal) -> bool:
    """ "Fifteen and a half", "octagon fifteen and a half": no outlet box is so deep, and the Table
    of 314.16(A) has none over 3 1/2 inches."""
    alone = act.width is None and act.height is None and act.row is None and act.unit is None
    deep = _DEEPEST < depth < 100
    return alone and deep and _IN_INCHES.search(act.words) is None


def _is_volume(act: acts.SetSize) -> bool:
    """ "six point zero pancake": no round box is six inches wide, Table 314.16(A)."""
    wide = act.width is not None and act.width >= 5
    return (
        wide and act.family in ("pancake", "octagon") and act.depth is None and act.height is None
    )


def is_depth(turn: Turn, value: Decimal | None) -> bool:
    """A fraction of inches where the box is one of the table: "make it the two and an eighth"."""
    if value is None:
        return False
    eighths = value * 8
    begun = turn.state.partial is not None and turn.state.partial.depth is None
    trade_size = begun or any(not isinstance(part, Marked) for part in turn.state.box[:1])
    return trade_size and value != int(value) and eighths == int(eighths) and 1 < value < 5
