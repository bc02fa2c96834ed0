"""What is not known: how much each open answer could add, and whether it can decide."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from boxaloud.rules.contents import Box
from boxaloud.rules.data import Rule
from boxaloud.rules.editions import RuleSet
from boxaloud.rules.lines import ZERO, ground_allowances, tidy
from boxaloud.rules.tally import Tally, largest_present
from boxaloud.rules.worksheet import OpenSlot, Slot

_RANK: dict[Slot, int] = {
    "contents": 0,
    "box": 1,
    "clamps": 2,
    "grounds": 3,
    "jumper": 3,
    "device_size": 4,
    "block_size": 5,
    "connectors": 3,
    "device_depth": 4,
}
_TOO_MANY = 20_000
"""Sums of other answers looked through before every open slot is taken to decide."""


@dataclass(frozen=True, slots=True)
class Choice:
    """An open slot with every volume that an answer to it could add, least first."""

    slot: Slot
    volumes: tuple[Decimal, ...]
    rule: str = ""
    subject: str = ""
    index: int = -1


def choices(rules: RuleSet, tally: Tally, box: Box) -> list[Choice]:
    """The open slots of a box other than the box itself, in the order they would be asked."""
    found = []
    largest = largest_present(tally)
    if not (tally.wires or tally.grounds or tally.isolated or tally.fixture_wires):
        found.append(Choice("contents", (ZERO,)))
    sizes = _sizes(rules, tally) if tally.open_yokes or tally.open_blocks else []
    if box.clamps in ("unknown", "moulded"):
        rule = rules.rules["clamps" if box.clamps == "unknown" else "clamps_moulded"]
        most = rule.each * (ZERO if largest is None else rules.volumes[largest])
        found.append(Choice("clamps", (ZERO, tidy(most)), rule.id))
    if not box.grounds_known and largest is not None:
        found.append(_grounds(rules, tally, largest))
    for index, yoke in tally.open_yokes:
        rule = rules.rules["yokes" if yoke.gangs == 1 else "yokes_wide"]
        times = rule.each * (yoke.gangs * yoke.count)
        found.append(_landed("device_size", rule, times, sizes, yoke.name, index))
    rule = rules.rules["terminal_blocks"]
    if rule.each:
        for index, block in tally.open_blocks:
            times = rule.each * block.count
            found.append(_landed("block_size", rule, times, sizes, "terminal block", index))
    return found


def _sizes(rules: RuleSet, tally: Tally) -> list[Decimal]:
    """Volumes of the sizes that may land on a device, least first; the whole Table where no
    conductor is known yet."""
    sizes = tally.sizes or rules.volumes
    return sorted(rules.volumes[awg] for awg in sizes)


def _grounds(rules: RuleSet, tally: Tally, largest: int) -> Choice:
    """Nothing, or one ground as large as the largest conductor."""
    rule = rules.rules["grounds"]
    named = [tally.grounds]
    if rules.rules["isolated_grounds"].item == "grounds":
        named.append(tally.isolated)
    count = sum(sum(by_size.values()) for by_size in named)
    least = ZERO
    if count:
        biggest = min(awg for by_size in named for awg in by_size)
        least = ground_allowances(rule, count) * rules.volumes[biggest]
    each = rules.volumes[largest]
    most = ground_allowances(rule, count + 1) * each - least
    return Choice("grounds", (ZERO, tidy(most)), rule.id)


def _landed(
    slot: Slot, rule: Rule, times: Decimal, sizes: list[Decimal], subject: str, index: int
) -> Choice:
    volumes = tuple(tidy(times * volume) for volume in sizes)
    return Choice(slot, volumes, rule.id, subject, index)


def decisive(found: list[Choice], room: Decimal) -> list[bool]:
    """For each open slot, whether its answer can turn the verdict.

    `room` is the capacity less what is known, cubic inches. A slot decides where some answers
    to the others leave room for its least volume and none for its most.
    """
    flags = []
    for place, choice in enumerate(found):
        others = _sums(found[:place] + found[place + 1 :])
        least, most = choice.volumes[0], choice.volumes[-1]
        flags.append(
            most > least
            and (others is None or any(least <= room - other < most for other in others))
        )
    return flags


def _sums(found: list[Choice]) -> set[Decimal] | None:
    sums = {ZERO}
    for choice in found:
        sums = {known + volume for known in sums for volume in set(choice.volumes)}
        if len(sums) > _TOO_MANY:
            return None
    return sums


def open_slots(
    found: list[Choice], total: Decimal, capacity: Decimal | None
) -> tuple[OpenSlot, ...]:
    """The open slots in the order to ask: what can decide first, then what moves the total.

    `contents` comes before everything and `box` next: nothing can be said without them.
    """
    if capacity is None:
        flags = [choice.volumes[-1] > choice.volumes[0] for choice in found]
        found = [*found, Choice("box", (ZERO,))]
        flags.append(True)
    elif total + sum(choice.volumes[0] for choice in found) > capacity:
        flags = [False] * len(found)
    elif total + sum(choice.volumes[-1] for choice in found) <= capacity:
        flags = [choice.slot == "contents" for choice in found]
    else:
        flags = decisive(found, capacity - total)
    slots = [
        OpenSlot(
            choice.slot,
            choice.volumes[0],
            choice.volumes[-1],
            flag or choice.slot == "contents",
            choice.subject,
            choice.index,
            choice.rule,
        )
        for choice, flag in zip(found, flags, strict=True)
    ]
    return in_order(tuple(slots))


def in_order(slots: tuple[OpenSlot, ...]) -> tuple[OpenSlot, ...]:
    """Open slots in the order to ask."""
    return tuple(sorted(slots, key=_asked))


def _asked(slot: OpenSlot) -> tuple[int, bool, Decimal, int, int]:
    first = _RANK[slot.slot] if slot.slot in ("contents", "box") else 2
    return first, not slot.decides, slot.least - slot.most, _RANK[slot.slot], slot.index
