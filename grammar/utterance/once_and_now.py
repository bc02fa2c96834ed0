"""What was there once and what is there now: "used to be three cables in here, I count two now"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.building.told_acts import tell
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern

_ONCE = lazy_pattern(r"(?:(?:there|and|so|this|it|we|i) )*used to (?:be|have) <cable:\d+:>[^<]*")
_NOW = lazy_pattern(
    r"(?:(?:and|but|so|now|i|we|count|see|have|only|there|is|are|it) )*<n:(\d+)>(?: now| left)*"
)


def no_longer(parts: list[Clause], place: int, heard: str) -> tuple[int, list[Act]] | None:
    """ "Used to be three cables in here, I count two now": as many as there are now."""
    if place + 1 >= len(parts) or not _ONCE.fullmatch(parts[place].line):
        return None
    now = _NOW.fullmatch(parts[place + 1].line)
    if now is None or "now" not in parts[place + 1].line.split(" "):
        return None
    return place + 2, [
        replace(act, count=int(now.group(1))) if isinstance(act, acts.AddCable) else act
        for act in tell(Telling(parts[place], heard))
    ]
