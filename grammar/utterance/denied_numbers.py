"""A number that is denied, and what stands in its place: "it ain't six, it's eight-three"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.clauses.act_fields import KIND_OF, thing_of
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern

_DENIED = lazy_pattern(
    r"(?:(?:so|ah|oh|no|and|but|well|actually|wait|sorry|hey|ok|okay|um|uh|look) )*"
    r"(?:(?P<subject>it|that|this|they|those|these|there|(?:the |my |those )?(?:box|volume|bx"
    r"|wires?|cables?|conductors?|<box_kind[^>]*>)|<box_kind[^>]*>) )?"
    r"(?:(?:is|are|was|were) (?:no|not)|aint|isnt|arent)"
    r" (?:a |an |the |number |really |actually )*<n:(?P<value>[0-9.]+)>(?: <n:(?P<ones>[1-9])>)?"
    r"(?: (?:box|one|<n:1>))*"
)
_DENIED_THINGS = lazy_pattern(
    r"(?:(?:so|ah|oh|no|and|but|well|actually|wait|sorry|hey|ok|okay|um|uh|look) )*"
    r"(?:(?:(?:it|that|this|they|those|there) )?(?:(?:is|are|was|were) not|aint|isnt|arent|wasnt"
    r"|werent)|(?P<bare>not)) (?:really |actually )*"
    r"<(?:cable|device|conductors|grounds|fitting):(?P<count>[1-9]\d*):>"
)
#: "It's the one stacked one": one of them, whatever sort it is.
_ONE_INSTEAD = lazy_pattern(
    r"(?:it|that|this|there) is (?:just |only |really |all |the |a )*(?:<n:1>|single|one)"
    r"(?: (?:stacked|combo|combination|double|duplex|single|<device:[0-9]*:[a-z]*>|unit)){0,2}"
    r"(?: <n:1>| unit)?"
)
_BOX = lazy_pattern(r"\b(?:box|bx|volume)\b|<box_kind[^>]*>")
_WIRES = lazy_pattern(r"\b(?:wires?|cables?|conductors?|they|those|these)\b")
_SIZES = frozenset({14, 12, 10, 8, 6})


def denied_number(clause: Clause, following: Sequence[Clause]) -> re.Match[str] | None:
    """The number that a clause denies, where the next goes on with what it is instead."""
    if not following or clause.closes not in (",", ".", ";", "-", ""):
        return None
    if not (following[0].found or "<n:" in following[0].line):
        return None
    return _DENIED.fullmatch(clause.line)


def denies_things(clause: Clause) -> bool:
    """ "It wasn't three 14-2s": whether a clause denies that many, and nothing else."""
    if _SOME_DENIED.match(clause.line) is not None:
        return True
    return clause.line.endswith(":>") and _DENIED_THINGS.fullmatch(clause.line) is not None


#: "One of the three isn't BX", "one of the 14-2s is not a 14-2": some are denied to be that.
_SOME_DENIED = lazy_pattern(
    r"(?:(?:so|ah|oh|no|and|but|well|actually|wait|sorry|hey|ok|okay|um|uh) )*"
    r"(?:<n:(?P<n>[1-9])> of (?:(?:the|those|these|them|my) ?)(?:<n:[1-9]> )?"
    r"(?:<[a-z]+::d?>|cables?|wires?|runs?)?(?:in there |here )? ?"
    r"|<(?:cable|device|conductors):(?P<of>[1-9]):d> )"
    r"(?:(?:is|are|was|were) (?:actually |really )?not|isnt|arent|wasnt|werent)\b"
)


def _some_replaced(clause: Clause, told: Sequence[Act]) -> list[Act]:
    """ "One of the three isn't BX, it's a new 14-2": that one in place of one of those; empty where
    what follows is no such thing."""
    some = _SOME_DENIED.match(clause.line)
    act = told[0] if len(told) == 1 else None
    thing = act.thing if isinstance(act, acts.Restate) else act
    count = int(some["n"] or some["of"]) if some is not None else 0
    if act is None or not is_thing(thing) or thing.count not in (None, count):
        return []
    named = next(map(thing_of, clause.found), None)
    target = just_like(named) if is_thing(named) else Reference(kind=KIND_OF[type(thing)])
    return [
        acts.Replace(
            target=replace(target, count=count, words=target.words or "those"),
            thing=replace(thing, count=count), words=act.words, span=act.span,
            doubts=act.doubts, function="correction",
        )
    ]  # fmt: skip


def denied_count(clause: Clause, following: Sequence[Clause], told: Sequence[Act]) -> list[Act]:
    """ "It wasn't three 14-2s, it was two": how many of them there are instead; empty where a
    thing is denied for another reason. `told` is what the clause that follows tells."""
    if _SOME_DENIED.match(clause.line) is not None:
        return _some_replaced(clause, told)
    thing = next(map(thing_of, clause.found), None) if denies_things(clause) else None
    if thing is not None and _ONE_INSTEAD.fullmatch(following[0].line):
        span = following[0].span
        return [
            acts.Recount(target=just_like(thing), count=1, words="one", span=span,
                         function="correction")
        ]  # fmt: skip
    if thing is None or len(told) != 1:
        return []
    act = told[0]
    value = act.value if isinstance(act, (acts.Number, acts.RestateNumber)) else None
    if value is None or value != int(value):
        return []
    denied = _DENIED_THINGS.fullmatch(clause.line)
    if denied is not None and denied["bare"] and isinstance(thing, _COUNTED):
        return [_so_many(thing, int(value), act)]
    return [
        acts.Recount(
            target=just_like(thing), count=int(value), words=act.words, span=act.span,
            doubts=act.doubts, function="correction",
        )
    ]  # fmt: skip


_BOTH_COUNTS = lazy_pattern(
    r"(?:no )?not <(?:n:[1-9]\d*|conductors:[1-9]\d*:)>"
    r" <(?:cable|device|conductors|grounds|fitting):[1-9]\d*:[^>]*>"
)


def denied_first(clause: Clause) -> bool:
    """ "Not a switch, …": only what is not so, before what is. "Not three 14-2s, two", which is
    heard as "not 3, 14-2s 2", holds both."""
    return (
        clause.line.startswith("not <")
        and clause.closes in (",", ".", ";", "-")
        and len(clause.elements) < 4
        and _BOTH_COUNTS.fullmatch(clause.line) is None
    )


_COUNTED = (acts.AddCable, acts.AddDevice, acts.AddConductors, acts.AddGrounds, acts.AddFitting)


def _so_many(thing: acts.Thing, count: int, said: Act) -> Act:
    """ "Not three 14-2s, two": so many of them, told first or in place of those."""
    return acts.Restate(
        thing=replace(thing, count=count, words=said.words, span=said.span),
        instead_of=just_like(thing), words=said.words, span=said.span, doubts=said.doubts,
        function="correction",
    )  # fmt: skip


_LEAST_VOLUME = 5
"""The least number that can be the volume of a box and no count, in cubic inches."""
_AFTER_ALL = lazy_pattern(
    r"(?:and |but )?not (?:a |an |the )?<(?:n:(?P<n>[0-9.]+)|box_(?:volume|size)[^>]*)>"
    r"(?: box| one)?"
)

#: "It isn't an eighteen", "in place of the eighteen", behind the box that it is.
_NO_LONGER = lazy_pattern(
    r"(?:and |but |so )?(?:(?:it|that|this|the box|box) (?:(?:is|was) (?:not|no)|isnt|wasnt|aint)"
    r"|instead of|in place of|in lieu of|rather than|not|replaces|replacing)(?: really| actually)?"
    r"(?: (?:a|an|the|that|my|old|any))* <(?:n:(?P<n>[0-9.]+)|box_(?:volume|size)[^>]*)>"
    r"(?: (?:box|one|<n:1>|anymore|any more|at all|after all|like|i|we|you|said|told|have|had"
    r"|before|first|now))*"
)

_NOT_SO_MANY = lazy_pattern(r"(?:and |but )?not <n:[1-9]\d*>")


def denied_behind(clause: Clause, made: Sequence[Act]) -> bool:
    """ "It's a twenty. Not an eighteen.": what was just put in its place denies it already."""
    told = [act for act in made if not isinstance(act, (acts.No, acts.Yes, acts.Social))]
    last = told[-1] if told else None
    if is_thing(last) and last.count is not None:
        return _NOT_SO_MANY.fullmatch(clause.line) is not None
    if not isinstance(last, (acts.SetVolume, acts.SetSize, acts.RestateNumber)):
        return False
    found = _AFTER_ALL.fullmatch(clause.line)
    if found is not None:
        return found["n"] is None or Decimal(found["n"]) >= _LEAST_VOLUME
    old = _NO_LONGER.fullmatch(clause.line)
    number = Decimal(old["n"]) if old is not None and old["n"] else Decimal(_LEAST_VOLUME)
    return old is not None and number >= _LEAST_VOLUME and number not in _SIZES


def in_its_place(clause: Clause, made: list[Act]) -> list[Act]:
    """ "Three 14-2s, I miscounted, not two": so many in place of those."""
    place = max((n for n, act in enumerate(made) if is_thing(act)), default=-1)
    act = made[place] if place >= 0 else None
    if not is_thing(act) or act.count is None or not _NOT_SO_MANY.fullmatch(clause.line):
        return made
    restated = acts.Restate(
        thing=act, instead_of=just_like(act), words=act.words, span=act.span, doubts=act.doubts,
        function="correction",
    )  # fmt: skip
    return [*made[:place], restated, *made[place + 1 :]]


def only_denied(clause: Clause, heard: str) -> list[Act]:
    """ "It's not two switches": a mistake, of which is yet to be said how many there are."""
    found = _DENIED_THINGS.fullmatch(clause.line)
    if found is None or int(found["count"]) < 2:
        return []  # "there isn't a dimmer" denies it
    return [acts.Mistaken(words=heard[slice(*clause.span)], span=clause.span)]


def instead(denied: re.Match[str], told: Sequence[Act]) -> list[Act] | None:
    """The acts of what stands in place of the number; None where it is no value at all."""
    old, subject = Decimal(denied["value"]), denied["subject"] or ""
    old += int(denied["ones"] or 0)  # "twenty five"
    made = [_instead(act, old, subject) for act in told]
    if not any(getattr(act, "function", "") == "correction" for act in made):
        return None
    return made


def _instead(act: Act, old: Decimal, subject: str) -> Act:
    words, span = act.words, act.span
    value = act.value if isinstance(act, (acts.Number, acts.RestateNumber)) else None
    awg = act.awg if isinstance(act, acts.Size) else None
    if value is not None and value in _SIZES and old in _SIZES and _WIRES.search(subject):
        awg = int(value)
    if awg is not None and old in _SIZES:
        target = Reference("wire", awg=int(old), words=f"the {int(old)}s")
        return acts.Resize(target=target, awg=awg, words=words, span=span, function="correction")
    if value is not None and _BOX.search(subject):
        return acts.SetVolume(
            volume=value, words=words, span=span, doubts=act.doubts, function="correction"
        )
    if value is not None:
        return acts.RestateNumber(
            value=value, instead_of=old, words=words, span=span, doubts=act.doubts,
            function="correction",
        )  # fmt: skip
    if isinstance(act, (acts.SetVolume, acts.SetSize)):
        return replace(act, function="correction")
    thing = act.thing if isinstance(act, acts.Restate) else None
    if isinstance(thing, acts.AddCable) and thing.count in (None, 1) and old in _SIZES:
        size = Reference("cable", awg=int(old), words=f"the {int(old)}s")
        return acts.Replace(
            target=size, thing=replace(thing, count=None), words=words, span=span,
            doubts=act.doubts, function="correction",
        )  # fmt: skip
    return act
