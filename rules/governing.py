"""Which rule governs what in a box with both small and large conductors."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from boxaloud.rules.data import RuleNote, note, table
from boxaloud.rules.errors import RulesError
from boxaloud.rules.sizes import volumes


@dataclass(frozen=True, slots=True)
class Governs:
    """The section that governs some of the conductors of a box."""

    section: str
    sizes: tuple[str, ...]
    says: str
    note: RuleNote


def governing(sizes: Iterable[int | str]) -> tuple[Governs, ...]:
    """The sections for conductors of these sizes: 314.16 by volume, 314.28 by dimensions.

    Sizes are AWG numbers, or `1/0` and kcmil as text. A box with both kinds gets both, each
    with the sizes it governs. Raises RulesError for a size that neither holds.
    """
    small = {str(awg) for awg in volumes()}
    large = table("pull")["bending"]["inches"]
    kinds: dict[str, list[str]] = {"governs-small": [], "governs-large": []}
    for size in dict.fromkeys(str(size) for size in sizes):
        if size not in small and size not in large:
            raise RulesError(f"{size} is no size of conductor held: say an AWG or kcmil size.")
        kinds["governs-small" if size in small else "governs-large"].append(size)
    rows = table("pull")["rule"]
    return tuple(
        Governs(rows[key]["section"], tuple(found), rows[key]["says"], note(key, rows[key]))
        for key, found in kinds.items()
        if found
    )
