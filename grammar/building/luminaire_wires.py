"""Wires of a luminaire among those of a clause."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.lazy_patterns import lazy_pattern

_FROM_FIXTURE = lazy_pattern(
    r"\b(?:from|off|of|out of|for) (?:the |a |its |their )?(?:<device[^>]*> )?(?:light|fixture"
    r"|luminaire|fan|lamp|chandelier|sconce|canopy|pendant)s?\b|\bcanopy\b"
)
_OF_THE_FIXTURE = lazy_pattern(
    r"<?grounds?[^ ]* (?:on|in|from|for|with|at) (?:the |its |that |this )?(?:fixture|light"
    r"|luminaire|lamp|fan|canopy)"
)


def fixture_wires(made: list[Act], telling: Telling) -> list[Act]:
    """ "four wires from the canopy" are fixture wires; a ground said with them is theirs."""
    if not made:
        return made
    line = telling.clause.line
    canopy = "canopy" in line and "no canopy" not in line
    if _OF_THE_FIXTURE.search(line):
        made = [
            act for act in made if not (isinstance(act, acts.Deny) and act.target.kind == "grounds")
        ]
    wires = any(isinstance(act, acts.AddConductors) for act in made)
    of_fixture = wires and _FROM_FIXTURE.search(line) is not None
    for place, act in enumerate(made):
        if (
            of_fixture
            and isinstance(act, acts.AddConductors)
            and (act.awg is None or act.awg >= 16)
            and act.path is None
        ):
            made[place] = acts.AddFixtureWires(
                count=act.count, awg=act.awg, canopy=True if canopy else None,
                words=act.words, span=act.span,
                doubts=tuple(d for d in act.doubts if d.reason not in ("vague", "unusual")),
            )  # fmt: skip
        elif (
            canopy
            and isinstance(act, acts.AddFixtureWires)
            and act.canopy is None
            and "no canopy" not in line
        ):
            made[place] = replace(act, canopy=True)
    return made
