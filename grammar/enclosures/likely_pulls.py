"""What shows a pull box by raceways and their walls, where nobody said the words."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Utterance
from boxaloud.grammar.enclosures.enclosure_words import shows, words
from boxaloud.grammar.enclosures.pieces import scan
from boxaloud.grammar.enclosures.pull_piece import Piece

#: Raceways of this trade size and larger are pulled full of 4 AWG and larger, common practice.
_LARGE = Decimal("1.25")
#: The largest conductor that the Table of 314.16(B)(1) gives a volume to.
_COUNTED = 6
#: What is of a box counted by volume no more than of a pull box.
_BARE = (acts.Number, acts.Yes, acts.No, acts.Place, acts.OtherTalk, acts.Social)


def shows_large(text: str) -> bool:
    """Whether words without which nothing is likely to be a pull box stand in a text."""
    return bool(shows("likely_large").search(text) or shows("likely").search(text))


def is_likely(text: str) -> bool:
    """Whether raceways or cables are told with their walls, as of a box of large conductors."""
    return shows_large(text) and likely(text, scan(text))


def likely(text: str, pieces: Sequence[Piece]) -> bool:
    """Whether raceways stand with their walls or a kind of pull, as in a box of large conductors.

    Args:
        text: what was said, in lower case.
        pieces: the pieces of it.
    """
    sizes = [item.size for piece in pieces for item in piece.items if item.size is not None]
    large = max(sizes, default=Decimal(0)) >= _LARGE and shows("likely_large").search(text)
    if not large and not shows("likely").search(text):
        return False
    sorts = {piece.sort for piece in pieces}
    placed = sorts & {"kind", "wall", "wall_to"}
    ways = ("each_returns", "opposite", "adjacent") if large else ("each_returns",)
    ends = {piece.value for piece in pieces if piece.sort == "end"}
    through = bool(large) and {"in", "out"} <= ends
    returns = through or any(piece.value in ways for piece in pieces)
    splice_box = words("splicebox").search(text) is not None
    return "items" in sorts and bool(placed or returns or splice_box)


def counted_by_volume(named: bool, pieces: Sequence[Piece], other: Utterance) -> bool:
    """Whether all of it is of a box that is counted by volume, 314.16: of one called a pull box
    only where no raceway is told and its conductors are 6 AWG and smaller, 314.28(A).

    Args:
        named: whether it was called a pull box.
        pieces: the pieces of what was said.
        other: how it is read where it is of no pull box.
    """
    if other.weighty or all(isinstance(act, _BARE) for act in other.acts):
        return False  # "no, the first one comes in the back": its "no" alone is of no box
    if any(piece.sort == "pointed" or any(not i.cable for i in piece.items) for piece in pieces):
        return False
    wires = [act for act in other.acts if isinstance(act, acts.AddConductors)]
    small = bool(wires) and all(one.awg is not None and one.awg >= _COUNTED for one in wires)
    return not named or (small and all(piece.sort != "items" for piece in pieces))
