"""Pieces of an utterance that its speaker says are no concern of the box at hand."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.whereabouts_rows import disowned, here, words_of

#: "A metal one": what sort it is, and of what the piece before it says.
_KIND = lazy_pattern(r"(?:an?|the) (?:[a-z]+ ){1,2}(?:one|box|kind|job)")


def disowned_of(pieces: Sequence[str]) -> frozenset[int]:
    """Which pieces are disowned, each in its plain words: by themselves, "there's a GFCI two studs
    over that has nothing to do with us"; by the piece behind, "the 14-3 goes in the box by the
    door, not in this one"; or put off where they are in another place, "behind the washer there's
    a receptacle, that's another day's work"."""
    found: set[int] = set()
    for place, words in enumerate(pieces):
        if _within(words):
            found.add(place)
        elif place > 1 and _comes_from_elsewhere(words, pieces[place - 1], pieces[place - 2]):
            found |= {place - 2, place - 1, place}
        elif place and _points_back(words, pieces[place - 1]):
            found |= {place - 1, place}
        elif disowned("put_off").match(words):
            found |= _put_off(pieces, place)
    return frozenset(found)


def _put_off(pieces: Sequence[str], last: int) -> set[int]:
    """The pieces up to one that puts off what they tell: those in a row that are in other places,
    unless what else is said describes a box, of which they may be."""
    first = last
    while first and (_placed(pieces[first - 1]) or _KIND.fullmatch(pieces[first - 1])):
        first -= 1
    while first < last and not _placed(pieces[first]):
        first += 1
    others = (*pieces[:first], *pieces[last + 1 :])
    if first == last or any(words_of("describes").search(words) for words in others):
        return set()
    return set(range(first, last + 1))


def _points_back(words: str, before: str) -> bool:
    """Whether a piece disowns the one before it."""
    if disowned("not_here").match(words):
        said = disowned("somewhere").search(before)
    else:
        said = disowned("behind").match(words)
    return said is not None and _may_be(before)


def _comes_from_elsewhere(words: str, source: str, thing: str) -> bool:
    """ "The bath gets a 14-3, but that comes off the box by the door, not from here"."""
    said = disowned("from_here").match(words) and disowned("comes_from").match(source)
    return said is not None and _may_be(thing)


def _may_be(words: str) -> bool:
    return disowned("kept").search(words) is None and not _here(words)


def _within(words: str) -> bool:
    said = disowned("within").match(words) or disowned("within_cleft").match(words)
    return said is not None and _may_be(said["thing"])


def _placed(words: str) -> bool:
    return disowned("placed").match(words) is not None and not _here(words)


def _here(words: str) -> bool:
    return here("say").search(words) is not None
