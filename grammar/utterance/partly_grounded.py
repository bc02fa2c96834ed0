"""Cables of which only some have a ground: "two of the 14-2s are the old ungrounded stuff, no
ground wire in either, and the third has one". The others bring theirs, 314.16(B)(5)."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.wire_list_patterns import COUNTS, SIZES

_SOME = lazy_pattern(r"(?i)\W*(?:and |but )?[\w-]+ of (?:the|those|these|my)\b")
_IN_THOSE = lazy_pattern(
    r"(?i)\s*(?:wires?|conductors?)?\s*(?:in|on|with) (?:either|any|both|neither|them|it|those"
    r"|that)\b"
)
_THE_REST = lazy_pattern(
    r"(?i)(?:\b(?:the|and|but|a|an)\s+)?(?:third|fourth|fifth|second|other|others|last|rest"
    r"|remaining)\b"
)


#: "One of the two 14s has", "two of the cables in here have": before "no ground".
_SOME_HAVE = lazy_pattern(
    r"(?i)\b(?P<n>one|two|three|four|[1-4]) of (?:the|those|these|my|our)"
    r"(?: (?:two|three|four|five|six|[2-6]))?(?: old| older| new)?"
    rf" (?P<what>cables?|runs?|ones?|(?P<awg>1[024]|8|6|{'|'.join(SIZES)})['’]?e?s)"
    r"(?: in (?:here|there|it|this box|the box))?"
    r" (?:has|have|had|got|comes? with|came with)(?: got| really| actually)*\s*$"
)


def partly_grounded(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts with those cables without a ground alone that were said to have none."""
    kept: list[Act] = []
    for act in (_of_some_alone(_of_some(one), heard) for one in made):
        if isinstance(act, acts.Unground):  # whose they are said to be is told in it
            left[:] = [run for run in left if not act.span[0] <= run.span[0] < act.span[1]]
            kept = [one for one in kept if not act.span[0] <= one.span[0] < act.span[1]]
        bare = _last_bare(kept)
        if bare is not None and _denies_grounds(act) and _IN_THOSE.match(heard, act.span[1]):
            continue
        kept.append(act)
    bare = _last_bare(kept)
    if bare is None or bare.target.count is None:
        return kept
    others = [act for act in kept if _are_the_rest(act, bare.target, heard)]
    if not others:
        return kept
    first = acts.AddCable(
        count=bare.target.count, awg=bare.target.awg, conductors=bare.target.conductors,
        ground=False, words=bare.words, span=bare.span,
    )  # fmt: skip
    return [first if act is bare else act for act in kept if not _their_own(act, others, heard)]


def _of_some(act: Act) -> Act:
    """ "Two of the 14-2s without ground": no fewer cables than there are."""
    thing = act.thing if isinstance(act, acts.Restate) else None
    if (
        not isinstance(thing, acts.AddCable)
        or thing.ground is not False
        or thing.awg is None
        or not _SOME.match(thing.words)
    ):
        return act
    target = Reference(
        "cable", awg=thing.awg, conductors=thing.conductors, count=thing.count, words=thing.words
    )
    return acts.Unground(
        target=target, words=act.words, span=act.span, doubts=act.doubts, function="correction"
    )


def _of_some_alone(act: Act, heard: str) -> Act:
    """ "One of the two 14s has no ground": of one cable, and the others keep theirs."""
    some = _SOME_HAVE.search(heard, 0, act.span[0]) if _denies_grounds(act) else None
    if some is None:
        return act
    size = (some["awg"] or "").lower()
    target = Reference(
        "cable",
        awg=SIZES.get(size, int(size) if size.isdigit() else None),
        count=COUNTS[some["n"].lower()],
        words=heard[some.start() : some.end("what")],
    )
    span = (some.start(), act.span[1])
    return acts.Unground(target=target, words=heard[slice(*span)], span=span, function="correction")


def _last_bare(made: list[Act]) -> acts.Unground | None:
    found = [
        act
        for act in made
        if isinstance(act, acts.Unground) and act.target.awg is not None and not act.ground
    ]
    return found[-1] if found else None


def _denies_grounds(act: Act) -> bool:
    return isinstance(act, acts.Deny) and act.target.kind == "grounds"


def _are_the_rest(act: Act, some: Reference, heard: str) -> bool:
    """ "The third 14-2 is new": of the same size, and told as one of those that are left."""
    return (
        isinstance(act, acts.AddCable)
        and (act.awg, act.conductors) == (some.awg, some.conductors)
        and _THE_REST.search(heard[max(0, act.span[0] - 12) : act.span[1]]) is not None
    )


def _their_own(act: Act, others: list[Act], heard: str) -> bool:
    """ "… with a ground": that of a cable."""
    return (
        isinstance(act, acts.AddGrounds)
        and act.awg is None
        and act.count in (None, 1)
        and any(0 <= act.span[0] - other.span[1] < 40 for other in others)
    )


def grounds_in_those(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "There's two of those, no ground in it either": what has no ground in it is a cable."""
    if not any(_denies_grounds(act) and _IN_THOSE.match(heard, act.span[1]) for act in made):
        return made
    return [
        replace(act, target=replace(act.target, kind="cable"))
        if isinstance(act, acts.Recount)
        and act.target.kind == "anything"
        and act.target.which == "said"
        else act
        for act in made
    ]
