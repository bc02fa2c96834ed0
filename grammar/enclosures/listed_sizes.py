"""Raceways counted first and sized behind: "four conduits on the left: a three, two twos, a one".

The sizes have no unit of their own there; that so many raceways were counted, and that there are
so many sizes, tells what they are. Where the two do not agree, the numbers are left unread, and
weigh.
"""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.enclosures.pull_piece import Piece, Raceways
from boxaloud.grammar.lazy_patterns import lazy_pattern

_LARGEST = 6
"""No raceway is larger, inches."""
_BETWEEN = frozenset({"wall", "silent", "join", "end", "row"})
_HEADS = frozenset({":", ",", "-", "--", "("})
_JOINED = lazy_pattern(r" ?(?:,? and |, ?| & | plus | (?=an? \w))")
_COUNT = lazy_pattern(r"(?:(?P<n>one|two|three|four|five|six|[1-6]) (?=\S)|(?P<a>an? ))")
_PLURALS = {"ones": 1, "twos": 2, "threes": 3, "fours": 4, "fives": 5, "sixes": 6}
_PLURAL = lazy_pattern(r"(?P<word>ones|twos|threes|fours|fives|sixes)\b|(?P<digit>[1-6])'?s\b")
_UNIT = lazy_pattern(r"[- ]?(?:inch(?:es)?|\"|in\.)?(?![\w/])")
_ARTICLE = lazy_pattern(r"an? (?=\w)")
_ENDS = lazy_pattern(r"\s*(?:[.;)?!]|$|,? and (?:the|they|those|it)\b)")
_HAS = lazy_pattern(r" (?:has|gets|takes|holds|have|get)(?: got)?(?: just| only)? ")


def with_lists(text: str, pieces: list[Piece]) -> list[Piece]:
    """The pieces with each list of sizes as the raceways that were counted before it."""
    for at, piece in enumerate(pieces):
        if piece.sort == "wall" and (held := _held(text, piece)) is not None:
            items = Piece("items", held[1], held[2], items=tuple(held[0]))
            behind = [one for one in pieces[at + 1 :] if one.start >= held[2]]
            return [*pieces[: at + 1], items, *with_lists(text, behind)]
        counted = _counted(piece)
        if counted is None:
            continue
        head = next((i for i in range(at + 1, len(pieces)) if not _passed(pieces[i])), None)
        if head is None or (pieces[head].sort == "break" and pieces[head].value not in _HEADS):
            continue
        found = _behind(text, pieces, at, head)
        if found is None or counted not in (0, sum(one.count or 1 for one in found[0])):
            continue
        items = replace(piece, items=tuple(found[0]))
        behind = [one for one in pieces[head:] if one.start >= found[1]]
        return [*pieces[:at], items, *pieces[at + 1 : head], *behind]
    return pieces


def _behind(
    text: str, pieces: list[Piece], at: int, head: int
) -> tuple[list[Raceways], int] | None:
    """The sizes behind a break; heard without one, behind the article of the first."""
    if pieces[head].sort == "break":
        return _sizes(text, pieces[head].end)
    first = next((one for one in pieces[at + 1 : head] if _ARTICLE.match(text, one.start)), None)
    return None if first is None else _sizes(text, first.start)


def _held(text: str, wall: Piece) -> tuple[list[Raceways], int, int] | None:
    """ "Top has a 2 and a 3": sizes behind a wall that has them, and their places."""
    has = _HAS.match(text, wall.end)
    found = _sizes(text, has.end()) if has else None
    return None if has is None or found is None else (found[0], has.end(), found[1])


def _passed(piece: Piece) -> bool:
    return piece.sort in _BETWEEN


def _counted(piece: Piece) -> int | None:
    """How many raceways without a size were counted, 0 where nobody said; None for others."""
    if piece.sort != "items" or len(piece.items) != 1:
        return None
    (one,) = piece.items
    if one.size is not None or one.cable:
        return None
    return one.count or 0


def _sizes(text: str, at: int) -> tuple[list[Raceways], int] | None:
    """Sizes one behind the other, to the end of the sentence; None where anything else stands."""
    made: list[Raceways] = []
    gap = re.compile(r"\s*").match(text, at)
    place = gap.end() if gap else at
    while (found := _one(text, place)) is not None:
        made.append(found[0])
        place = found[1]
        if _ENDS.match(text, place):
            return (made, place) if len(made) > 1 else None
        joined = _JOINED.match(text, place)
        if joined is None:
            return None
        place = joined.end()
    return None


def _one(text: str, at: int) -> tuple[Raceways, int] | None:
    counted = _COUNT.match(text, at)
    if counted is not None and (many := _PLURAL.match(text, counted.end())) is not None:
        size = _PLURALS.get(many["word"] or "") or int(many["digit"] or 0)
        return Raceways(_many(counted), Decimal(size)), many.end()
    if counted is not None and (found := _size(text, counted.end())) is not None:
        return Raceways(_many(counted), found[0]), found[1]
    bare = _size(text, at)
    return None if bare is None else (Raceways(1, bare[0]), bare[1])


def _many(counted: re.Match[str]) -> int:
    worth = lengths.value(counted["n"]) if counted["n"] else None
    return int(worth) if worth is not None else 1


def _size(text: str, at: int) -> tuple[Decimal, int] | None:
    options = sorted(lengths.sizes(text, at), key=_reach, reverse=True)
    for size, end, _ in options:
        unit = _UNIT.match(text, end)
        if unit is not None and size <= _LARGEST:
            return size, unit.end()
    return None


def _reach(one: tuple[Decimal, int, bool]) -> int:
    return one[1]
