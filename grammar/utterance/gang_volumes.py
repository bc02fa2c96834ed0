"""A bare number said of a box that is called by its gangs: "the two gang in the mudroom is 32",
"this two gang. It's thirty-five"."""

from __future__ import annotations

import re
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers

_LEAST, _MOST = 15, 100
"""Cubic inches that a box of gangs may be marked with; 14 may as well be the size of its wires."""
_IT = lazy_pattern(
    r"(?i)[ .,;:!]*(?:and |so |now |ok(?:ay)?,? |well,? )?(?:it|that|this|that one|this one)"
    r"(?:['’]?s| is| says| reads)(?: only| just| actually)?(?: an?)? $"
)
_ITS = lazy_pattern(
    r"(?i)(?:it|that|this|that one|this one)(?:['’]?s| is| says| reads)(?: only| just| actually)?"
    r"(?: an?)? "
)
#: "The two gang in the mudroom is 32".
_IS = lazy_pattern(
    r"(?i)(?: box)?(?: (?:up |down |over |out )?(?:in|by|at|on|near|behind|over|under|outside"
    r"|beside|next to) (?:the |my |this |our )?[a-z]+(?: [a-z]+)?)? (?:is|says|reads|was)"
    r"(?: only| just)?(?: an?)? (?P<number>[a-z0-9.-]+(?: [a-z]+)?)(?: one)?(?=\s*(?:[.,;!]|$))"
)
_GANG = lazy_pattern(r"(?i)\bgang")


def volume_of_gangs(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The number is the volume of that box, where none is said of it otherwise."""
    if any(isinstance(act, (acts.SetVolume, acts.SetSize)) for act in made):
        return made
    kept: list[Act] = []
    for place, act in enumerate(made):
        last = made[place - 1] if place else None
        if last is not None and _called_by_gangs(last) and _said_of_it(last, act, heard):
            value = act.value if isinstance(act, (acts.Number, acts.RestateNumber)) else None
            kept.append(acts.SetVolume(volume=value, words=act.words, span=act.span))
            continue
        kept.append(act)
        if _called_by_gangs(act) and (volume := _unread_volume(act, heard, left)) is not None:
            kept.append(volume)
    return kept


def _called_by_gangs(act: Act) -> bool:
    """Whether an act names a box by its gangs."""
    if isinstance(act, acts.NextBox):
        return _GANG.search(act.name) is not None
    return isinstance(act, acts.NameBoxKind) and act.gangs is not None


def _said_of_it(last: Act, act: Act, heard: str) -> bool:
    """ "It's thirty-five", right behind the box: whether a number is said of it."""
    value = act.value if isinstance(act, (acts.Number, acts.RestateNumber)) else None
    if value is None or not _LEAST <= value <= _MOST:
        return False
    between = heard[last.span[1] : act.span[0]]
    if _ITS.match(act.words):
        return not between.strip(" .,;:!")
    return _IT.fullmatch(between) is not None


def _unread_volume(act: Act, heard: str, left: list[Unread]) -> acts.SetVolume | None:
    """The number that a box "is", which nothing was made of."""
    found = _IS.match(heard, act.span[1])
    if found is None or not any(
        found.start("number") <= run.span[0] < found.end("number") for run in left
    ):
        return None
    said = found["number"].lower().rstrip(".")
    value = numbers.value(tuple(re.findall(r"\d+(?:\.\d+)?|[a-z]+", said)))
    if value is None or not _LEAST <= value <= _MOST:
        return None
    span = (found.start("number"), found.start("number") + len(said))
    left[:] = [run for run in left if not span[0] <= run.span[0] < found.end("number")]
    return acts.SetVolume(volume=Decimal(value), words=heard[slice(*span)], span=span)
