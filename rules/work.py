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
    """The box with such jumpers left out of its lines, and what they could add in its bounds.

    What they add hangs on all other grounds and on the largest conductor, so that the box is
    worked out whole with them coming in, staying inside, and not there at all.
    """
    first = next(i for i, one in enumerate(box.contents) if _unsaid(one))
    least, most = (worksheet(_with_jumpers(box, enters), also) for enters in (False, True))
    shown = worksheet(replace(box, contents=tuple(c for c in box.contents if not _unsaid(c))), also)
    low, high = min(least.low, most.low), max(least.high, most.high)
    told = not any(slot.slot == "contents" for slot in most.open)
    asked = _either(most, least)
    if most.total > least.total or most.high > least.high:  # else it takes no room of its own
        decides = least.capacity is None or low <= least.capacity < high
        rule = rule_set(box.edition).rules["grounds"].id
        adds = most.total - least.total
        asked = (*asked, OpenSlot("jumper", ZERO, adds, decides, "", first, rule))
    verdict = verdict_of(low, high, least.capacity, told)
    return replace(shown, verdict=verdict, low=low, high=high, open=in_order(asked))


def _with_jumpers(box: Box, enters: bool) -> Box:
    """The box with every such jumper coming in, or with each staying inside."""
    settled = (
        replace(one, enters=enters)
        if isinstance(one, BondingJumper) and one.enters is None
        else one
        for one in box.contents
    )
    return replace(box, contents=tuple(settled))


def _either(most: Worksheet, least: Worksheet) -> tuple[OpenSlot, ...]:
    """The open slots of two worksheets of one box, deciding where they decide in either."""
    others = {(one.slot, one.index): one for one in least.open}
    both = [
        replace(one, decides=one.decides or others.get((one.slot, one.index), one).decides)
        for one in most.open
    ]
    known = {(one.slot, one.index) for one in both}
    alone = (o for key, o in others.items() if key not in known and o.slot != "contents")
    return (*both, *alone)


def _tallied(rules: RuleSet, box: Box) -> Tally:
    """What is in the box counted up by kind, under one edition."""
    canopy = rules.rules["canopy_wires"]
    return count_up(box.contents, canopy.most, canopy.smaller_than_awg)


def _sum(made: tuple[Line, ...]) -> Decimal:
    total = ZERO
    for line in made:
        total += line.subtotal
    return tidy(total)
