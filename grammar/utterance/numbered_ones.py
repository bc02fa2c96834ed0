"""What is told by its place in the count: "no fourth one", "forget that third one", "I see a
seventh one. Seven 14-2s". And how many more it was: "not two more, just one more"."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Unread
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.clauses.act_kinds import counted, is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

PLACES = {
    "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8,
}  # fmt: skip
_NTH = "|".join(PLACES)
_NONE = lazy_pattern(
    r"(?i)(?:^|[.,;!?…–-])\s*(?:(?:no|nope|sorry|well|oh|wait|actually|and|so|but|my bad|hold on)"
    rf"[ ,.]+)*(?P<said>(?:there(?:['’]s| is| was) )?no (?P<nth>{_NTH})"
    r"(?: (?P<what>one|cables?|wires?))?)(?: after all| in (?:here|there|it)| at all)?\s*"
    r"(?=[.,;!?…–-]|$)"
)


def no_nth(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Sorry, no fourth": that there are not so many. Who has four loses one, and who has three
    keeps them, which the box tells."""
    said = _NONE.search(heard)
    if said is None:
        return made
    span = said.span("said")
    words = said["said"]
    within = [act for act in made if span[0] <= act.span[0] and act.span[1] <= span[1]]
    if any(not isinstance(act, (acts.No, acts.Keep, acts.More)) for act in within):
        return made
    left[:] = [run for run in left if not span[0] <= run.span[0] < span[1]]
    target = Reference("anything", ordinal=PLACES[said["nth"].lower()], words=words)
    denied = acts.Deny(target=target, words=words, span=span, function="correction")
    rest = [act for act in made if act not in within]
    before = [act for act in rest if act.span[0] < span[0] and not isinstance(act, acts.No)]
    return [*before, denied, *(act for act in rest if act.span[0] >= span[1])]


_FORGET = lazy_pattern(
    r"(?i)\b(?:forget|scratch|never mind|disregard|ignore|strike|cancel|undo)(?: about)?"
    r" (?:that|the|this) $"
)


def forgotten_nth(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Forget that third one": it goes, and nothing else is taken back."""
    kept: list[Act] = []
    for act in made:
        if not (
            isinstance(act, acts.More)
            and act.target.ordinal is not None
            and (order := _FORGET.search(heard[: act.span[0]]))
        ):
            kept.append(act)
            continue
        if kept and isinstance(kept[-1], acts.Undo) and kept[-1].span[0] >= order.start():
            kept.pop()
        span = (order.start(), act.span[1])
        words = heard[slice(*span)]
        target = replace(act.target, which="said", count=None)
        kept.append(acts.Remove(target=target, words=words, span=span, function="request"))
    return kept


_BETWEEN = lazy_pattern(
    r"(?i)[\s.,;:!…–-]*(?:(?:so|that(?:['’]s| is| makes)|now|there(?:['’]s| are)|it['’]?s|we have"
    r"|i have|i['’]ve got|makes|then|and so|all told|in all)[\s,]+)*"
)


@joining
def nth_then_all(last: Act, act: Act, heard: str) -> Act | None:
    """ "I see a seventh one. Seven 14-2s": so many in all, of which that is the last."""
    if (
        isinstance(last, acts.More)
        and last.target.ordinal is not None
        and is_thing(act)
        and counted(act) == last.target.ordinal
        and _BETWEEN.fullmatch(heard, last.span[1], act.span[0])
    ):
        span = (last.span[0], act.span[1])
        return acts.Restate(
            thing=act, instead_of=just_like(act), words=heard[slice(*span)], span=span,
            doubts=act.doubts, function="correction",
        )  # fmt: skip
    return None


_WORTH = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
_NUMBER = "one|two|three|four|five|six|[1-6]"
_NOT_SO_MANY = lazy_pattern(
    rf"(?i)\bnot (?P<old>{_NUMBER}) more[ ,.;…–-]+(?:(?:but|just|only|really|actually|it['’]s|it was"
    rf"|there['’]s|make it|make that)[ ,]+)*(?P<new>{_NUMBER})(?: more)?(?= *(?:[.,;!?…]|$))"
)


def not_so_many_more(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Not two more, just one more": one in place of the two that came in last."""
    said = _NOT_SO_MANY.search(heard)
    if said is None:
        return made
    start, end = said.span()
    within = [act for act in made if start <= act.span[0] and act.span[1] <= end]
    if not within or any(
        not isinstance(act, (acts.More, acts.RestateNumber, acts.Number, acts.No)) for act in within
    ):
        return made
    old, new = (_worth(said[name]) for name in ("old", "new"))
    left[:] = [run for run in left if not start <= run.span[0] < end]
    put_right = acts.RestateNumber(
        value=Decimal(new), instead_of=Decimal(old), words=said[0], span=said.span(),
        function="correction",
    )  # fmt: skip
    rest = [act for act in made if act not in within]
    return [
        *(act for act in rest if act.span[0] < start),
        put_right,
        *(act for act in rest if act.span[0] >= end),
    ]


def _worth(word: str) -> int:
    return int(word) if word.isdigit() else _WORTH[word.lower()]
