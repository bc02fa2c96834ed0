"""What is told by its place in the count: "no fourth one", "forget that third one", "I see a
seventh one. Seven 14-2s". And how many more it was: "not two more, just one more"."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Unread
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.clauses.act_kinds import counted, is_thing, pointed_at
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

PLACES = {
    "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8,
}  # fmt: skip
_NTH = "|".join(PLACES)
_DEVICES = frozenset({"switch", "receptacle", "dimmer", "device", "gfci", "timer"})
_NONE = lazy_pattern(
    r"(?i)(?:^|[.,;!?…–-])\s*(?:(?:no|nope|sorry|well|oh|wait|actually|and|so|but|my bad|hold on)"
    rf"[ ,.]+)*(?P<said>(?:there(?:['’]s| is| was) )?no (?P<nth>{_NTH})"
    r"(?: (?P<what>one|cables?|wires?|switch|receptacle|dimmer|device|gfci|timer))?)"
    r"(?: after all| in (?:here|there|it)| at all)?\s*"
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
    what = (said["what"] or "").lower()
    target = Reference(
        "anything", what if what in _DEVICES else None, ordinal=PLACES[said["nth"].lower()],
        words=words,
    )  # fmt: skip
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


_TOO = lazy_pattern(r"(?i),? (?:too|also|as well|besides)\b")
_ALONE = lazy_pattern(r"(?i)(?:,? (?:then|now|in all|altogether|all told|total))*\s*(?:[.,;!]|$)")


@joining
def nth_then_all(last: Act, act: Act, heard: str) -> Act | None:
    """ "I see a seventh one. Seven 14-2s", "a third one. Three, then": so many in all, of which
    that is the last."""
    alone = isinstance(act, (acts.Number, acts.RestateNumber))
    if alone and isinstance(last, acts.More) and last.target.ordinal == getattr(act, "value", None):
        said = _BETWEEN.fullmatch(heard, last.span[1], act.span[0])
        return last if said and _ALONE.match(heard, act.span[1]) else None
    if (
        isinstance(last, acts.More)
        and last.target.ordinal is not None
        and is_thing(act)
        and counted(act) == last.target.ordinal
        and _BETWEEN.fullmatch(heard, last.span[1], act.span[0])
        and _TOO.match(heard, act.span[1]) is None
    ):
        span = (last.span[0], act.span[1])
        return acts.Restate(
            thing=act, instead_of=just_like(act), words=heard[slice(*span)], span=span,
            doubts=act.doubts, function="correction",
        )  # fmt: skip
    return None


_WORTH = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9}  # fmt: skip
_NUMBER = "one|two|three|four|five|six|[1-6]"
_NOT_SO_MANY = lazy_pattern(
    rf"(?i)\bnot (?P<old>{_NUMBER}) more[ ,.;…–-]+(?:(?:but|just|only|really|actually"
    rf"|it['’]s|it was|there['’]s|make it|make that)[ ,]+)*(?P<new>{_NUMBER})"
    r"(?: more)?(?= *(?:[.,;!?…]|$))"
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


_HAVE_OUT = lazy_pattern(
    r"(?i)\b(?:let['’]?s|let us|(?:i|we)['’]?(?:ll| will)|i want to|i['’]d like to) have $"
)
_OUT = lazy_pattern(r"(?i)(?P<what>(?:both|the|all|those|these|that)\b.*) out")
_ENDS = lazy_pattern(r"\s*(?:[.,;!]|$)")


def had_out(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Let's have both 14-2s out": they go."""
    kept: list[Act] = []
    for act in made:
        if not isinstance(act, acts.AddCable | acts.AddConductors):
            kept.append(act)
            continue
        out = _OUT.fullmatch(act.words)
        order = _HAVE_OUT.search(heard[: act.span[0]])
        if out is None or order is None or not _ENDS.match(heard, act.span[1]):
            kept.append(act)
            continue
        span = (order.start(), act.span[1])
        words = heard[slice(*span)]
        target = replace(pointed_at(act, out["what"]), count=counted(act))
        if isinstance(act, acts.AddConductors):
            target = replace(target, kind="wire")  # "both fourteens": of cables as well
        kept.append(acts.Remove(target=target, words=words, span=span, function="request"))
    return kept


