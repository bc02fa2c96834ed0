"""Raceways told together and then wall by wall: "two 3 inch, one in the side and one in the back".

Where the shares come to as many as were told, each is so many raceways of that size. Where they do
not, the words are left unread, and weigh.
"""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.enclosures.pull_piece import Piece, Raceways
from boxaloud.grammar.lazy_patterns import lazy_pattern

_SHARE = lazy_pattern(
    r"(?:and )?(?P<n>one|two|three|four|[1-4]|the (?:other|second)(?: one)?|another(?: one)?)"
    r"(?: of (?:them|these|those|the two))?"
    r"(?=,? (?:is |are |enter|com(?:e|ing)|go(?:es|ing)?\b|in(?:to)?\b|on |at |by |through "
    r"|from |out\b|leav|exit))"
)
_BETWEEN = frozenset({"silent", "join", "break"})


def share(text: str, at: int, lone: bool) -> Piece | None:
    """ "One in", "the other comes in": how many of the raceways enter the wall that follows."""
    found = _SHARE.match(text, at)
    if found is None:
        return None
    worth = lengths.value(found["n"])
    return Piece("share", at, found.end(), number=int(worth) if worth is not None else 0)


def with_shares(pieces: list[Piece]) -> list[Piece]:
    """The pieces with each share as the raceways that it stands for."""
    places = [at for at, piece in enumerate(pieces) if piece.sort == "share"]
    if not places:
        return pieces
    whole = _whole(pieces[: places[0]])
    counts = _counts(whole, [pieces[at].number for at in places]) if whole is not None else None
    if whole is None or counts is None:
        return [replace(p, sort="unread") if p.sort == "share" else p for p in pieces]
    made = [replace(p, sort="silent") if p.items is whole else p for p in pieces]
    for at, count in zip(places, counts, strict=True):
        one = (replace(whole[0], count=count),)
        made[at] = replace(pieces[at], sort="items", number=0, items=one)
    return made


def _whole(before: list[Piece]) -> tuple[Raceways, ...] | None:
    """The raceways that are shared out: told last, of one size, no wall said of them yet."""
    at = max((at for at, piece in enumerate(before) if piece.sort == "items"), default=None)
    if at is None or len(before[at].items) != 1 or before[at].items[0].size is None:
        return None
    behind = before[at + 1 :]
    told = any(p.sort not in _BETWEEN and p.value not in ("name", "asking") for p in behind)
    return None if told else before[at].items


def _counts(whole: tuple[Raceways, ...], shares: list[int]) -> list[int] | None:
    """How many each share is, "the other" as many as are left; None where they do not add up."""
    count = whole[0].count
    if count is None or shares.count(0) > 1 or sum(shares) + shares.count(0) > count:
        return None
    found = [number or count - sum(shares) for number in shares]
    return found if sum(found) == count else None
