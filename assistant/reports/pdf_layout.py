"""Pages laid out from blocks, before anything is drawn. Lengths are points, y grows downwards.

A block is never parted. A block that `holds_next` is not parted from the one after it: a heading
stays with what it heads, and a worksheet whole. Blocks held together that are higher than a page
are parted after all.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from typing import Literal, NamedTuple, TypeAlias

Ink: TypeAlias = tuple[int, int, int]
INK: Ink = (32, 48, 47)
FAINT: Ink = (90, 104, 102)
DEEP: Ink = (23, 82, 80)
COPPER: Ink = (132, 60, 18)
RULE: Ink = (190, 186, 172)
SHADES: tuple[Ink, Ink] = ((185, 211, 205), (217, 230, 223))
"""Of what a drawing fills, by turns."""

WIDTH, HEIGHT, MARGIN = 612.0, 792.0, 42.0
"""A letter page."""
ROOM = WIDTH - 2 * MARGIN
FOOT = HEIGHT - 46.0
"""Where the last line of a page may end; below it stands the page number."""


class Words(NamedTuple):
    """A line of text whose base line is at `y`."""

    x: float
    y: float
    text: str
    size: float
    bold: bool = False
    ink: Ink = INK
    part: int = 0
    """Which of the block's paragraphs or cells it belongs to, in the order of reading; -1 for a
    sign that is not to be read."""


class Stroke(NamedTuple):
    """A straight line."""

    x: float
    y: float
    to_x: float
    to_y: float
    weight: float
    ink: Ink


class Area(NamedTuple):
    """A rectangle, framed, and filled where it has a fill."""

    x: float
    y: float
    width: float
    height: float
    ink: Ink
    fill: Ink | None = None


class Disc(NamedTuple):
    """A circle, framed and filled, by the square that it lies in."""

    x: float
    y: float
    width: float
    ink: Ink
    fill: Ink


class Hatching(NamedTuple):
    """A rectangle of slanted lines."""

    x: float
    y: float
    width: float
    height: float
    ink: Ink


class Photo(NamedTuple):
    """A photograph or a sketch, as JPEG or PNG."""

    x: float
    y: float
    width: float
    height: float
    data: bytes


Mark: TypeAlias = Words | Stroke | Area | Disc | Hatching | Photo


class Tag(NamedTuple):
    """What a block is to who cannot see it: a paragraph, a heading, a row of a table, the heads
    of one, a figure with words in its place, or nothing that is to be read."""

    kind: Literal["P", "H1", "H2", "H3", "row", "heads", "figure", "nothing"] = "P"
    alt: str = ""
    cells: int = 1


@dataclass(frozen=True, slots=True)
class Block:
    """Marks from the block's top left. `outline` is its place in the document's outline."""

    height: float
    marks: tuple[Mark, ...] = ()
    holds_next: bool = False
    outline: tuple[str, int] | None = None
    repeats: Block | None = None
    """What stands above it where it begins a page: the heads of a table."""
    tag: Tag = field(default_factory=Tag)


@dataclass(slots=True)
class Page:
    """Blocks and where their tops are."""

    blocks: list[tuple[float, Block]] = field(default_factory=list)
    filled: float = MARGIN

    def put(self, block: Block) -> None:
        """Add a block below the others."""
        self.blocks.append((self.filled, block))
        self.filled += block.height


def holding(blocks: Iterable[Block]) -> list[Block]:
    """The blocks held together and to what follows them."""
    return [replace(block, holds_next=True) for block in blocks]


def held(blocks: Iterable[Block]) -> list[Block]:
    """The blocks held together, the last free to be parted from what follows."""
    every = list(blocks)
    return [*holding(every[:-1]), *every[-1:]]


def height(blocks: Iterable[Block]) -> float:
    """How high blocks are together."""
    return sum(block.height for block in blocks)


def fits_a_page(blocks: Iterable[Block]) -> bool:
    """Whether blocks can stand on one page together."""
    return height(blocks) <= FOOT - MARGIN


def pages(blocks: Iterable[Block]) -> list[Page]:
    """Blocks put on pages, in order."""
    found = [Page()]
    for unit in _units(blocks):
        if fits_a_page(unit) and found[-1].filled + height(unit) > FOOT:
            found.append(Page())
        for block in unit:
            if found[-1].filled + block.height > FOOT and found[-1].blocks:
                found.append(Page())
            if block.repeats is not None and not found[-1].blocks:
                found[-1].put(replace(block.repeats, tag=Tag("nothing")))
            found[-1].put(block)
    return found


def _units(blocks: Iterable[Block]) -> Iterator[list[Block]]:
    unit: list[Block] = []
    for block in blocks:
        unit.append(block)
        if not block.holds_next:
            yield unit
            unit = []
    if unit:
        yield unit
