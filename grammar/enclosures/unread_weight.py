"""Whether words of a pull box that became nothing hold its dimension back.

A number, a size, a wall, a kind of pull or a cover may be in them, and a raceway that is left out
makes the box too small.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from boxaloud.grammar import grammar_data
from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.enclosures.enclosure_words import words
from boxaloud.grammar.enclosures.pull_piece import Piece
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases import vocabulary

_PREPOSITION = lazy_pattern(
    r"(?:^|\b(?:in|for|at|near|by|behind|from|to|under|over|called|feeding) "
    r"(?:the |a |an |my |our )?)$"
)
#: "A brace of 1 inch", "(blank) 2 inch", "a blank inch": what stands before it may be a count or
#: a size.
_COUNTED = lazy_pattern(
    r"[)']*(?: ?[\"”]|[ -]?in(?:ch|ches)?\b| (?:an? )?(?:[0-9]"
    r"|(?:of|half|quarter|one|two|three|four|five|six|seven|eight|ten|twelve)\b))"
)
#: "Trade size blank", "an inch and a blank": what stands behind it may be a size.
_SIZED = lazy_pattern(r"(?:\bsize|\btrade|\band an?|\bnumber|#) ?$")
_SHORTEST = 4
"""Letters: what is shorter, and not known, may be any word misspelt."""


def weighs(text: str, start: int, end: int, apart: bool, kind_told: bool) -> bool:
    """Whether unread words may have been a size, a count, a wall, or anything like it. `apart`:
    nothing beside them is of a pull box; `kind_told`: how the conductors turn is said."""
    said = text[start:end].split()
    for word in said:
        bare = _bare(word)
        if any(sign.isdigit() for sign in word) or (bare and lengths.value(bare) is not None):
            return True
        if bare in ("to", "for") or words("counts_more").fullmatch(bare):
            return True
    if apart:
        light = (_says_nothing(_bare(word), kind_told) for word in said)
        return any(
            word in vocabulary.known_words() and not one
            for word, one in zip(said, light, strict=True)
        )
    if words("noun").match(text[end:].lstrip()):
        return True
    counting = _COUNTED.match(text, end) is not None or _SIZED.search(text[:start]) is not None
    if not counting and _PREPOSITION.search(text[:start]):
        return False
    return not all(_is_light(_bare(word), kind_told, counting) for word in said)


def _bare(word: str) -> str:
    return word.strip("(\"'#)")


def _is_light(word: str, kind_told: bool, counting: bool) -> bool:
    """Whether a word changes no dimension. `counting`: it stands where a count does."""
    if _says_nothing(word, kind_told):
        return True
    known = word in vocabulary.known_words() or not word.isalpha()
    known = known or counting or len(word) < _SHORTEST
    return not known and not _may_be_meant(word)


def _says_nothing(word: str, kind_told: bool) -> bool:
    listed = words("weightless").fullmatch(word) or words("silent").fullmatch(word)
    return listed is not None or (kind_told and words("ways").fullmatch(word) is not None)


@cache
def _may_be_meant(word: str) -> bool:
    """Whether it is a slip away from a word that changes one."""
    from rapidfuzz.distance import OSA  # 17 ms to import, and most talk needs it never

    meant = grammar_data.table("enclosures")["pull"]["words"]["misspelt"]
    return any(OSA.distance(word, one, score_cutoff=1) <= 1 for one in meant)


def sounds_like_a_count(text: str, pieces: Sequence[Piece], piece: Piece) -> bool:
    """ "For 3 inch", "to 2 inch" in a list may have been four and two, dictated."""
    said = text[piece.start : piece.end]
    if piece.sort != "silent" or said not in ("to", "for"):
        return False
    at = pieces.index(piece)
    if at and text[pieces[at - 1].start : piece.start].strip() in ("a", "an"):
        return True
    after = pieces[at + 1] if at + 1 < len(pieces) else None
    if after is not None and after.sort in ("break", "join"):
        return True
    if after is not None and words("of_raceways").match(text, after.start):
        return True
    if after is None or not (
        after.sort == "items" or re.match(r"and an? (?:half|quarter)", text[after.start :])
    ):
        return False
    if after.sort == "items" and re.match(r"(?:an?|the) ", text[after.start :]):
        return False
    before = pieces[at - 1] if at else None
    headed = before is not None and before.sort in ("kind", "detail")
    joined = before is not None and before.sort == "items" and "from" in text.split()
    return not (headed and said == "for") and not (joined and said == "to")
