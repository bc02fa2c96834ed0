"""Conductors of 4 AWG and larger in a conduit body, and how large it is: "three 2/0", "9 in long".

They have no volume, 314.16(B): the other reading knows nothing to do with them.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from boxaloud.grammar.enclosures import box_sides, lengths
from boxaloud.grammar.enclosures.conductor_sizes import conductor
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.quick_dataclass import dataclass

_COUNT = lazy_pattern(
    r"(?<![\w/.-])(?P<n>\d{1,2}|an?|one|two|three|four|five|six|seven|eight|nine|ten|twelve)[ x]+"
    r"(?:of )?"
)
_MARKED = lazy_pattern(
    r"(?:marked|listed|rated|good|stamped|approved|made)(?: by (?:the|its) ma(?:ker|nufacturer))?"
    r"(?: (?:for|with)(?: up to| at most| a maximum of| no more than)?|[,:]? max(?:imum)?(?: of)?)"
    r"\s*$"
)
_WORD = lazy_pattern(r"(?<![\w/.-])[\w#\"]")
_MOST = 40
_AXES = {"side width": "width", "side length": "length", "side depth": "depth"}


@dataclass(frozen=True, slots=True)
class Large:
    """Conductors of one size and where they stand; `permitted` where the maker marked so many."""

    start: int
    end: int
    sizes: tuple[str, ...]
    permitted: bool


def large_conductors(text: str) -> Iterator[Large]:
    """Every "three 2/0", "four number 4", "3 500 kcmil" of a text."""
    at = 0
    while (found := _COUNT.search(text, at)) is not None:
        at = found.end()
        worth = 1 if found["n"] in ("a", "an") else lengths.value(found["n"])
        said = conductor(text, found.end(), False)
        if said is None or worth is None or not 1 <= worth <= _MOST:
            continue
        at = said.end
        marked = _MARKED.search(text[: found.start()])
        start = marked.start() if marked else found.start()
        size = said.value.removeprefix("conductor ")
        yield Large(start, said.end, (size,) * int(worth), marked is not None)


def sides(text: str) -> Iterator[tuple[int, int, dict[str, Decimal]]]:
    """The inside of the body: "16 inches long", "16 by 4 by 4"."""
    at = 0
    while (found := _WORD.search(text, at)) is not None:
        piece = box_sides.side(text, found.start(), False)
        if piece is not None and piece.value in _AXES and piece.dimensions[0] is not None:
            yield piece.start, piece.end, {_AXES[piece.value]: piece.dimensions[0]}
            at = piece.end
            continue
        whole = box_sides.dimensions(text, found.start(), False)
        if whole is not None and all(side is not None for side in whole.dimensions):
            named = zip(("length", "width", "depth"), whole.dimensions, strict=True)
            yield whole.start, whole.end, {n: side for n, side in named if side is not None}
            at = whole.end
            continue
        at = found.start() + 1


#: "Four eights and a ten", "two 10s, one 12": one more conductor, by its size alone.
_ONE_MORE = lazy_pattern(
    r"(?i)(?P<before>\b(?:18|16|14|12|10|8|6|eighteen|sixteen|fourteen|twel(?:v)e|ten|eight)'?(?:e?s))"
    r"(?P<link>,? and |, )(?P<one>an?|one|1) (?P<n>14|12|10|8|6|fourteen|twelve|ten|eight|six)"
    r"(?=\s*(?:[.,;?!]|$))"
)


def sized_one(text: str) -> str:
    """The same text, as long as it was, with the size of one more conductor marked as a size."""
    made = _ONE_MORE.sub(lambda found: f"{found['before']}, {found['one']} #{found['n']}", text)
    return made.ljust(len(text)) if len(made) <= len(text) else text
