"""What is named first and ordered behind it: "the gfci and its 12/2 are elsewhere, remove both"."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Unread
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern

#: Between what is named and the order: why it goes, and nothing else.
_WHY = lazy_pattern(
    r"(?i)\s*,?\s*(?:(?:is|are|was|were|isn't|aren't|is not|are not|go|goes|went|belongs?|do not"
    r"|does not|don't|doesn't|stays?|sits?|lives?)\b[^.;]*?)?[\s,.;–—-]*"
    r"(?:(?:so|and|please|then|just|you can|we|i|let's)\s+)*"
)
_ITS = lazy_pattern(
    r"(?i)(?:(?:no|ok|okay|so|and|but|wait|oh|actually|well|sorry|um|uh)[\s,]+)*"
    r"(?:the|that|those|these|this|both)\b"
)
_JOINED = lazy_pattern(
    r"(?i)\s*,?\s*(?:and|with|plus|&)\s+(?:also\s+)?(?:the|its|that|their|it's)?\s*"
)
_MANY = lazy_pattern(r"(?i)\b(?:both|them|those|all)\b")
_MOST = 3


def ordered_together(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The gfci and its 12/2 are in a separate box, so remove both": each of those that are named
    goes, and none comes in."""
    order = made[-1] if made else None
    if not isinstance(order, acts.Remove) or not _points(order.target):
        return made
    if not _MANY.search(order.words):
        return made
    named = [act for act in made[:-1] if not isinstance(act, (acts.No, acts.Social, acts.OpenBox))]
    if not 1 < len(named) <= _MOST or not all(map(_is_named, named)):
        return made
    if not _ITS.match(heard, max(0, named[0].span[0] - _back(heard, named[0]))):
        return made
    joined = all(
        _JOINED.fullmatch(heard, one.span[1], other.span[0]) for one, other in pairwise(named)
    )
    if not joined or not _WHY.fullmatch(heard, named[-1].span[1], order.span[0]):
        return made
    return [act for act in made if isinstance(act, acts.No)] + [_gone(act, order) for act in named]


def _back(heard: str, first: Act) -> int:
    """The characters of the article before a thing, where its words do not begin with it."""
    low = heard[: first.span[0]].lower()
    return next((len(one) for one in ("the ", "that ", "those ") if low.endswith(one)), 0)


def _points(target: Reference) -> bool:
    return target.kind == "anything" and target.awg is None and target.count in (None, 2)


def _is_named(act: Act) -> bool:
    return is_thing(act) and act.count in (None, 1)


def _gone(act: Act, order: acts.Remove) -> Act:
    if not is_thing(act):
        return act
    count = 1 if isinstance(act, (acts.AddCable, acts.AddConductors)) else None
    target = replace(just_like(act), count=act.count or count)
    return replace(order, target=target, words=act.words, span=act.span)


#: "That last fourteen is not ours, drop it": the size of a cable, and why it goes.
_OF_SIZE = lazy_pattern(
    r"(?i)\s*(?:(?:no|ok|okay|so|and|but|wait|oh|actually|well|sorry|um|uh|hold\s+on|hello|hi|hey"
    r"|please)[\s,]+)*"
    r"(?P<ref>(?:the|that|this)(?:\s+(?:last|other|extra|new|second|third|fourth))+"
    r"\s+(?:fourteen|twelve|ten|1[024])(?:[\s/-](?:two|three|[23]))?(?:\s+(?:cable|wire|run))?)"
    r"\s+(?:isn'?t|is|wasn'?t|was|doesn'?t|does|goes|belongs|has)\b[^.;]*?[,.;–—-]+"
    r"\s*(?:(?:so|and|please|then|just|you\s+can)\s+)*$"
)
_SIZES = {"fourteen": 14, "twelve": 12, "ten": 10, "14": 14, "12": 12, "10": 10}


def last_of_size(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "That last fourteen is not ours, drop it": one cable of that size goes."""
    order = made[-1] if made else None
    if not isinstance(order, acts.Remove) or not _points(order.target):
        return made
    found = _OF_SIZE.match(heard[: order.span[0]])
    if found is None or not all(map(_within_reason, made[:-1])):
        return made
    words = found["ref"].lower().replace("-", " ").replace("/", " ").split()
    awg = next(_SIZES[word] for word in words if word in _SIZES)
    wires = {"two": 2, "2": 2, "three": 3, "3": 3}
    conductors = next((wires[word] for word in words[2:] if word in wires), None)
    left[:] = [run for run in left if run.span[0] >= found.end()]
    kind = "wire" if conductors is None else "cable"
    target = Reference(kind, None, awg, conductors, count=1, words=found["ref"])  # type: ignore[arg-type]
    span = (found.start("ref"), order.span[1])
    return [replace(order, target=target, words=heard[slice(*span)], span=span)]


def _within_reason(act: Act) -> bool:
    """Whether an act is only of what is named, or marks the correction."""
    bare = is_thing(act) and act.count is None
    return bare or isinstance(act, (acts.No, acts.Social, acts.Size, acts.Number, acts.OtherTalk))
