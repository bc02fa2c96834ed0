"""What is left once some are taken out, said in the same breath: "the fan switch got moved out, one
switch"."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_FURTHER = lazy_pattern(
    r"(?i)\b(?:and|plus|add|another|more|extra|new|instead|in place|for it|with|in its)\b"
)
_LISTED = lazy_pattern(
    r"(?i)\s*[,.;–-]+\s*(?:(?:so|now|that leaves|leaves|leaving|it's|that's|just|only) )*"
)


def left_after_removal(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts with so many of what was taken out as what is left of them, and none more."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(last, acts.Remove)
            and isinstance(act, acts.AddDevice | acts.AddCable)
            and act.count is not None
            and _alike(last, act)
            and _LISTED.fullmatch(heard, last.span[1], act.span[0])
            and not _FURTHER.search(heard, last.span[1])
        ):
            act = acts.Restate(thing=act, words=act.words, span=act.span, function="correction")
        kept.append(act)
    return kept


def _alike(gone: acts.Remove, thing: acts.AddDevice | acts.AddCable) -> bool:
    target = gone.target
    if isinstance(thing, acts.AddDevice):
        return target.kind == "device" and target.name == thing.name
    same_size = (target.awg, target.conductors) == (thing.awg, thing.conductors)
    return target.kind == "cable" and same_size
