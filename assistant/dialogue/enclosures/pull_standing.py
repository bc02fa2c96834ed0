"""Where a pull box stands: its sheet, or why there is none yet.

No dimension stands while a size, or a word that weighs, is open: it would be too small.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from boxaloud.assistant.dialogue.enclosures import pull_open
from boxaloud.assistant.dialogue.enclosures.pull_geometry import built
from boxaloud.assistant.dialogue.enclosures.pull_state import PullBoxSaid
from boxaloud.assistant.dialogue.state import State
from boxaloud.rules import PullBox, PullSheet, Requirement, RulesError, work_out_pull_box
from boxaloud.rules.contents import Marked
from boxaloud.rules.pull_limits import (
    Compared,
    Inside,
    PullRemark,
    beside,
    compared,
    distance_held,
    pull_remarks,
)


@dataclass(frozen=True, slots=True)
class PullStanding:
    """Where a pull box stands: its sheet, or why there is none yet."""

    sheet: PullSheet | None
    remarks: tuple[PullRemark, ...] = ()
    compared: tuple[Compared, ...] = ()
    refusal: str = ""
    box: PullBox | None = None
    """The raceways and pulls that the sheet is of."""
    said: PullBoxSaid | None = None

    @property
    def too_small(self) -> bool:
        """True where an inside dimension that was told is less than the least."""
        return not all(one.holds for one in self.compared)


def standing(state: State) -> PullStanding:
    """Where the pull box of a state stands; no sheet while anything is open."""
    if state.pulls is None or pull_open.missing(state) or state.unread or state.pending:
        return PullStanding(None)
    marked = [part.volume for part in state.box if isinstance(part, Marked)]
    return _worked_out(state.pulls, state.assumed, marked[0] if marked else None)


@lru_cache(maxsize=8)
def _worked_out(said: PullBoxSaid, assumed: frozenset[str], volume: Decimal | None) -> PullStanding:
    try:
        box = built(said, assumed)
        sheet = work_out_pull_box(box)
    except RulesError as refusal:
        return PullStanding(None, refusal=str(refusal), said=said)
    if "pull_walls" in assumed:
        sides = [side for side in (sheet.width, sheet.height) if side is not None]
        most = max(sides) if sides else None
        sheet = PullSheet(sheet.requirements, most, most, sheet.depth)
    width, height, depth = (None if side is None else Fraction(side) for side in said.inside)
    inside: Inside = (width, height, depth)
    own = None if volume is None else Fraction(volume)
    remarks = pull_remarks(sheet, inside, said.listed, said.blocks, own)
    found = [*compared(sheet, inside, beside(box))]
    if said.apart is not None and (one := distance_held(sheet, Fraction(said.apart))) is not None:
        found.append(one)
    return PullStanding(sheet, remarks, tuple(found), box=box, said=said)


def real_lines(sheet: PullSheet) -> list[Requirement]:
    """The lines to be told: no distance of a raceway from itself, each apart once."""
    return [one for one in sheet.requirements if not _of_itself(one)]


def _of_itself(line: Requirement) -> bool:
    one, _, other = line.what.removeprefix("between ").partition(" and ")
    return line.axis is None and one == other
