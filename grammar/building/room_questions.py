"""Questions whether there is room for more of a thing, for how many, and for how many at most."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from itertools import pairwise
from typing import cast

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.building.box_questions import volume_needed
from boxaloud.grammar.clauses.act_fields import THINGS, act_of, thing_of
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.clauses.most_wanted import asks_if_most, wants_most
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.statements import Statement

#: "Can I get rid of the receptacle": what goes, and no room for more.
_COMES_OUT = lazy_pattern(
    r"\b(?:get(?:ting)?|be|do) (?:rid of|without)\b|\b(?:take|pull|get) (?:out|off|away)\b"
)
_TAKES = lazy_pattern(r"\b(?:get|take|pull|move) <[^>]*>(?P<out>(?: [a-z]+)? (?:out|off|away)\b)?")


def _comes_out(clause: Clause, things: Sequence[Statement]) -> bool:
    """Whether it is asked of what goes; "a 14-2 out" may be one noun group."""
    taken = _TAKES.search(clause.line)
    out = any(found.words.lower().endswith((" out", " off", " away")) for found in things)
    return _COMES_OUT.search(clause.line) is not None or (
        taken is not None and (out or taken["out"] is not None)
    )


def asks_for_room(clause: Clause, kinds: Sequence[str], things: Sequence[Statement]) -> bool:
    """Whether more of one thing is asked for: "how many more 14-2s", "can I add a dimmer"."""
    if _comes_out(clause, things) or volume_needed(clause.line):
        return False
    box = any(found.kind in ("box_volume", "box_size") for found in things)
    inside = [found for found in things if found.kind in THINGS]
    if box or len(inside) != 1:
        return "room_for" in kinds and not box and len(inside) < 2
    if re.search(r"\bhow many\b", clause.line):
        return not re.search(
            r"\b(?:did|do i have|have i|are in|are there|did i say|you got|you have|counts?|counted"
            r"|allowances?|worth|how many does <)\b|\bhow many (?:times )?does <",
            clause.line,
        )
    return bool(
        re.search(
            r"\b(?:can|could|will|would|is there|do i have) (?:i |we |it |there )?(?:be )?"
            r"(?:still |also |safely |even )?(?:fit|add|get|put|squeeze|take|hold|room|run"
            r"|bring|have|throw|stuff|stick|enough room|space|any room)\b",
            clause.line,
        )
        or re.search(
            r"^(?:(?:and|so|ok) )*(?:will|would|can|could) (?:a |an |another |one more "
            r"|the )?<[^>]*>(?: still| also)? (?:fit|work|go)\b",
            clause.line,
        )
    )


def room_for(
    clause: Clause, things: Sequence[Statement], words: str, span: tuple[int, int]
) -> list[Act]:
    """The question for room: for what of it, and how many; None where that is the question."""
    found = next((found for found in things if found.kind in THINGS), None)
    thing = None if found is None else thing_of(found)
    if thing is None and (size := next((f for f in clause.found if f.kind == "size"), None)):
        thing = acts.AddConductors(awg=cast(int, size.get("awg")), words=size.words, span=size.span)
    count = None
    if thing is not None and not re.search(r"\bhow many\b", clause.line):
        count = getattr(thing, "count", None) or 1
    return [acts.RoomFor(thing=thing, count=count, words=words, span=span)]


_GIVEN = ("box_volume", "box_size", "box_kind", "clamps", "nothing")
#: What goes on with such a question, and asks nothing more: "…, one and a half deep, can take".
_GOES_ON = lazy_pattern(
    r"(?:can|could|will|would|may|does) (?:it |that |one )?(?:take|hold|have|carry|handle|fit)s?"
    r"|(?:max|maximum|at (?:the )?most|in all|altogether|allowed|permitted)"
)
_IN_A = lazy_pattern(r"\b(?:in|into|inside) (?:a|an|the) <n:([0-9]+(?:\.[0-9]+)?)>(?: box)?$")
_ALONE = lazy_pattern(r"\b(?:by (?:it|them)sel(?:f|ves)|alone|empty|and that is all)\b")
_NUMBERED = lazy_pattern(r"(?:#|number|of|on|for|most|many) <n:(18|16|14|12|10|8|6)>")
_SIZES = ("18", "16", "14", "12", "10", "8", "6")


def most_of(
    clause: Clause, following: Sequence[Clause], words: str, span: tuple[int, int]
) -> list[Act] | None:
    """ "The most fourteens a four square can take, if nothing else is in it": how many at most,
    given what the question names of the box. None where it asks for something else."""
    asked_behind = clause.mood == "conditional" and any(wants_most(f.line) for f in following)
    if not wants_most(clause.line) and not asked_behind:
        return None
    inside = [found for found in clause.found if found.kind in THINGS]
    there: list[Statement] = []
    if asked_behind and _CONTAINS.match(clause.line):
        there = [found for found in inside if found.kind != "conductors" or found.get("count")]
        inside = [found for found in inside if found not in there]
    later = [found for one in following for found in one.found]
    if asked_behind and not inside:
        inside = [f for f in later if f.kind == "conductors" and not f.get("count")]
        later = [found for found in later if found not in inside]
    if len(inside) > 1 or any(found.kind not in (*_GIVEN, "size") for found in later):
        return None
    thing = thing_of(inside[0]) if inside else _bare_size(clause)
    if thing is None or getattr(thing, "awg", None) is None:
        thing = next(filter(None, map(_bare_size, following)), thing)  # "…, all number 12"
    if not isinstance(thing, acts.AddConductors | acts.AddCable | None):
        return None
    if thing is not None and thing.count is not None:
        if not asks_if_most(clause.line):
            return None
        thing = replace(thing, count=None)
    named = (*clause.found, *later)
    given_kinds = (*_GIVEN, *(found.kind for found in there))
    given = [
        act
        for found in named
        if found.kind in given_kinds and found not in inside and (act := act_of(found)) is not None
    ]
    given = _one_size(given)
    if (volume := _IN_A.search(clause.line)) is not None:
        given.append(acts.SetVolume(volume=Decimal(volume[1]), words=words, span=span))
    if _ALONE.search(clause.line):
        given.append(acts.NothingElse(of="else", words=words, span=span))
    if isinstance(thing, acts.AddConductors) and thing.awg is None:
        thing = None  # "how many wires": of those that are spoken of
    thing = replace(thing, doubts=()) if thing is not None else None
    return [acts.RoomFor(thing=thing, given=tuple(given), words=words, span=span)]


def _one_size(given: list[Act]) -> list[Act]:
    """ "In a one and a half deep four inch octagon": one box, its depth said before the rest."""
    for at, (first, second) in enumerate(pairwise(given)):
        if (
            isinstance(first, acts.SetSize)
            and isinstance(second, acts.SetSize)
            and first.family is None
            and second.depth is None
        ):
            whole = replace(second, depth=first.depth, span=(first.span[0], second.span[1]))
            return [*given[:at], whole, *given[at + 2 :]]
    return given


#: "If the box contains two clamps and a stud, how many …".
_CONTAINS = lazy_pattern(
    r"(?:(?:and|but|so|now) )*(?:if|when|suppose|supposing|assuming|say) (?:also )?"
    r"(?:(?:it |there |the box )?<clamps"
    r"|(?:(?:the|this|that|my|a|such a) )?(?:box|it|<box_[^>]*>|i|we|you|there)"
    r" (?:also )?(?:contains?|has|have|holds?|is|are|have got|has got|add)\b)"
)


def goes_on(line: str) -> bool:
    """Whether a clause only goes on with such a question."""
    return _GOES_ON.fullmatch(line) is not None


def _bare_size(clause: Clause) -> acts.AddConductors | None:
    """The size in "max #12", "number tens" where no wires are named with it."""
    for found in clause.found:
        value = found.get("awg") if found.kind == "size" else found.get("value")
        if found.kind in ("size", "number") and str(value) in _SIZES:
            return acts.AddConductors(awg=int(str(value)), words=found.words, span=found.span)
    numbered = _NUMBERED.search(clause.line)
    return None if numbered is None else acts.AddConductors(awg=int(numbered[1]))
