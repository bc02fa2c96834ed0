"""Walls that a question of a pull box names: "how far across", "from the side to the far wall".

They say what distance is asked for, and nothing of where a raceway enters.
"""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar.enclosures.bare_answers import SILENT_DETAILS
from boxaloud.grammar.enclosures.pull_piece import Piece
from boxaloud.grammar.lazy_patterns import lazy_pattern

_SILENT = frozenset({"silent", "break", "join"})
_PLACES = frozenset({"opposite", "adjacent", "back", "opposite_cover", "opposite_removable"})
_ASKED = lazy_pattern(
    r"\b(?:how|what|which|min(?:imum)?|least|smallest|shortest|distance|spacing|length|size|width"
    r"|depth|height|far|determine|find|need|required)\b"
)
_MEASURED = lazy_pattern(r"(?:to|from|across)\b")
_EACH_WAY = lazy_pattern(r"(?:each way|both ways)")
_LED = lazy_pattern(r"(?:^|.*\s)(?:to|from|between)(?: the| that| its| a)?\s*$")


def told_of(text: str, clause: Sequence[Piece]) -> list[Piece]:
    """The pieces of a clause without the walls between which a distance is asked for.

    A clause that says anything else, such as a raceway or a kind of pull, is left as it is.
    """
    kept = [piece for piece in clause if not _measured(text, piece)]
    asking = any(_asks(text, piece) for piece in clause)
    plain = all(piece.sort in _SILENT or piece.value in SILENT_DETAILS for piece in kept)
    return kept if asking and plain else list(clause)


def _asks(text: str, piece: Piece) -> bool:
    """A piece that asks for a distance; "the biggest pipe" asks for none."""
    asking = piece.value == "asking"
    return asking and _ASKED.search(text, piece.start, piece.end) is not None


def _measured(text: str, piece: Piece) -> bool:
    """ "Across", "to the opposite wall", "from the side": a place between which is measured."""
    if _EACH_WAY.fullmatch(text, piece.start, piece.end) is not None:
        return True  # "how big each way": the sides of the box
    if piece.sort not in ("wall", "wall_to", "end") and piece.value not in _PLACES:
        return False
    if _MEASURED.match(text, piece.start):
        return True
    return _LED.match(text[max(0, piece.start - 16) : piece.start]) is not None
