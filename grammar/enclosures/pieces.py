"""The pieces of what is said of a pull box: raceways, walls, rows, kinds, conductors, the rest.

A text is scanned from left to right; at each place the piece that reaches furthest is taken.
What no piece takes is left over, word by word.
"""

from __future__ import annotations

import re
from typing import Literal

from boxaloud.grammar.enclosures import box_sides, lengths
from boxaloud.grammar.enclosures.cable_wires import insulation
from boxaloud.grammar.enclosures.cables import cables
from boxaloud.grammar.enclosures.conductor_sizes import conductor
from boxaloud.grammar.enclosures.enclosure_words import longest, named, words
from boxaloud.grammar.enclosures.entry_shares import share, with_shares
from boxaloud.grammar.enclosures.listed_sizes import with_lists
from boxaloud.grammar.enclosures.pointed_raceways import pointed
from boxaloud.grammar.enclosures.pull_piece import Piece
from boxaloud.grammar.enclosures.raceway_lists import raceways
from boxaloud.grammar.lazy_patterns import lazy_pattern

_ORDINAL = {"first": 1, "1st": 1, "one": 1, "1": 1, "top": 1, "upper": 1, "second": 2, "2nd": 2,
            "two": 2, "2": 2, "bottom": 2, "lower": 2, "third": 3, "3rd": 3, "three": 3, "3": 3,
            "other": 0, "next": 0, "another": 0, "separate": 0, "different": 0}  # fmt: skip
_ROW = lazy_pattern(
    r"(?:(?:in|on|and|with) )*(?:the |a |an )?"
    r"(?:(?P<which>first|1st|top|upper|second|2nd|bottom|lower|third|3rd|other|next|another|separate"
    r"|different) row|row (?:number )?(?P<number>one|two|three|[123]))\b"
    r"(?: (?:has|have|with|of|is|are|holds|gets))?"
)
_A_ROW = lazy_pattern(
    r"(?:and |with |in )*(?:a|one|another) (?:second |third |separate )?row (?:of|with|has)\b"
)
_ROW_OF = lazy_pattern(r"(?:and |with |in )*(?P<n>two|three|[23]) rows of\b")
_ROWS = lazy_pattern(
    r"(?:in |with |are in |on )*(?P<n>two|three|four|[234]) (?:separate |different )?rows\b"
)
_EACH_ROW = lazy_pattern(r"(?:(?:in|on|for|per) )?(?:each|every) row\b|per row\b")
_ONE_END = lazy_pattern(
    r"(?:(?:enter(?:s|ing)? )?(?:in(?:to)?|at|by|through|on|from)|enter(?:s|ing)?)"
    r" one (?:end|side|wall)\b(?! and out)"
)
_OTHER_END = lazy_pattern(
    r"(?:going |com(?:es?|ing) )?(?:back )?(?:out|leav(?:es|ing)|exit(?:s|ing))"
    r"(?: of| at| by| through| from)? the other(?: (?:end|side))?"
    r"(?=\s*(?:[,.;?]|and\b|for\b|in\b|but\b|while\b|with\b|then\b|$))"
)
#: "How far from the side entry to the far wall": asked of a side, and none told.
_MEASURED_FROM = lazy_pattern(r"\bfrom (?:the |that )?side(?: entry| wall)?(?= to\b)")
_LETTER = lazy_pattern(r"[lrtb](?=\s*(?:[.,;:]|$|\d|and\b|to\b))")
_LETTER_WALLS = {"l": "left", "r": "right", "t": "top", "b": "bottom"}
_COMPASS = lazy_pattern(r"\b(north|south|east|west)\b")
_SIDES = {"north": "top", "south": "bottom", "east": "right", "west": "left"}
_SIDE_WALL = lazy_pattern(r"side wall\b")
_SIDE = lazy_pattern(r"\bside\b(?! by side)")
_ENTERED = lazy_pattern(r".*\b(?:in|into|enters|entering|enter)(?: the| a| one)? $")
_OTHER_WALL = lazy_pattern(r"\b(?:back|rear|top|bottom)\b")
_IN = lazy_pattern(r"(?:com(?:es?|ing) in|going in|enter(?:s|ing)|in)(?= ?(?:,|\.|and\b|$|from))")
_OUT = lazy_pattern(
    r"(?:(?:going |com(?:es?|ing) )?(?:back )?out|leav(?:es|ing)|exit(?:s|ing))"
    r"(?= ?(?:,|\.|and\b|$|the same|of the same|across\b|opposite\b))"
)
_BREAK = lazy_pattern(r"[.;:!?\n,()]|--?")
_LETTERS = lazy_pattern(r"(?:thhn|thwn|xhhw|thhw|thw|tw)(?:[-/ ]?(?:2|thwn(?:-2)?))?(?![\w-])")
_WORD = lazy_pattern(r"[^\s.;:!?,()]+")


def scan(text: str, lone: bool = False) -> list[Piece]:
    """The pieces of a text in lower case. `lone`: a number by itself is a trade size."""
    found: list[Piece] = []
    at = 0
    while at < len(text):
        gap = re.compile(r"\s*").match(text, at)
        at = gap.end() if gap else at
        if at >= len(text):
            break
        piece = _best(text, at, lone)
        found.append(piece)
        at = piece.end
    return with_lists(text, with_shares(found))


