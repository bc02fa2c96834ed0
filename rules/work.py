"""Box fill worked out: 314.16(A) capacity, 314.16(B) fill, and what is still open."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boxaloud.rules.bounds import choices, in_order, open_slots
from boxaloud.rules.capacity import capacity, must_be_marked, volume_lines
from boxaloud.rules.contents import BondingJumper, Box, Content
from boxaloud.rules.editions import RuleSet, is_canadian, rule_set
from boxaloud.rules.lines import ZERO, lines, tidy
from boxaloud.rules.tally import Tally, count_up
from boxaloud.rules.worksheet import Line, OpenSlot, VolumeLine, Worksheet, verdict_of


def work_out(box: Box) -> Worksheet:
    """The worksheet of a box, from what is known of it. Volumes are cubic inches, exact.

    `total` counts what was described; `low` and `high` are the least and the greatest total
    that the open answers allow. The verdict is `over` where even `low` exceeds the capacity,
    `fits` where `high` does not (a margin of exactly zero fits), otherwise `incomplete`; and
    `incomplete` while the volume is unknown or no conductor was named at all.

    Raises RulesError, in one plain sentence, for anything that cannot be (see
    `rules.validate`), and NoSuchEdition for an edition not held. Section 314.16(A) and (B).
    """
    if is_canadian(box.edition):
        # another code with a unit of its own, which few sessions ask for
        from boxaloud.rules.canada import canadian_worksheet

        return canadian_worksheet(box)
    return worksheet(box)


def worksheet(box: Box, also: tuple[VolumeLine, ...] = ()) -> Worksheet:
    """As `work_out`, with further volume lines `also` in the capacity once it is known."""
    if any(map(_unsaid, box.contents)):
        return _with_jumpers_open(box, also)
    rules = rule_set(box.edition)
    tally = _tallied(rules, box)
    made = lines(rules, tally, box.clamps)
    total = _sum(made)
    volumes = volume_lines(rules, box.parts) + also
    room = None if must_be_marked(box) else capacity(box.parts, volumes)
    low = high = total
    still_open: tuple[OpenSlot, ...] = ()
    found = choices(rules, tally, box)
    if found or room is None:
        low = sum((choice.volumes[0] for choice in found), total)
        high = sum((choice.volumes[-1] for choice in found), total)
        still_open = open_slots(found, total, room)
    told = not still_open or still_open[0].slot != "contents"
    return Worksheet(
        edition=box.edition,
        lines=made,
        volumes=volumes,
        total=total,
        capacity=room,
        margin=None if room is None else room - total,
        verdict=verdict_of(low, high, room, told),
        low=low,
        high=high,
        open=still_open,
    )


def _unsaid(content: Content) -> bool:
    """True for a bonding jumper of which nobody said whether it enters the box."""
    return isinstance(content, BondingJumper) and content.enters is None


def _with_jumpers_open(box: Box, also: tuple[VolumeLine, ...]) -> Worksheet:
    """The box with such jumpers counted, and what is open with them staying inside in its bounds.

    What they add hangs on all other grounds and on the largest conductor, so that both boxes are
    worked out whole.
    """
    most, least = (
        worksheet(
            replace(
                box,
                contents=tuple(
                    replace(one, enters=enters)
                    if isinstance(one, BondingJumper) and one.enters is None
                    else one
                    for one in box.contents
                ),
            ),
            also,
        )
        for enters in (True, False)
    )
    low, high = min(least.low, most.low), max(least.high, most.high)
    adds, room = most.total - least.total, most.capacity
    told = not any(slot.slot == "contents" for slot in most.open)
    asked = in_order(_deciding(most, least))
    if adds or most.high > least.high:  # it may take no more room than is counted already
        decides = room is None or low <= room < high
        place = next(i for i, one in enumerate(box.contents) if _unsaid(one))
        rule = rule_set(box.edition).rules["grounds"].id
        slot = OpenSlot("jumper", ZERO, adds, decides, "", place, rule)
        asked = in_order((*asked, slot))
    verdict = verdict_of(low, high, room, told)
    return replace(most, verdict=verdict, low=low, high=high, open=asked)


def _deciding(most: Worksheet, least: Worksheet) -> tuple[OpenSlot, ...]:
    """The open slots of two worksheets of one box, deciding where they decide in either."""
    known = {(one.slot, one.index): one.decides for one in least.open}
    return tuple(
        replace(one, decides=one.decides or known.get((one.slot, one.index), False))
        for one in most.open
    )


def _tallied(rules: RuleSet, box: Box) -> Tally:
    """What is in the box counted up by kind, under one edition."""
    canopy = rules.rules["canopy_wires"]
    return count_up(box.contents, canopy.most, canopy.smaller_than_awg)


def _sum(made: tuple[Line, ...]) -> Decimal:
    total = ZERO
    for line in made:
        total += line.subtotal
    return tidy(total)
