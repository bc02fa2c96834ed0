"""Cables in a pull box: the raceway that each counts as, 314.28(A), and what of it is open."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING

from boxaloud.assistant.dialogue.enclosures.pull_state import Entering, PullBoxSaid
from boxaloud.assistant.dialogue.question_slots import PullSlot
from boxaloud.rules import RulesError

if TYPE_CHECKING:
    from boxaloud.rules.cable_raceways import CableRaceway

WORST = "pull_insulation"
"""Assumed: the insulation by which the raceways are the largest."""


def raceway_of(one: Entering, said: PullBoxSaid, assumed: frozenset[str]) -> CableRaceway | None:
    """The raceway that a cable counts as; None where its conductors or their insulation are open,
    or where no table tells.
    """
    if not one.wires or one.size is not None:
        return None
    # few talks are of a cable in a pull box: the tables of raceways are read for those alone
    from boxaloud.rules.cable_raceways import Cable314, cable_raceway, worst_insulation

    cable = Cable314(one.wires, one.ground, one.insulation or said.insulation)
    try:
        if not cable.insulation and WORST in assumed:
            cable = replace(cable, insulation=worst_insulation(cable))
        return cable_raceway(cable)
    except RulesError:
        return None


def slot_of(one: Entering, said: PullBoxSaid, assumed: frozenset[str]) -> PullSlot | None:
    """What is to be asked of an entry whose trade size is open; None where it is not."""
    if one.size is not None or raceway_of(one, said, assumed) is not None:
        return None
    if one.wires and not (one.insulation or said.insulation) and _held(one):
        return "pull_insulation"
    return "pull_size"


def _held(one: Entering) -> bool:
    """Whether the tables hold a raceway for the conductors of a cable at all."""
    from boxaloud.rules.cable_raceways import Cable314, worst_insulation

    try:
        worst_insulation(Cable314(one.wires, one.ground))
    except RulesError:
        return False
    return True


def sized(said: PullBoxSaid, assumed: frozenset[str]) -> PullBoxSaid:
    """What was said with every cable by the raceway that it counts as, as far as that is known."""
    if not any(one.wires for one in said.entering):
        return said
    pulls = tuple(
        replace(pulled, entering=tuple(_sized(one, said, assumed) for one in pulled.entering))
        for pulled in said.pulls
    )
    return replace(said, pulls=pulls)


def _sized(one: Entering, said: PullBoxSaid, assumed: frozenset[str]) -> Entering:
    found = raceway_of(one, said, assumed)
    if found is None:
        return one
    return replace(one, size=Decimal(found.size.numerator) / Decimal(found.size.denominator))