def _best(text: str, at: int, lone: bool) -> Piece:
    """The piece that reaches furthest from a place; a single word or sign where none does."""
    made = [piece for reader in _READERS if (piece := reader(text, at, lone)) is not None]
    if made:
        return max(made, key=lambda piece: piece.end)
    if (found := _BREAK.match(text, at)) is not None:
        return Piece("break", at, found.end(), found[0])
    if (found := words("joiner").match(text, at)) is not None:
        return Piece("join", at, found.end())
    if (found := words("silent").match(text, at)) is not None:
        return Piece("silent", at, found.end(), found[0])
    found = _WORD.match(text, at)
    return Piece("unread", at, found.end() if found else at + 1)


def _kind(text: str, at: int, lone: bool) -> Piece | None:
    found = longest(named("kind"), text, at)
    return None if found is None else Piece("kind", at, found[1], found[0])


_DETAILS = (
    "both", "governed", "each_returns", "every_entry", "opposite", "adjacent", "same", "one_row",
    "separate_rows", "removable", "opposite_cover", "opposite_removable", "fixed", "listed",
    "blocks", "alike", "name", "asking",
)  # fmt: skip


def _details(text: str, at: int, lone: bool) -> Piece | None:
    whole = ("asking", words("asking_whole"))
    found = longest([*((name, words(name)) for name in _DETAILS), whole], text, at)
    return None if found is None else Piece("detail", at, found[1], found[0])


def _rows(text: str, at: int, lone: bool) -> Piece | None:
    if (found := _EACH_ROW.match(text, at)) is not None:
        return Piece("each_row", at, found.end())
    if (found := _ROW_OF.match(text, at)) is not None:
        return Piece("rows_of", at, found.end(), number=int(lengths.value(found["n"]) or 0))
    if (found := _A_ROW.match(text, at)) is not None:
        return Piece("row_of", at, found.end())
    if (found := _ROWS.match(text, at)) is not None:
        return Piece("rows", at, found.end(), number=int(lengths.value(found["n"]) or 0))
    if (found := _ROW.match(text, at)) is not None:
        which = found["which"] or found["number"]
        return Piece("row", at, found.end(), number=_ORDINAL[which])
    return None


def _walls(text: str, at: int, lone: bool) -> Piece | None:
    """ "in the left wall", "out the top", "left:" … or "in" and "out" by themselves."""
    ways: tuple[tuple[Literal["wall_to", "wall"], str], ...] = (
        ("wall_to", "out"), ("wall", "before_wall"), ("wall", ""),
    )  # fmt: skip
    for sort, lead in ways:
        place = at
        if lead:
            found = words(lead).match(text, at)
            if found is None:
                continue
            place = found.end() + 1
        the = re.compile(r"(?:the |a |an |one |its )").match(text, place)
        place = the.end() if the else place
        name = longest(named("wall"), text, place) or _compass(text, place)
        name = name or _letter(text, place)
        if name is None and (side := _one_side(text, place)) is not None:
            return Piece("wall_to" if sort == "wall_to" else "wall", at, side, "left")
        if name is None or re.compile(r" row").match(text, name[1]):
            continue
        noun = re.compile(rf"[ -](?:hand )?(?:{words('wall_noun').pattern})").match(text, name[1])
        end = noun.end() if noun else name[1]
        bare = not (noun or lead or the)
        if bare and name[0] == "back":  # "read it back"
            continue
        return Piece("wall_to" if sort == "wall_to" else "wall", at, end, name[0], int(bare))
    found = _IN.match(text, at) or _ONE_END.match(text, at)
    if found is not None:
        return Piece("end", at, found.end(), "in")
    found = _OTHER_END.match(text, at) or _OUT.match(text, at)
    return None if found is None else Piece("end", at, found.end(), "out")


def _letter(text: str, at: int) -> tuple[str, int] | None:
    """ "2x 3\" L": a wall by its letter, behind the mark of inches."""
    found = _LETTER.match(text, at)
    behind = text[:at].rstrip().endswith(('"', "''"))
    return (_LETTER_WALLS[found[0]], found.end()) if found and behind else None


def _compass(text: str, at: int) -> tuple[str, int] | None:
    """ "The west side", where another side of the box is told by the compass as well: seen from
    the front, north is its top. A pull box on the north wall of a room is told by one alone."""
    found = _COMPASS.match(text, at)
    if found is None or len(set(_COMPASS.findall(text))) < 2:
        return None
    return _SIDES[found[1]], found.end()


def _one_side(text: str, at: int) -> int | None:
    """ "The side wall"; "the side" by itself where it is the only one, and raceways enter it, or
    others the back, the top or the bottom: which side makes the box no larger. Where it ends."""
    if (found := _SIDE_WALL.match(text, at)) is not None:
        return found.end()
    if (found := _SIDE.match(text, at)) is None:
        return None
    entered = _ENTERED.match(text[max(0, at - 16) : at]) is not None
    told = len(_SIDE.findall(_MEASURED_FROM.sub("", text)))
    alone = told == 1 and (entered or _OTHER_WALL.search(text) is not None)
    return found.end() if alone else None


def _insulation(text: str, at: int, lone: bool) -> Piece | None:
    """ "THHN": of the conductors in the cables."""
    found = _LETTERS.match(text, at)
    named = insulation(found[0]) if found else None
    return Piece("detail", at, found.end(), f"insulation {named}") if found and named else None


_READERS = (
    cables, raceways, conductor, box_sides.dimensions, box_sides.side, box_sides.apart,
    box_sides.volume, _kind, _details, _rows, _walls, _insulation, share, pointed,
)  # fmt: skip
