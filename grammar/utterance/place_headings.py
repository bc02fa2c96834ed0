"""A box called by where it is, at the head of what is in it: "high box by the door: …"."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern

_LEAD = r"(?:(?:ok|okay|so|now|and|then|next|well|alright),? )*(?:the |my |our )?"
_SIDE = (
    r"(?:(?:low|high|lower|upper|left|right|top|bottom|front|back|middle|far|near|first|second"
    r"|third|inside|outside|old|little|big) )?"
)
_AT = (
    r"(?:(?:(?:to|on|at) the )?(?:left|right|top|bottom|front|back|far (?:side|end))"
    r"(?: hand)?(?: side)? of|(?:just |right )?(?:by|near|behind|over|under|above|below|beside"
    r"|next to|across from|between))"
)
_PLACE = (
    rf"(?P<side>{_SIDE})box,? (?P<at>{_AT} (?:the |my |our |her |his )?[a-z]+"
    r"(?: (?!is\b|has\b|gets\b|it\b|was\b)[a-z]+)?)"
)
#: "The box right of the range is the same thing: …": what is the same is told behind it.
_SAME = (
    r"(?: (?:is|has|gets)(?: (?:just|exactly|about|pretty much))? the same"
    r"(?: (?:thing|things|way|stuff|again|story))?)?"
)
_HEADING = lazy_pattern(rf"(?i){_LEAD}{_PLACE}{_SAME}")
#: "The box over the mirror is an octagon, …, with two 14-2s": what it is, and what is in it.
_WHAT_IT_IS = lazy_pattern(rf"(?i){_LEAD}{_PLACE}(?= is (?:an?|the) )")
#: "Third is the one over the toilet, an 18 …": by its number, and by where it is.
_NUMBERED = lazy_pattern(
    rf"(?i){_LEAD}(?:second|third|fourth|fifth|sixth|last|next)(?: one| box)?(?: is|'s|,) "
    rf"the (?:one|box) (?P<at>{_AT} (?:the |my |our |her |his )?[a-z]+(?: [a-z]+)?)"
)
#: "Left of the range I've an 18 without clamps, and two 12-2s …": a box that is told whole.
_STANDS = lazy_pattern(
    rf"(?i){_LEAD}(?:(?:on|at) the wall )?(?P<at>{_AT} (?:the |my |our |her |his )?[a-z]+)"
    r"(?=,? (?:i|we|there)(?:['’](?:ve|s)| have| has| is| are| got)\b)"
)
_ITS_VOLUME = lazy_pattern(
    r"(?i)\ban? (?:[1-6]\d(?:\.\d+)?|sixteen|eighteen|twenty(?:[- ][a-z]+)?)"
    r"(?: cubic inch(?:es)?)?(?: box)?,? (?:without|with|no|that has) (?:any |no |the )?clamps?\b"
)
_HELD = ("cable", "conductors")


def heads_by_place(clause: Clause, following: Sequence[Clause], heard: str) -> str:
    """The name of the box that begins with a clause, by where it is; empty where none does.

    Only before what is in it: "the box by the door: clamps inside" may be the box at hand.
    """
    if not any(one.kind in _HELD for part in following for one in part.found):
        return ""
    words = " ".join(heard[slice(*clause.span)].split()).strip(" .:,")
    if clause.closes in (":", ",", ".") and (numbered := _NUMBERED.fullmatch(words)):
        return numbered["at"].lower()
    said = _HEADING.fullmatch(words) if clause.closes == ":" else None
    return "" if said is None else " ".join(f"{said['side']}{said['at']}".lower().split())


def told_by_place(parts: Sequence[Clause], place: int, heard: str) -> tuple[str, int] | None:
    """The name of the box that is told by where it is, what it is and what is in it, and where
    the name ends; None where the box at hand may be meant."""
    clause = parts[place]
    kinds = {one.kind for part in parts[place:] for one in part.found}
    if not kinds.intersection(_HELD):
        return None
    rest = heard[clause.span[0] :]
    if (stands := _STANDS.match(rest)) is not None and _ITS_VOLUME.search(rest):
        return stands["at"].lower(), clause.span[0] + stands.end()
    said = _WHAT_IT_IS.match(rest)
    if said is None or not any(kind.startswith("box_") for kind in kinds):
        return None
    return " ".join(f"{said['side']}{said['at']}".lower().split()), clause.span[0] + said.end()
