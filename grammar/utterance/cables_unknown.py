"""A cable whose size nobody knows: "and an old cable I haven't identified"."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern

_NOT = r"(?:(?:haven|can|couldn|don|didn|wasn)['’]?t|have not|cannot|can not|do not|never)"
_UNKNOWN = lazy_pattern(
    r"(?i)\b(?:an?|some|another|one)(?: (?!(?:and|or|with|plus)\b)[a-z0-9-]+){0,3}?"
    r" (?:cable|wire|run)s?\b"
    # where it leads, which tells nothing of its size
    r"(?: (?:(?:going|goes|that goes|heading|running|leading) )?(?:out|off|up|down|over|away|to"
    r"|into|toward|from|for)(?! \d)(?: (?!(?:and|or|with|plus|that|which)\b)[a-z']+){0,4}?)?,?"
    rf"(?: (?:that|which|and))?(?: (?:i|we|he|she|nobody)(?: (?:still|just|really))* (?:{_NOT} )"
    r"(?:[a-z]+ ){0,2}?(?:identif(?:y|ied)|recogni[sz]ed?|know|tell|traced?|placed?|figured? out"
    r"|checked)\b(?: (?:the|what|its|which)(?: [a-z]+){1,3})?"
    rf"|(?: (?:i|we|he|she|nobody))? {_NOT} (?:[a-z]+ ){{0,2}}?(?:see|read|check|look|make out|tell"
    r"|say|know|catch)(?:ed)?(?: (?:at|on|for))? (?:(?:what|which|the|its|how)(?: [a-z]+){0,2}? )"
    r"?(?:size|gauge|jacket|print|printing|marking|stamp|label|big|thick|heavy)\b"
    r"|(?: (?:of|in))? (?:an? )?unknown (?:size|gauge)|(?: (?:i['’]?m|i am))? (?:not sure|no idea"
    r"|dunno|no clue) (?:of )?(?:what|which|the|how)(?: [a-z]+){1,3})"
)


def cables_unknown(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """It counts by its size, which is to be told: nothing is made of it, and it weighs,
    314.16(B)(1)."""
    spans = [found.span() for found in _UNKNOWN.finditer(heard)]
    kept = [act for act in made if not (_unsized(act) and _within(act.span, spans))]
    for start, end in spans:
        if not any(is_thing(act) and _within(act.span, [(start, end)]) for act in kept):
            left[:] = [run for run in left if not _within(run.span, [(start, end)])]
            left.append(Unread(heard[start:end], (start, end), True))
    return kept


def _unsized(act: Act) -> bool:
    """Whether an act tells of wires without their size, or of no thing: of not knowing."""
    wires = isinstance(act, (acts.AddCable, acts.AddConductors)) and act.awg is None
    return wires or not is_thing(act)


def _within(span: tuple[int, int], spans: list[tuple[int, int]]) -> bool:
    return any(start <= span[0] and span[1] <= end for start, end in spans)
