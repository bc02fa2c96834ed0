"""Where a pull box stands: its sheet, or why there is none yet.

No dimension stands while a size, or a word that weighs, is open: it would be too small.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from boxaloud.assistant.dialogue.enclosures import pull_open
from boxaloud.assistant.dialogue.enclosures.pull_geometry import built
from boxaloud.assistant.dialogue.enclosures.pull_state import PullBoxSaid
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.state import State
from boxaloud.rules import (
    PullBox,
    PullSheet,
    Requirement,
    RulesError,
    counted_under,
    is_canadian,
    work_out_pull_box,
)
from boxaloud.rules.contents import Marked, Measured
from boxaloud.rules.pull_limits import (
    Compared,
    Inside,
    PullRemark,
    beside,
    compared,
    distance_held,
    every_side_known,
    pull_remarks,
)
from boxaloud.rules.worksheet import Verdict


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

    assumed: frozenset[str] = frozenset()
    """What of it was left at the worst case."""
    all_known: bool = False
    """True where nothing that must be so large was left unsaid of the box at hand."""

    @property
    def too_small(self) -> bool:
        """True where an inside dimension that was told is less than the least."""
        return not all(one.holds for one in self.compared)

    @property
    def verdict(self) -> Verdict:
        """`fits` where all of the box at hand is known and large enough, else `over` or open.

        How far raceways must be apart is a matter of where they enter: where that was not told,
        it is told beside the verdict and opens none.
        """
        smaller = self.said is not None and self.said.listed
        if smaller and self.too_small:
            return "incomplete"  # 314.28(A)(3): permitted where its maker marked it for them
        if self.too_small or any(one.holds is False for one in self.remarks):
            return "over"
        settled = self.all_known and not any(
            one.rule == "pull-blocks" and one.holds is None for one in self.remarks
        )
        return "fits" if settled else "incomplete"


def standing(state: State) -> PullStanding:
    """Where the pull box of a state stands; no sheet while anything is open."""
    if state.pulls is None or pull_open.missing(state) or state.unread or state.pending:
        return PullStanding(None)
    if is_canadian(state.edition):
        code = counted_under(state.edition).partition(", ")[2]
        return PullStanding(None, refusal=say("pull.no_code", code=code), said=state.pulls)
    marked = [part.volume for part in state.box if isinstance(part, Marked)]
    return _worked_out(_sided(state.pulls, state), state.assumed, marked[0] if marked else None)


def _sided(said: PullBoxSaid, state: State) -> PullBoxSaid:
    """What was said with the sides of the box that was told before any pull of it."""
    measured = [part for part in state.box if isinstance(part, Measured)]
    if len(measured) != 1 or any(side is not None for side in said.inside):
        return said
    (one,) = measured
    return replace(said, inside=(one.width, one.height, one.depth))


def side_open(state: State) -> bool:
    """Whether a verdict waits for a side of the box: one was told of it, or a volume counts too."""
    if state.pulls is None or "pull_inside" in state.put_off:
        return False
    found = standing(state)
    begun = bool(state.items) or any(side is not None for side in state.pulls.inside)
    return begun and found.sheet is not None and not found.all_known and not found.too_small


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
    named = said.with_back or any(pull_open.walls_of(one) for one in said.pulls)
    turns = not (said.sided and named)
    found = [*compared(sheet, inside, beside(box), turns)]
    known = every_side_known(sheet, inside, beside(box), turns)
    if said.apart is not None:
        one = distance_held(sheet, Fraction(said.apart))
        found += [one] if one is not None else []
        known = known and (one is not None or not _apart_lines(sheet))
    return PullStanding(
        sheet, remarks, tuple(found), box=box, said=said, assumed=assumed, all_known=known
    )


def _apart_lines(sheet: PullSheet) -> list[Requirement]:
    """The distances between raceways that are required."""
    return [one for one in real_lines(sheet) if one.axis is None and not one.disputed]


def real_lines(sheet: PullSheet) -> list[Requirement]:
    """The lines to be told: no distance of a raceway from itself, each apart once."""
    return [one for one in sheet.requirements if not _of_itself(one)]


def _of_itself(line: Requirement) -> bool:
    one, _, other = line.what.removeprefix("between ").partition(" and ")
    return line.axis is None and one == other
