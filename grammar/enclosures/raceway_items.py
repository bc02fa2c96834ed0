"""The raceways of a pull box on their way to acts, and the order in which all is told."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Doubt


@dataclass(slots=True)
class RacewayItem:
    """Raceways on their way: the walls and rows said of them so far."""

    act: acts.AddRaceways
    group: int
    several: bool = False
    """True where nobody said how many."""


def in_order(
    kinds: Sequence[acts.DescribePull | None], items: Sequence[RacewayItem], made: Sequence[Act]
) -> list[Act]:
    """All acts, each group of raceways behind the pull that it belongs to.

    Args:
        kinds: the pull of each group, None where its kind was not said.
        items: the raceways, each with the number of its group.
        made: what is said besides; details of the box come last.
    """
    told: list[Act] = []
    for group, kind in enumerate(kinds):
        if kind is not None:
            told.append(kind)
        counts = kind is None or kind.kind != "straight"  # the largest one alone decides there
        told += [
            replace(item.act, doubts=(Doubt("count", "vague"),))
            if item.several and counts
            else item.act
            for item in items
            if item.group == group
        ]
    details = [act for act in made if isinstance(act, (acts.SetPull, acts.PointRaceways))]
    others = [act for act in made if act not in details]
    first = min((act.span[0] for act in told), default=0)
    before = [act for act in others if act.span[0] < first]
    return [*before, *told, *details, *(act for act in others if act not in before)]