_LED = (acts.AddCable, acts.AddConductors)
_WOULD_HAVE = lazy_pattern(
    rf"(?i)(?:(?:and|so|then|that) )*(?:(?:i|we|you|he|it|that)(?:['’]d| would) (?:have|be|leave"
    rf"|make)) (?:only |just )*(?P<count>{_NUMBER}|seven|eight|nine|[7-9])(?: left)?[.!]?"
)


def would_have(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "He leaves one out, and we'd have four": how many there are then, and no question."""
    changing = (acts.Remove, acts.More, acts.Recount, acts.Restate, *_LED)
    kept: list[Act] = []
    for act in made:
        said = _WOULD_HAVE.fullmatch(act.words) if isinstance(act, acts.AskUnknown) else None
        if said is None or not any(isinstance(one, changing) for one in kept):
            kept.append(act)
            continue
        start = act.span[0] + said.start("count")
        span = (start, start + len(said["count"]))
        kept.append(
            acts.Number(value=Decimal(_worth(said["count"])), words=said["count"], span=span)
        )
    return kept


_LOOKED_LIKE = lazy_pattern(
    r"(?i)\b(?:the|that|your) [a-z0-9]+ (?:looked|looks|read|reads) (?:just |a lot |to me )*like"
    r" (?:a |an |the )?[a-z0-9]+(?: to me)?(?=\s*(?:[.,;!]|$))"
)


def looked_like(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "It's fourteen. The four looked like a six": why it was read wrong, and nothing more."""
    if any(isinstance(act, (acts.RestateNumber, acts.SetVolume)) for act in made):
        for said in _LOOKED_LIKE.finditer(heard):
            left[:] = [run for run in left if not said.start() <= run.span[0] < said.end()]
    return made


_STOP = lazy_pattern(r"\s*[.,;…–-]+\s*")


@joining
def named_then_counted(last: Act, act: Act, heard: str) -> Act | None:
    """ "14-2s. Three 14-2s, not 12s": the name alone, and then how many of them."""
    thing = act.thing if isinstance(act, acts.Restate) else act
    if (
        isinstance(last, acts.AddCable)
        and last.count is None
        and last.words.endswith("s")
        and isinstance(thing, acts.AddCable)
        and (thing.count or 0) > 1
        and (thing.awg, thing.conductors) == (last.awg, last.conductors)
        and _STOP.fullmatch(heard, last.span[1], thing.span[0])
    ):
        return act
    return None


#: "There's a switch. I said plain splice, but there's a switch": what was told before was wrong.
_TOLD_OTHERWISE = lazy_pattern(
    r"(?i)\s*[.!…;]+\s*(?:i know |and )*(?:i|we|he) (?:said|told you|thought|put down|wrote"
    r"|had said)\b[^.;?!]*\bbut (?:there(?:['’]s| is)|(?:i|we|he)(?:['’]ve| have)?(?: got| have)?"
    r"|it(?:['’]s| has)?(?: got)?) "
)
_FURTHER = lazy_pattern(r"(?i)\b(?:more|another|second|other|extra|additional)\b")


@joining
def told_otherwise(last: Act, act: Act, heard: str) -> Act | None:
    """A device that is told, and then set against what was said before: one, and no further."""
    if (
        isinstance(last, acts.AddDevice)
        and isinstance(act, acts.AddDevice)
        and (last.name, last.count, last.awg) == (act.name, act.count, act.awg)
        and act.count in (None, 1)
        and not _FURTHER.search(act.words)
        and _TOLD_OTHERWISE.fullmatch(heard, last.span[1], act.span[0])
    ):
        return last
    return None


_I_SAID = lazy_pattern(r"(?i)\b(?:i|we) (?:said|told you|put down|wrote) $")


def said_wrongly(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "I said three 14-2s, no, I was counting … . Two 14-2s": so many, and not those said."""
    kept: list[Act] = []
    for act in made:
        before = kept[-2:]
        said = before[0] if len(before) > 1 and isinstance(before[1], acts.No) else None
        if (
            isinstance(said, acts.Restate)
            and isinstance(act, acts.AddCable)
            and act.count is not None
            and just_like(said.thing) == replace(just_like(act), words=said.thing.words)
            and _I_SAID.search(heard[: said.span[0]])
            and not _FURTHER.search(act.words)
        ):
            kept[-2:] = [
                acts.Restate(
                    thing=act, instead_of=just_like(act), words=act.words, span=act.span,
                    doubts=act.doubts, function="correction",
                )
            ]  # fmt: skip
            continue
        kept.append(act)
    return kept
