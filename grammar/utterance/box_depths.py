"""The depth of a box begun and said anew: "deep 4 square two-eighth… 2-1/8"."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

#: No box of Table 314.16(A) is a quarter of an inch deep: two inches and an eighth (common
#: practice; the table's depths are 2-1/8 where they end in an eighth).
_TWO_EIGHTHS = lazy_pattern(r"(?i)\b(?:two|2)[- ](?:eighths?|8ths?)\b")
_TWO_AND_AN_EIGHTH = Decimal("2.125")
_MEANT = lazy_pattern(
    r"(?i)(?:\W|\b(?:i mean|i meant|sorry|no|wait|rather|uh|um|er|that is|that['’]?s|it['’]?s|the"
    r"|a|yeah|yes|so|make that)\b)*"
)


def depth_begun(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """A depth that no box has, as it is said for another; and a depth said once more."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        quarter = isinstance(act, acts.SetSize) and act.depth == Decimal("0.25")
        if isinstance(act, acts.SetSize) and quarter and _TWO_EIGHTHS.search(act.words):
            act = replace(act, depth=_TWO_AND_AN_EIGHTH)
        if isinstance(last, acts.SetSize) and _said_again(last, act, heard):
            continue
        kept.append(act)
    return kept


_FOUR_INCH = lazy_pattern(r"(?i)(?:four|4)[- ]?(?:inch(?:es)?|in)\b")


def face_said_behind(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The octagon is two and an eighth, four inch": its width, and no volume."""
    sizes = [act for act in made if isinstance(act, acts.SetSize)]
    if len(sizes) != 1 or sizes[0].width not in (None, Decimal(4)) or sizes[0].depth is None:
        return made
    if sizes[0].family not in (None, "octagon", "square", "round"):
        return made
    numbers = [
        act
        for act in made
        if isinstance(act, acts.Number) and _FOUR_INCH.fullmatch(act.words.strip())
    ]
    if len(numbers) != 1:
        return made
    wide = replace(sizes[0], width=Decimal(4)) if sizes[0].family else sizes[0]
    return [wide if act is sizes[0] else act for act in made if act is not numbers[0]]


_OF_THE_KIND = lazy_pattern(
    r"(?i) of (?:the|those|them|these)(?: [a-z]+){1,3}? (?:ones?|kinds?|types?|sort|boxes|box)\b"
)


def one_of_a_kind(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Four square inch and a quarter, one of the old shallow ones": what box it is, and no
    number."""
    return [
        act
        for act in made
        if not (
            isinstance(act, acts.Number)
            and act.value == 1
            and _OF_THE_KIND.match(heard, act.span[1])
        )
    ]


_ENDED = lazy_pattern(r"[.;?!]")


@joining
def face_then_depth(last: Act, act: Act, heard: str) -> Act | None:
    """ "A 4 by 2-1/8 handy box, 1-7/8 deep": the face of Table 314.16(A)'s, and how deep it is."""
    if not isinstance(last, acts.SetSize) or not isinstance(act, acts.SetSize):
        return None
    face = (last.width, last.height, last.depth) == (Decimal(4), None, _TWO_AND_AN_EIGHTH)
    device = {last.family, act.family} <= {None, "device", "handy"}
    deep = act.width is None and act.height is None and isinstance(act.depth, Decimal)
    if not (face and device and deep) or _ENDED.search(heard, last.span[1], act.span[0]):
        return None
    span = (last.span[0], act.span[1])
    named = act.family or last.family or "device"
    return replace(
        last,
        height=_TWO_AND_AN_EIGHTH,
        depth=act.depth,
        family=named,
        words=heard[slice(*span)],
        span=span,
    )


def _said_again(size: acts.SetSize, act: Act, heard: str) -> bool:
    """Whether an act is nothing but the depth of the box said right before it."""
    if isinstance(act, (acts.Number, acts.RestateNumber)):
        value = act.value
    elif isinstance(act, acts.SetSize) and (act.width, act.height, act.family) == (None,) * 3:
        value = act.depth if isinstance(act.depth, Decimal) else None
    else:
        return False
    if value is None or value != size.depth or value == int(value):
        return False
    return _MEANT.fullmatch(heard[size.span[1] : act.span[0]]) is not None
