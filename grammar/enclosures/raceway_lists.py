"""Lists of raceways by trade size: "two 3 inch and a 2 inch", "four, three and two inch"."""

from __future__ import annotations

import re
from decimal import Decimal
from functools import cache, lru_cache
from typing import TypeAlias

from boxaloud.grammar import grammar_data
from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.enclosures.enclosure_words import words
from boxaloud.grammar.enclosures.pull_piece import Piece, Raceways
from boxaloud.grammar.lazy_patterns import lazy_pattern

#: No raceway is larger, inches: a number by itself above it is none.
_LARGEST = 6
#: No list of raceways without a unit of their own is longer.
_DEEPEST = 16
_SOME = lazy_pattern(r"(?:a |an )?(?P<n>pair|couple)(?: of)? ")
_TRADE = lazy_pattern(r"(?:trade )?sizes? ")
_DESIGNATOR = lazy_pattern(r"(?:metric )?designators? (?P<n>\d+)\b|(?P<mm>\d+) ?mm\b")
_UNIT = lazy_pattern(
    r"[ -]?(?:inch(?:es|ers?)?(?!\w)|\"|''|(?P<short>in\.?)(?!\w)"
    r"(?! (?:the|a|an|one|row|left|right|top|bottom|back|each|both)\b))"
)
_BEHIND_COUNT = lazy_pattern(
    r"\)?(?: ?(?:x|×|@|ea\.?|each) | (?:(?:runs?|pipes?|conduits?|raceways?|lines?|sticks?) of )?)"
    r"(?:(?:of (?:the |those |them )?(?:pipes?|conduits?|raceways?|runs|ones)? ?)?"
    r"(?:is|are) (?:an? )?|of (?:the |those )?)?"
)
#: "3 x 2 inch", and "3x2\"" with a wall or a raceway behind it: so many of that size, and no box.
TIMES = lazy_pattern(
    r"(?P<n>\d{1,2})(?: ?x (?=\S)| ?[x×] ?(?=(?:\d[- ]?1/[24]|\d|1/2|3/4) ?(?:\"|inch|in\.)(?:es)?"
    r",? (?:in|out|on|at|from|into|to|conduits?|pipes?|raceways?|emts?|rigid|pvc|each)\b))"
)
#: "Two more threes", "two threes in the top": raceways by their size alone.
_MORE = lazy_pattern(
    r"(?:more )(?P<size>twos|threes|fours|fives|sixes)\b"
    r"|(?P<named>twos|threes|fours|fives|sixes)(?= (?:in|on|at|out|from|to|into) (?:the )?"
    r"(?:left|right|top|bottom|back)\b)"
)
_BY_NAME = {"twos": 2, "threes": 3, "fours": 4, "fives": 5, "sixes": 6}
_MIXED_BEHIND = lazy_pattern(
    r"(?: (?P<kind>(?:emt|rigid|imc|rmc|pvc|conduits?|pipes?|raceways?)(?!\w))"
    r"| (?=(?:(?:on|in|at|into|out|from|to)(?: of)? )?(?:the |each |both |either |one )"
    r"?(?:left|right|top|bottom|back|end|side|wall|ends|sides)\b))"
)
_PLURAL = lazy_pattern(r"(?:conduit|raceway|pipe|nipple|cable|hub)s$|(?:entries|emts)$")
_PART_BEHIND = lazy_pattern(r"[ -]?inch(?:es)? and (?:an? )?(?:half|quarter)(?!\w)(?! inch)")


@cache
def _designators() -> dict[str, str]:
    found: dict[str, str] = grammar_data.table("enclosures")["designator"]
    return found


def raceways(text: str, at: int, lone: bool) -> Piece | None:
    """A list of raceways: "two 3 inch and a 2 inch", "four, three and two inch conduits"."""
    start = at
    made: list[Raceways] = []
    end, said = at, False
    while (found := _item(text, at, lone)) is not None:
        item, end, said = found
        made += item
        joined = _joined(text, end)
        if joined is None:
            break
        at = joined
    if len(made) == 1 and not said and made[0].count is None and _PLURAL.search(text[start:end]):
        made = [Raceways(None, made[0].size, several=True)]
    return Piece("items", start, end, items=tuple(made)) if made else None


def _joined(text: str, at: int) -> int | None:
    """Where the next of a list begins; None where the list ends here."""
    found = re.compile(r"\s*").match(text, at)
    at = found.end() if found else at
    sign = words("joiner").match(text, at)
    if sign is None:
        return None
    gap = re.compile(r"\s*").match(text, sign.end())
    return gap.end() if gap else sign.end()


_Item: TypeAlias = tuple[list[Raceways], int, bool]


