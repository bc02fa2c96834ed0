"""Raceways of a pull box as they are pointed at: "the 3", "the big ones", "the left one", "the
other two"; and a trade size without a unit, where only one can stand."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import TypeAlias

from boxaloud.grammar import acts
from boxaloud.grammar.acts import PointRaceways
from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.lazy_patterns import lazy_pattern

Pointing: TypeAlias = tuple[PointRaceways, int]
"""What is pointed at, and where the words of it end."""

WALL = (
    r"(?:the |that |its )?(?P<wall>left|right|top|bottom|back|rear|east|west|north|south)"
    r"(?:[- ]hand)?(?: (?:side|wall|end)s?)?(?!\w|[- ](?:hand|pipe|again|now)"
    r"|[- ]one(?! (?:goes|comes|turns|runs|leaves)))"
)
WALL_NAMES: dict[str, acts.WallName] = {
    "left": "left", "right": "right", "top": "top", "bottom": "bottom", "back": "back",
    "rear": "back", "west": "left", "east": "right", "north": "top", "south": "bottom",
}  # fmt: skip
_NOUN = r"(?:one|pipe|conduit|raceway|run|entry)"
_REST = lazy_pattern(
    r"(?:the )?(?:other|remaining|rest)(?: of (?:them|those))?"
    r"(?: (?P<n>one|two|three|four|[1-4]))?"
    rf"(?: {_NOUN}s?)?(?= )"
)
_NTH = lazy_pattern(rf"the (?P<nth>first|second|last)(?: {_NOUN})?(?= )")
_BIG = lazy_pattern(
    rf"the (?:(?P<big>big(?:ger|gest)?|larg(?:er|est|e)|fat(?:ter|test)?)"
    rf"|small(?:er|est)?|little)(?: {_NOUN}(?P<several>s)?| (?:two|three|four))?(?=[ .,;!?]|$)"
)
_AT = lazy_pattern(
    rf"the (?P<wall>left|right|top|bottom|back|rear)(?:[- ]hand)?(?: (?:side|wall))? {_NOUN}"
    r"(?P<several>s)?(?= )"
)
_THE = lazy_pattern(r"(?:the|that|my|those|these) ")
_PLURALS = {"twos": 2, "threes": 3, "fours": 4, "fives": 5, "sixes": 6}
_PLURAL = lazy_pattern(r"(?P<word>twos|threes|fours|fives|sixes)\b|(?P<digit>[1-6])'?s\b")
_UNIT = lazy_pattern(
    rf"[- ]?(?:inch(?:ers?|es)?|\"|in\.)?(?: {_NOUN}(?P<several>s)?)?(?=[ .,;!?]|$)"
)
_ON = lazy_pattern(rf" (?:on|in|at|from) {WALL}")
_LARGEST = 6
#: "The other three inch": one of that size, of which nothing was told yet.
_UNIT_BEHIND = lazy_pattern(r" (?:[\w/-]+ )?(?:inch|\")|(?:inch|\")")
#: "The two go straight across": a count of them; "the two goes", a size.
_GO = lazy_pattern(
    r" (?:go|turn|leave|exit|come|run|head|enter|are|make|carry|continue|both|all)\b"
)
_NTHS: dict[str, acts.WhichRaceways] = {"first": "first", "second": "second", "last": "last"}


def named(text: str, at: int) -> Pointing | None:
    """ "The 3", "the big ones", "the left one": raceways pointed at, and nothing said of them."""
    for reader in (_rest, _nth, _big, _of_wall, _of_size):
        if (found := reader(text, at)) is not None:
            return found
    return None


def _rest(text: str, at: int) -> Pointing | None:
    """ "The other two": those of which no way out was told."""
    found = _REST.match(text, at)
    if found is None or _UNIT_BEHIND.match(text, found.end()):
        return None
    one = "other" in found[0] and "others" not in found[0] and not found["n"]
    worth = lengths.value(found["n"]) if found["n"] else None
    count = int(worth) if worth is not None else 1 if one else None
    return PointRaceways(which="rest", count=count), found.end()


def _nth(text: str, at: int) -> Pointing | None:
    found = _NTH.match(text, at)
    if found is None:
        return None
    return PointRaceways(which=_NTHS[found["nth"]], single=True), found.end()


def _big(text: str, at: int) -> Pointing | None:
    found = _BIG.match(text, at)
    if found is None:
        return None
    single = True if not found["several"] and found[0].endswith("e") else None
    which: acts.WhichRaceways = "largest" if found["big"] else "smallest"
    return PointRaceways(which=which, single=single), found.end()


def _of_wall(text: str, at: int) -> Pointing | None:
    found = _AT.match(text, at)
    if found is None:
        return None
    single = None if found["several"] else True
    return PointRaceways(at=WALL_NAMES[found["wall"]], single=single), found.end()


def _of_size(text: str, at: int) -> Pointing | None:
    """ "The 3", "the threes", "the two inch ones", "the 2 on the left"."""
    the = _THE.match(text, at)
    if the is None:
        return None
    if (many := _PLURAL.match(text, the.end())) is not None:
        worth = _PLURALS.get(many["word"] or "") or int(many["digit"] or 0)
        return _at_wall(text, PointRaceways(of_size=Decimal(worth)), many.end())
    for size, end, inch in sorted(lengths.sizes(text, the.end()), key=_reach, reverse=True):
        unit = _UNIT.match(text, end)
        if unit is None or size > _LARGEST:
            continue
        bare = not inch and unit[0] == ""
        if bare and size == int(size) and _counts(text, unit.end()):
            return PointRaceways(count=int(size)), unit.end()
        single = None if unit["several"] else True
        return _at_wall(text, PointRaceways(of_size=size, single=single), unit.end())
    return None


def _counts(text: str, at: int) -> bool:
    return _GO.match(text, at) is not None


def _reach(one: tuple[Decimal, int, bool]) -> int:
    return one[1]


def _at_wall(text: str, act: PointRaceways, end: int) -> Pointing:
    found = _ON.match(text, end)
    if found is None:
        return act, end
    return replace(act, at=WALL_NAMES[found["wall"]]), found.end()


def trade_size(text: str, at: int) -> tuple[Decimal, int] | None:
    """A trade size that ends what is said: "three inch", "3s", "a two and a half"."""
    if (many := _PLURAL.match(text, at)) is not None:
        return Decimal(_PLURALS.get(many["word"] or "") or int(many["digit"] or 0)), many.end()
    for size, end, _ in sorted(lengths.sizes(text, at), key=_reach, reverse=True):
        unit = _UNIT.match(text, end)
        if unit is not None and size <= _LARGEST:
            return size, unit.end()
    return None
