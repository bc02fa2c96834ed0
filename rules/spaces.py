"""A box that barriers divide into spaces: each space is worked out by itself, 314.16(A)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import ROUND_FLOOR, Decimal
from fractions import Fraction

from boxaloud.rules.contents import Barrier, Box, Clamps, Content
from boxaloud.rules.editions import rule_set
from boxaloud.rules.errors import RulesError
from boxaloud.rules.lines import tidy
from boxaloud.rules.work import work_out, worksheet
from boxaloud.rules.worksheet import VolumeLine, Worksheet

_STEP = Decimal("0.0001")


@dataclass(frozen=True, slots=True)
class Space:
    """One side of a barrier. `share` is its part of the volume, equal parts where None."""

    contents: tuple[Content, ...]
    clamps: Clamps = "unknown"
    share: Fraction | None = None
    grounds_known: bool = True


def work_out_spaces(box: Box, spaces: Sequence[Space]) -> tuple[Worksheet, ...]:
    """One worksheet for each space of `box`, whose own contents are not looked at.

    The capacity, barriers taken off, is shared out as said, rounded down to 0.0001 cubic inch
    where a share does not end. Raises RulesError unless the box has one barrier fewer than
    there are spaces and unless the shares add up to one, and under an edition before 2017,
    which has no rule for barriers.
    """
    if "space_share" not in rule_set(box.edition).rules:
        raise RulesError(
            f"The {box.edition} edition says nothing of barriers, so its spaces cannot be worked "
            "out: say 2017 or later."
        )
    barriers = sum(isinstance(part, Barrier) for part in box.parts)
    if len(spaces) != barriers + 1:
        raise RulesError(
            f"{barriers} barriers make {barriers + 1} spaces, and {len(spaces)} were described: "
            "say what is in each space."
        )
    shares = [space.share or Fraction(1, len(spaces)) for space in spaces]
    if sum(shares) != 1 or any(share <= 0 for share in shares):
        raise RulesError("The shares of the spaces must add up to the whole box.")
    return tuple(_space(box, *pair) for pair in zip(spaces, shares, strict=True))


def _space(box: Box, space: Space, share: Fraction) -> Worksheet:
    filled = replace(
        box, contents=space.contents, clamps=space.clamps, grounds_known=space.grounds_known
    )
    whole = work_out(filled)
    if whole.capacity is None:
        return whole
    rule = rule_set(box.edition).rules["space_share"]
    exact = Fraction(whole.capacity) * share
    volume = (Decimal(exact.numerator) / Decimal(exact.denominator)).quantize(_STEP, ROUND_FLOOR)
    volume = tidy(volume)
    taken = VolumeLine(
        f"the other spaces' share, {1 - share} of the box",
        tidy(volume - whole.capacity),
        rule.section,
        rule.id,
    )
    return worksheet(filled, (taken,))