@lru_cache(maxsize=4096)
def _item(text: str, at: int, lone: bool, depth: int = 0) -> _Item | None:
    """Raceways that begin here, where they end, and whether a count or an article was said."""
    at, article = _article(text, at)
    for counted in (False, True):
        count, place = None, at
        if counted:
            number = _count(text, at)
            if number is None:
                return None
            count, place = number
        for size, end, has_inch in _sizes(text, place):
            if count is not None and count > 1 and text.startswith("inch and", place):
                continue  # "two inch and a half": two and a half, or two of them?
            if (closed := _closed(text, end, has_inch) or _mixed(text, size, end)) is not None:
                return [Raceways(count, size)], closed, article or counted
            rest = _elliptic(text, end, article or counted, counted, depth)
            if rest is not None:
                return [Raceways(count, size), *rest[0]], rest[1], article or counted
            if lone and size <= _LARGEST and _alone(text, end):
                return [Raceways(count, size)], end, article or counted
        if counted and (named := _MORE.match(text, place)) is not None:
            return (
                [Raceways(count, Decimal(_BY_NAME[named["size"] or named["named"]]))],
                named.end(),
                True,
            )
        if counted and (noun := words("noun").match(text, place)) is not None:
            return [Raceways(count, None)], noun.end(), True
    return None


def _article(text: str, at: int) -> tuple[int, bool]:
    found = re.compile(
        r"(?:an?|one more|(?:a )?single|the other (?:one |conduit |pipe |raceway )?is(?: an?)?"
        r"|the|just|only|another) "
    ).match(text, at)
    if found is None or text.startswith("an inch", at):
        return at, False
    return found.end(), found[0] not in ("one more ", "the ", "just ", "only ")


def _count(text: str, at: int) -> tuple[int, int] | None:
    some = _SOME.match(text, at)
    if some is not None:
        return 2, some.end()
    if (times := TIMES.match(text, at)) is not None:
        return int(times["n"]), times.end()
    opened = re.compile(r"\(?(?:qty\.? |quantity )?").match(text, at)
    number = lengths.whole(text, opened.end() if opened else at)
    if number is None:
        return None
    count, end = number
    after = _BEHIND_COUNT.match(text, end)
    return None if after is None else (count, after.end())


def _sizes(text: str, at: int) -> list[tuple[Decimal, int, bool]]:
    if (found := _DESIGNATOR.match(text, at)) is not None:
        size = _designators().get(found["n"] or found["mm"])
        return [] if size is None else [(Decimal(size), found.end(), True)]
    trade = _TRADE.match(text, at)
    place = trade.end() if trade else at
    made = [
        (size, end, inch or trade is not None) for size, end, inch in lengths.sizes(text, place)
    ]
    return [one for one in made if not _two_ways(text, place, one)]


def _two_ways(text: str, at: int, read: tuple[Decimal, int, bool]) -> bool:
    """ "two 1/2 inch" is two halves or two and a half, "three inch and a half" three and a half or
    three of one and a half: nobody can tell."""
    said = text[at : read[1]]
    before = text[:at].rstrip().rsplit(" ", 1)[-1]
    if said.startswith("inch and"):
        return before != "one" and lengths.whole(before, 0) is not None if before else False
    return said in ("1/2", "1/4", "½", "¼") and before in ("one", "two", "three", "1", "2", "3")


def _closed(text: str, end: int, has_inch: bool) -> int | None:
    """Where raceways end: behind the unit and the noun; None where there is no unit."""
    place = end
    if not has_inch and _PART_BEHIND.match(text, end):
        return None  # "three inch and a half": three and a half, or three of them?
    if not has_inch:
        unit = _UNIT.match(text, end)
        if unit is None or (
            unit["short"] and not (text[end - 1].isdigit() or text[end - 1] in "½¼¾")
        ):
            return None
        place = unit.end()
    while (noun := re.compile(r"[ -]*").match(text, place)) and (
        name := words("noun").match(text, noun.end())
    ):
        place = name.end()
    times = re.compile(r" ?(?:x|×) ?(\d+)\b").match(text, place)
    return place if times is None else None


_TOO_LARGE = 6
"""Inches that no raceway of whole inches and a part has, Chapter 9, Table 4."""


def _mixed(text: str, size: Decimal, end: int) -> int | None:
    """ "A 2-1/2 on each end", "two and a half EMT": whole inches and a part can only be a trade
    size where a wall or a raceway stands behind. Where they end; None where nothing does."""
    if not 1 < size < _TOO_LARGE or size == int(size):
        return None  # "20.3 in the back of the box" is a volume
    found = _MIXED_BEHIND.match(text, end)
    return None if found is None else found.end("kind") if found["kind"] else end


def _elliptic(
    text: str, end: int, said: bool, counted: bool, depth: int
) -> tuple[list[Raceways], int] | None:
    """The rest of a list whose first has no unit of its own: "four, three and two inch".

    A number without a count before one with a count could itself be a count, and so could a
    counted one before a bare one: those are left unread.
    """
    at = _joined(text, end)
    if at is None:
        return None
    rest = _item(text, at, False, depth + 1) if depth < _DEEPEST else None
    if rest is None or rest[0][0].size is None:
        return None
    items, closed, rest_said = rest
    if counted and not rest_said:
        return None
    if not said and rest_said:
        return None
    return items, closed


def _alone(text: str, end: int) -> bool:
    return not text[end:].strip(" .!") or _joined(text, end) is not None
