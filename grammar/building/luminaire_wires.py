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
    r"|\b(?:fixture|light|luminaire|lamp|sconce|pendant)s? (?:itself )?(?:has|have|had|got|gets"
    r"|comes? with|came with|with|does not have|do not have)(?: got)? (?:any |a |its |own )*"
    r"<grounds:"
)
CANOPY_DENIED = lazy_pattern(
    r"\b(?:no|not|none|never|without|w/o|wo|sans|minus|lacks?|lacking|nothing|neither"
    r"|(?:is|are|was|were|do|does|did|has|have|had|ca|wo|ai)n['’]?t)\b"
    r"(?: (?!(?:more|less|over|grounds?|egc|bare|wires?|conductors?|count\w*"
    r"|clamps?|need|have to|only|just|fixture|<(?!device)\w*)\b)[^ ,.;:!?]+){0,4}?"
    r" (?:domed? )?(?:canop(?:y|ies)|dome)\b"
    r"|\bcanop(?:y|ies) (?:is |was )?(?:missing|absent|none)\b|\bcanopyless\b"
)
"""Wires that do not come from a canopy: they count, 314.16(B)(1) leaves out only those that do."""
_FIXTURE_GROUND_SIZES = (14, 16, 18)


def fixture_wires(made: list[Act], telling: Telling) -> list[Act]:
    """ "four wires from the canopy" are fixture wires; a ground said with them is theirs."""
    if not made:
        return made
    line = telling.clause.line
    canopy = "canopy" in line and CANOPY_DENIED.search(line) is None
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
        elif isinstance(act, acts.AddFixtureWires):
            if canopy and act.canopy is None:
                act = replace(act, canopy=True)
            if act.grounds in _FIXTURE_GROUND_SIZES:
                act = replace(act, grounds=1)  # "two 16 gauge fixture wires and 16 ground"
            made[place] = act
    return made
