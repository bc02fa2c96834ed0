"""What each of several circuits brings: "three circuits, each with a 12-2 in and a 12-2 out"."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_SEVERAL = lazy_pattern(
    r"(?i)\b(?:two|three|four|five|six|seven|eight|[2-8]|both)\b(?: \w+)? (?:circuits|lines|feeds"
    r"|legs|branches|sides|sets|lights|rooms|units)\b[^.;]{0,25}\beach\b"
)


def each_circuit(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """How often what each one brings comes in is not guessed: it is left unread, and asked."""
    several = _SEVERAL.search(heard)
    if several is None:
        return made
    span = several.span()
    told = [act for act in made if isinstance(act, (acts.AddCable, acts.AddConductors))]
    behind = any(act.span[0] >= span[1] for act in told)
    within = any(act.span[0] < span[1] and act.span[1] > span[0] for act in told)
    if behind and not within and not any(run.span[0] < span[1] for run in left):
        left.append(Unread(heard[slice(*span)], span, True))
    return made
