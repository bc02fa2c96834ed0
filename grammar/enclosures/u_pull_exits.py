"""Raceways that the conductors of a U pull leave by: "…, and they leave by another 2 inch"."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar.enclosures.pull_piece import Piece
from boxaloud.grammar.lazy_patterns import lazy_pattern

#: "They leave by another", "goes back out through a second": a raceway of its own behind it.
_LEAVES_BY = lazy_pattern(
    r"\b(?:leav(?:e|es|ing)|exit(?:s|ing)?|(?:go|goes|going|come|comes|coming|run|runs)"
    r"(?: right| straight)?(?: back)? out)(?: again)? (?:by|through|in|via|on) $"
)
_ANOTHER = lazy_pattern(r"(?:another|a second|a different|its own|the other)\b")


def left_by_another(text: str, pieces: Sequence[Piece]) -> Piece | None:
    """The raceway that the conductors of a U pull leave by, where two of one size are told.

    Nothing comes back out of the first then, and both are all entries of the pull.
    """
    told = [piece for piece in pieces if piece.sort == "items"]
    if len(told) != 2 or any(len(piece.items) != 1 for piece in told):
        return None
    if not any(piece.value == "u" for piece in pieces):
        return None
    (one,), (other,) = told[0].items, told[1].items
    if one.size != other.size or one.several or other.several:
        return None
    if not {one.count, other.count} <= {None, 1}:
        return None
    led = _LEAVES_BY.search(text[: told[1].start]) is not None
    return told[1] if led and _ANOTHER.match(text, told[1].start) is not None else None
