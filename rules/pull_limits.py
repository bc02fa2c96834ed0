"""What 314.28 asks of a pull box besides its least dimensions: (A)(3), (B) and (E)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeAlias

from boxaloud.rules.data import table
from boxaloud.rules.pull import Axis, PullBox, PullSheet

Inside: TypeAlias = tuple[Fraction | None, Fraction | None, Fraction | None]
"""Inside width, height and depth of a box at hand, inches; None where one is not known."""

AXES: tuple[Axis, Axis, Axis] = ("width", "height", "depth")


@dataclass(frozen=True, slots=True)
class PullRemark:
    """A rule that holds or breaks without setting a dimension; `holds` None while it is open."""

    rule: str
    section: str
    says: str
    holds: bool | None


@dataclass(frozen=True, slots=True)
class Compared:
    """One dimension of a box at hand against the least, inches."""

    axis: Axis | Literal["distance"]
    have: Fraction
    least: Fraction
    section: str = ""
    """Of the requirement that sets the least."""

    @property
    def holds(self) -> bool:
        """True where it is large enough; a margin of zero is."""
        return self.have >= self.least


def beside(box: PullBox) -> Fraction | None:
    """How long a wall must be to hold two entries of a U pull six times apart, inches.

    No dimension of 314.28 but what its distance leaves: both trade sizes, and six times the
    larger between them. None where there is no U pull.
    """
    sizes = {raceway.name: raceway.size for raceway in box.raceways}
    ends = [(sizes[p.start], sizes[p.end]) for p in box.pulls if p.kind == "u" and p.start != p.end]
    times = int(table("pull")["rule"]["pull-apart"]["times"])
    return max((times * max(pair) + sum(pair) for pair in ends), default=None)


def compared(
    sheet: PullSheet, inside: Inside, wall: Fraction | None = None, turns: bool = True
) -> tuple[Compared, ...]:
    """Each dimension that is known and needed.

    Where one wall-to-wall dimension alone is needed, and nobody said which way the box is turned
    (`turns`), the larger of width and height is held against it, or where a U pull needs its wall
    so long (`wall`), both are in the way of the box that suits better.
    """
    width, height, depth = inside
    one_side = sum(side is not None for side in (sheet.width, sheet.height)) == 1
    if one_side and width is not None and height is not None and sheet.depth is None:
        return _one_side(sheet, (width, height), wall, turns)
    needed = (sheet.width, sheet.height, sheet.depth)
    return tuple(
        Compared(axis, have, least, _section(sheet, least, axis))
        for axis, have, least in zip(AXES, (width, height, depth), needed, strict=True)
        if have is not None and least is not None
    )


def _one_side(
    sheet: PullSheet, sides: tuple[Fraction, Fraction], wall: Fraction | None, turns: bool
) -> tuple[Compared, ...]:
    """The one dimension that a box needs, and of a U pull the length of its wall."""
    least, axes, own = sheet.width, AXES[:2], sides
    if least is None:
        least, axes, own = sheet.height or Fraction(0), (AXES[1], AXES[0]), (sides[1], sides[0])
    section = _section(sheet, least)
    if wall is None:
        return (Compared(axes[0], max(sides) if turns else own[0], least, section),)
    ways = (own, (own[1], own[0])) if turns else (own,)
    fits = [(a, b) for a, b in ways if a >= least and b >= wall]
    rather = sorted(sides, reverse=least >= wall) if turns else own
    across, along = fits[0] if fits else rather
    by = str(_row("pull-apart")["section"])
    return Compared(axes[0], across, least, section), Compared(axes[1], along, wall, by)


def _section(sheet: PullSheet, least: Fraction, axis: Axis | None = None) -> str:
    """The section of what sets a dimension; where none of its own does, of what sets another."""
    alike = [one for one in sheet.requirements if one.inches == least and one.axis is not None]
    own = [one for one in alike if axis in (None, one.axis)]
    return next((one.section for one in (*own, *alike)), "")


def every_side_known(
    sheet: PullSheet, inside: Inside, wall: Fraction | None = None, turns: bool = True
) -> bool:
    """True where nothing that a pull sets was left out of `compared`: an inside dimension for each
    least one, and of a U pull the length of its wall."""
    needed = (sheet.width, sheet.height, sheet.depth)
    if wall is not None and None in inside[:2]:
        return False
    one_side = sum(side is not None for side in needed[:2]) == 1
    if turns and one_side and None not in inside[:2]:
        needed = (None, None, sheet.depth)
    return not any(
        have is None and least is not None for have, least in zip(inside, needed, strict=True)
    )


def pull_remarks(
    sheet: PullSheet,
    inside: Inside,
    listed: bool = False,
    blocks: bool = False,
    volume: Fraction | None = None,
) -> tuple[PullRemark, ...]:
    """What is to be minded of a pull box: a listed smaller one, racks, distribution blocks.

    `volume` is its own, cubic inches, where its sides are not known.
    """
    found = []
    known = [side for side in (*inside, sheet.width, sheet.height, sheet.depth) if side is not None]
    if listed:
        found.append(_remark("pull-listed", None))
    if any(side > Fraction(_row("pull-racked")["over"]) for side in known):
        found.append(_remark("pull-racked", None))
    if blocks:
        found.append(_remark("pull-blocks", _large_enough(inside, volume)))
    return tuple(found)


def _large_enough(inside: Inside, volume: Fraction | None) -> bool | None:
    width, height, depth = inside
    if width is not None and height is not None and depth is not None:
        volume = width * height * depth
    return None if volume is None else volume > Fraction(_row("pull-blocks")["over"])


def distance_held(sheet: PullSheet, apart: Fraction) -> Compared | None:
    """The distance between raceways against the least of the sheet.

    None where it is enough for some pulls and not for others, or where none is required.
    """
    found = [r for r in sheet.requirements if r.axis is None and not r.disputed]
    least = [one.inches for one in found]
    if not least or min(least) <= apart < max(least):
        return None
    limit = max(least) if apart >= max(least) else min(least)
    return Compared("distance", apart, limit, found[0].section)


def _row(rule: str) -> dict[str, str]:
    row: dict[str, str] = table("pull")["rule"][rule]
    return row


def _remark(rule: str, holds: bool | None) -> PullRemark:
    row = _row(rule)
    return PullRemark(rule, row["section"], row["says"], holds)
