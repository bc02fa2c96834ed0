"""Conductors named by a count and a size alone: "four 12, one green 12, duplex"."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.building.pattern_groups import number_of, words_of
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.patterns.patterns import Match

_SIZE = r"(?:number |no\.? ?|# ?)?(?:14|12|10|8|6|fourteen|twelve|ten|eight|six)"
#: A raceway, or a ground that is said by itself: what comes in are single conductors.
_SINGLE = lazy_pattern(
    r"\b(?:pipe|conduit|emt|raceway|thhn|thwn|xhhw|insulated|stranded|green|egc)\b"
    rf"|\b(?:ground|bare)(?: wire)? {_SIZE}\b|{_SIZE} (?:bare |copper )?ground\b"
)
#: Beside a cable "two 12" may be two cables.
_CABLES = lazy_pattern(
    r"(?<![\d/-])(?:14|12|10|8|6)[-/ ][2-5](?![\d/-])|\b(?:cables?|mc|nm|bx|uf)\b"
    r"|\b(?:fourteen|twelve|ten|eight|six)[- ](?:two|three|four|twos|threes)\b"
)


def build_loose_wires(match: Match, telling: Telling) -> list[Act] | None:
    """So many conductors of a size, where what is said beside them shows that they are no cables;
    else the numbers are left unread, and asked about."""
    low = telling.heard.lower()
    if telling.corrects or _SINGLE.search(low) is None or _CABLES.search(low) is not None:
        return None
    count, size = number_of(match), number_of(match, "size")
    if count is None or size is None:
        return None
    words, span = words_of(match, telling)
    return [acts.AddConductors(count=int(count), awg=int(size), words=words, span=span)]
