"""A conduit body with conductors of 4 AWG and larger: its dimensions, 314.28(A), or its marking."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from boxaloud.assistant.dialogue.enclosures.body_state import BodySaid
from boxaloud.assistant.dialogue.enclosures.pull_standing import PullStanding
from boxaloud.rules import RulesError, work_out_pull_box
from boxaloud.rules.large_bodies import large_body, largest_of, marking_holds
from boxaloud.rules.pull_limits import Inside, compared, every_side_known


def inside_open(said: BodySaid) -> bool:
    """Whether its dimensions are to be asked for: no marking permits what is in it, and of a side
    that is needed nothing was said."""
    if not said.large or marked(said):
        return False
    found = dimensions(said)
    return found is not None and found.verdict == "incomplete" and not found.refusal


def marked(said: BodySaid) -> bool:
    """Whether its maker's marking permits what is in it, 314.28(A)(3)."""
    if said.permits:
        try:
            return marking_holds(said.permits, said.large)
        except RulesError:
            return False
    return said.listed


@lru_cache(maxsize=8)
def dimensions(said: BodySaid) -> PullStanding | None:
    """Where it stands by its dimensions; None while its shape or the raceway on it is open."""
    if not said.large or said.size is None or not said.shape:
        return None
    try:
        box = large_body(said.shape, Fraction(said.size), largest_of(said.large))
        sheet = work_out_pull_box(box)
    except RulesError as refusal:
        return PullStanding(None, refusal=str(refusal))
    inside: Inside = (_exact(said.length), _exact(said.width), _exact(said.depth))
    known = every_side_known(sheet, inside) and (sheet.height is None or inside[1] is not None)
    needed: Inside = (
        inside[0],
        inside[1] if sheet.height is not None else None,
        inside[2],
    )
    return PullStanding(sheet, (), compared(sheet, needed), box=box, all_known=known)


def _exact(side: Decimal | None) -> Fraction | None:
    return None if side is None else Fraction(side)
