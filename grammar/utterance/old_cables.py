"""Cables described before they are named: "it's old cable with no ground", "old two-wire"."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_TWO_WIRE = lazy_pattern(r"(?i)(?:(?:the|a|an|old|just|all) )*(?:two|2|three|3)[- ]wire")


def described_ahead(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "It's old cable with no ground, two 12-2s": no cable of its own, and those that are named
    have no ground; "old two-wire, two 14-2s" is those cables, and no two wires."""
    sized = [act for act in made if isinstance(act, acts.AddCable) and act.awg is not None]
    if not sized:
        return made
    kept: list[Act] = []
    bare: acts.AddCable | None = None
    for act in made:
        thing = act.thing if isinstance(act, acts.Restate) else act
        if isinstance(thing, acts.AddCable) and _ungrounded_kind(thing):
            bare = thing
        elif _denied_grounds(act, heard):
            bare = acts.AddCable(ground=False, words=act.words, span=act.span)
        elif not (_wires_of(act, sized) or _kind_of_cable(thing)):
            kept.append(act)
    if bare is None:
        return kept
    target = Reference("cable", which="all", words=bare.words)
    kept.append(
        acts.Unground(target=target, words=bare.words, span=bare.span, function="correction")
    )
    return kept


def _ungrounded_kind(thing: acts.AddCable) -> bool:
    """Cable without a ground, of no size and no number."""
    return thing.awg is None and thing.ground is False and thing.count is None


_OLD = lazy_pattern(
    r"(?i)(?:(?:it['’]?s|this is|the|that|all|just|some|of|old|older|existing|original|two[- ]wire"
    r"|2[- ]wire|cloth|rag|fabric|covered) )+(?:nm |bx )?(?:cables?|nm|bx|stuff)"
)


def _kind_of_cable(thing: Act) -> bool:
    """ "It's the old two-wire cable": what kind they are, with no number and no size."""
    return (
        isinstance(thing, acts.AddCable)
        and thing.awg is None
        and thing.count in (None, 1)
        and _OLD.fullmatch(thing.words) is not None
        and ("old" in thing.words.lower() or "wire" in thing.words.lower())
    )


def _denied_grounds(act: Act, heard: str) -> bool:
    """ "Ungrounded cable": no cable is denied by it."""
    return (
        isinstance(act, acts.Deny)
        and act.target.kind == "cable"
        and act.target.awg is None
        and heard[: act.span[0]].lower().rstrip().endswith("ungrounded")
    )


def _wires_of(act: Act, sized: list[acts.AddCable]) -> bool:
    """ "Two-wire", of cables with two conductors each: it says what cables they are."""
    return (
        isinstance(act, acts.AddConductors)
        and act.awg is None
        and act.path is None
        and _TWO_WIRE.fullmatch(act.words) is not None
        and all(cable.conductors == act.count for cable in sized)
    )
