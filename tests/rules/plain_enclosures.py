"""Pull boxes and conduit bodies a second time, as plainly as they can be written.

From the text of the code in our words, and sharing nothing with `rules` but the described things:

- 314.28(A)(1): a straight pull is eight times the largest raceway long (EC&M, March 2022).
- 314.28(A)(2): from each entry with an angle or U pull or a splice to the opposite wall six times
  the largest of its row and wall plus all others of it, each row by itself; entries of the same
  conductor six times the larger apart; opposite a removable cover Table 312.6(A), one wire per
  terminal (Mike Holt forum 114639, 127045; the table as in studylib 18090336).
- 314.16(C): a conduit body without splices has twice the area of the largest raceway and holds what
  Chapter 9 Table 1 allows, 53, 31 and 40 percent, like conductors rounded up from 0.8 (Note 7);
  with splices it is marked, and counted by 314.16(B) (ECMag Part X; EC&M What's Wrong Here).
- Chapter 9 Table 4 and 5 as in `more_facts`; IMC, RMC and PVC from memory.
"""

from __future__ import annotations

from fractions import Fraction
from math import floor

from boxaloud.rules import ConduitBody, PullBox
from boxaloud.rules.contents import Conductors, Grounds

BEND = (
    (("4", "3"), "2"), (("2",), "2.5"), (("1",), "3"), (("1/0", "2/0"), "3.5"),
    (("3/0", "4/0"), "4"), (("250",), "4.5"), (("300", "350"), "5"), (("400", "500"), "6"),
    (("600", "700", "750", "800", "900"), "8"), (("1000", "1250"), "10"),
    (("1500", "1750", "2000"), "12"),
)  # fmt: skip
AREA = {
    "emt": "0.304 0.533 0.864 1.496 2.036 3.356 5.858 8.846 11.545 14.753",
    "imc": "0.342 0.586 0.959 1.647 2.225 3.630 5.135 7.922 10.584 13.631",
    "rmc": "0.314 0.549 0.887 1.526 2.071 3.408 4.866 7.499 10.010 12.882",
    "pvc40": "0.285 0.508 0.832 1.453 1.986 3.291 4.695 7.268 9.737 12.554",
}
TRADE = [Fraction(n, 4) for n in (2, 3, 4, 5, 6, 8, 10, 12, 14, 16)]
WIRE: dict[str, dict[int | str, str]] = {
    "thhn": {14: "0.0097", 12: "0.0133", 10: "0.0211", 8: "0.0366", 6: "0.0507"},
    "xhhw": {14: "0.0139", 12: "0.0181", 10: "0.0243", 8: "0.0437", 6: "0.0590"},
    "tw": {14: "0.0139", 12: "0.0181", 10: "0.0243", 8: "0.0437", 6: "0.0726"},
}
CUBIC = {18: "1.5", 16: "1.75", 14: "2", 12: "2.25", 10: "2.5", 8: "3", 6: "5"}


def bend(conductor: str) -> Fraction:
    """Table 312.6(A), one wire per terminal, inches."""
    return next(Fraction(inches) for sizes, inches in BEND if conductor in sizes)


def pull_box(box: PullBox) -> tuple[dict[str, Fraction], list[Fraction]]:
    """The least width, height and depth, and the least distances between raceways, sorted."""
    of = {raceway.name: raceway for raceway in box.raceways}
    along = {
        "left": "width",
        "right": "width",
        "top": "height",
        "bottom": "height",
        "back": "depth",
    }
    least: dict[str, Fraction] = {}
    apart: list[Fraction] = []

    def at_least(axis: str, inches: Fraction) -> None:
        least[axis] = max(inches, least.get(axis, Fraction(0)))

    for pull in box.pulls:
        one, other = of[pull.start], of[pull.end]
        bigger = one.size if one.size > other.size else other.size
        if pull.kind == "straight":
            at_least(along[one.wall], bigger * 8)
        else:
            apart.append(bigger * 6)
            for end in (one, other):
                if end.wall == "back" and box.removable_cover:
                    continue
                beside = [r.size for r in box.raceways if (r.wall, r.row) == (end.wall, end.row)]
                at_least(along[end.wall], max(beside) * 5 + sum(beside))
        if box.removable_cover and "back" in (one.wall, other.wall):
            at_least("depth", bend(pull.conductor))
    return least, sorted(apart)


def area(raceway: str, size: Fraction) -> Fraction:
    """Chapter 9 Table 4, square inches."""
    return Fraction(AREA[raceway].split()[TRADE.index(size)])


def like_ones_fit(
    count: int, raceway: str, size: Fraction, awg: int | str, insulation: str
) -> bool:
    """Whether so many like conductors fit: Table 1, and Note 7, by which 0.8 is one more."""
    share = {1: 53, 2: 31}.get(count, 40)
    room = area(raceway, size) * share / 100 / Fraction(WIRE[insulation][awg])
    return floor(room + Fraction(1, 5)) >= count


def conduit_body(body: ConduitBody) -> str:
    """`fits`, `over` or `not permitted`."""
    if body.splices:
        if body.short_radius or body.marked is None:
            return "not permitted"
        used = Fraction(0)
        largest_ground: list[int] = []
        grounds = 0
        for thing in body.splices:
            if isinstance(thing, Conductors):
                used += Fraction(CUBIC[thing.awg]) * thing.count
            elif isinstance(thing, Grounds):
                grounds += thing.count
                largest_ground.append(thing.awg)
        if grounds:
            each = Fraction(CUBIC[min(largest_ground)])
            used += each + each / 4 * max(0, grounds - 4)
        return "fits" if used <= Fraction(body.marked) else "over"
    space = area(body.raceway, body.size)
    if body.area is not None and Fraction(body.area) < 2 * space:
        return "over"
    wires = [Fraction(WIRE[w.insulation][w.awg]) for w in body.wires for _ in range(w.count)]
    kinds = {(w.insulation, w.awg) for w in body.wires}
    if len(kinds) == 1:
        insulation, awg = next(iter(kinds))
        alike = like_ones_fit(len(wires), body.raceway, body.size, awg, insulation)
        return "fits" if alike else "over"
    share = {1: 53, 2: 31}.get(len(wires), 40)
    return "fits" if sum(wires) * 100 <= space * share else "over"
