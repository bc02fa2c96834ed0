"""Pull and junction boxes with conductors of 4 AWG and larger: dimensions by 314.28(A).

Dimensions are inches, exact `Fraction`s; raceways are named by trade size.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from boxaloud.rules.data import RuleNote, note, table
from boxaloud.rules.errors import RulesError

Wall = Literal["left", "right", "top", "bottom", "back"]
PullKind = Literal["straight", "angle", "u", "splice"]
Axis = Literal["width", "height", "depth"]

_AXIS: dict[str, Axis] = {
    "left": "width",
    "right": "width",
    "top": "height",
    "bottom": "height",
    "back": "depth",
}

OPPOSITE: dict[Wall, Wall] = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
"""The wall that each wall faces; the back faces the cover."""


@dataclass(frozen=True, slots=True)
class Raceway:
    """A raceway entering a wall, of trade size `size`, in row `row` of that wall."""

    name: str
    size: Fraction
    wall: Wall
    row: int = 1


@dataclass(frozen=True, slots=True)
class Pull:
    """Conductors going from one raceway to another; the largest, such as `4`, `2/0`, `500`."""

    kind: PullKind
    start: str
    end: str
    conductor: str = ""


@dataclass(frozen=True, slots=True)
class PullBox:
    """Raceways and the pulls between them. The cover is opposite the back wall."""

    raceways: tuple[Raceway, ...]
    pulls: tuple[Pull, ...]
    removable_cover: bool = True


@dataclass(frozen=True, slots=True)
class Requirement:
    """One least distance, inches."""

    what: str
    inches: Fraction
    working: str
    """How it comes about, `6 x 3 + 2`."""
    axis: Axis | None
    """The dimension of the box it sets; None for the distance between two raceways."""
    section: str
    rule: str
    disputed: bool = False
    """Electricians disagree whether it applies."""


@dataclass(frozen=True, slots=True)
class PullSheet:
    """The least dimensions of a pull box; None where nothing described sets one."""

    requirements: tuple[Requirement, ...]
    width: Fraction | None
    height: Fraction | None
    depth: Fraction | None


def pull_notes() -> tuple[RuleNote, ...]:
    """The notes of every rule for pull boxes."""
    return tuple(note(key, row) for key, row in table("pull")["rule"].items())


def work_out_pull_box(box: PullBox) -> PullSheet:
    """The least dimensions of a pull or junction box, 314.28(A).

    Raises RulesError for a trade size that is not one, a pull between raceways that were not
    described, or walls that do not make the pull that was named.
    """
    _check(box)
    found = (*_straight(box), *_rows(box), *_covers(box), *_apart(box))
    most: dict[str, Fraction] = {}
    for requirement in found:
        if requirement.axis is not None:
            before = most.get(requirement.axis, requirement.inches)
            most[requirement.axis] = max(before, requirement.inches)
    return PullSheet(found, most.get("width"), most.get("height"), most.get("depth"))


def _check(box: PullBox) -> None:
    sizes = [Fraction(text) for text in table("pull")["trade_sizes"]]
    names = [raceway.name for raceway in box.raceways]
    if len(set(names)) != len(names):
        raise RulesError("Two raceways have the same name: name each one differently.")
    for raceway in box.raceways:
        if raceway.size not in sizes:
            raise RulesError(
                f"{shown(raceway.size)} inch is no trade size held for a raceway of 4 AWG and "
                "larger: say 1/2 to 6 inch."
            )
        if raceway.wall not in _AXIS:
            raise RulesError(
                f"A raceway enters left, right, top, bottom or back, not {raceway.wall}."
            )
    for pull in box.pulls:
        if pull.start not in names or pull.end not in names:
            raise RulesError(f"The pull from {pull.start} to {pull.end} names no such raceway.")
        _check_walls(pull, _wall(box, pull.start), _wall(box, pull.end))


def _check_walls(pull: Pull, start: str, end: str) -> None:
    opposite = start != end and _AXIS[start] == _AXIS[end]
    right = {
        "straight": opposite,
        "u": start == end,
        "angle": start != end and not opposite,
        "splice": True,
    }
    if pull.kind not in right:
        raise RulesError(f"A pull is straight, angle, u or splice, not {pull.kind}.")
    if not right[pull.kind]:
        raise RulesError(f"From the {start} wall to the {end} wall is no {pull.kind} pull.")


def _wall(box: PullBox, name: str) -> Wall:
    return _raceway(box, name).wall


def _raceway(box: PullBox, name: str) -> Raceway:
    return next(raceway for raceway in box.raceways if raceway.name == name)


def _make(
    rule: str,
    what: str,
    inches: Fraction,
    working: str,
    axis: Axis | None = None,
    disputed: bool = False,
) -> Requirement:
    section = table("pull")["rule"][rule]["section"]
    return Requirement(what, inches, working, axis, section, rule, disputed)


def _straight(box: PullBox) -> Iterator[Requirement]:
    times = table("pull")["rule"]["pull-straight"]["times"]
    largest: dict[Axis, Fraction] = {}
    for pull in box.pulls:
        if pull.kind == "straight":
            ends = _raceway(box, pull.start), _raceway(box, pull.end)
            axis = _AXIS[ends[0].wall]
            largest[axis] = max(largest.get(axis, Fraction(0)), *(end.size for end in ends))
    for axis, size in largest.items():
        working = f"{times} x {shown(size)}"
        yield _make("pull-straight", f"straight pull, {axis}", times * size, working, axis)


def _rows(box: PullBox) -> Iterator[Requirement]:
    """Six times the largest of each row with an angle or U pull or a splice, plus the others."""
    times = table("pull")["rule"]["pull-angle"]["times"]
    turning = {
        name for pull in box.pulls if pull.kind != "straight" for name in (pull.start, pull.end)
    }
    rows: dict[tuple[Wall, int], list[Raceway]] = defaultdict(list)
    for raceway in box.raceways:
        rows[raceway.wall, raceway.row].append(raceway)
    for (wall, row), raceways in rows.items():
        if wall == "back" and box.removable_cover:
            continue
        if not any(raceway.name in turning for raceway in raceways):
            continue
        sizes = sorted((raceway.size for raceway in raceways), reverse=True)
        working = " + ".join([f"{times} x {shown(sizes[0])}", *map(shown, sizes[1:])])
        inches = times * sizes[0] + sum(sizes[1:])
        what = f"{wall} wall to the opposite wall, row {row}"
        yield _make("pull-angle", what, inches, working, _AXIS[wall])


def _covers(box: PullBox) -> Iterator[Requirement]:
    if not box.removable_cover:
        return
    inches = table("pull")["bending"]["inches"]
    for pull in box.pulls:
        if "back" not in (_wall(box, pull.start), _wall(box, pull.end)):
            continue
        if pull.conductor not in inches:
            raise RulesError(
                f"Table 312.6(A) holds no conductor {pull.conductor or 'without a size'}: "
                "say its largest conductor, 4 AWG to 2000 kcmil."
            )
        depth = Fraction(inches[pull.conductor])
        working = f"{pull.conductor}, one wire per terminal"
        yield _make("pull-cover", "back wall to the removable cover", depth, working, "depth")


def _apart(box: PullBox) -> Iterator[Requirement]:
    for pull in box.pulls:
        if pull.kind == "straight":
            continue
        spliced = pull.kind == "splice"
        rule = "pull-apart-spliced" if spliced else "pull-apart"
        times = table("pull")["rule"][rule]["times"]
        size = max(_raceway(box, pull.start).size, _raceway(box, pull.end).size)
        what = f"between {pull.start} and {pull.end}"
        yield _make(rule, what, times * size, f"{times} x {shown(size)}", None, spliced)


def shown(inches: Fraction) -> str:
    """Inches as the trade writes them: `2-1/2`."""
    whole, part = divmod(inches, 1)
    if not part:
        return str(whole)
    return f"{whole}-{part}" if whole else str(part)
