"""Whips, flexes and cords of which nobody said what is in them: "and a whip to the light". Each
conductor of them that ends in the box counts, 314.16(B)(1), so that no verdict stands over one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.masked_words import masked

_LED = (
    r"(?:^|[,;.:]\s*|[CDWX]\s+|\b(?:and|with|plus|then|has|have|got)\s+)"
    r"(?:(?:and|with|plus|also)\s+)*"
)
_SHEATH = lazy_pattern(
    rf"{_LED}(?P<new>(?:an?|one|another|two|three|four|[1-4])\s+"
    r"(?:(?!(?:extension|drop|power|no|and|or|to|for|in|is)\b)[a-z][a-z-]*\s+){0,2}?"
    r"(?:whips?|flex(?:es)?|cords?|jumpers?(?=\s+(?:out|over|to\s+(?:the\s+next|another|the\s+other))\b)))"
    r"(?=\s*(?:[,;.!]|$)|\s+(?:to|for|from|in|out|off|down|up|going|coming|goes|comes|leaving"
    r"|leaves|feeding|and|on)\b)"
    r"|\b(?P<full>(?:pipe|conduit|emt|raceway|flex)s?\s+(?:with|full\s+of|carrying)\s+"
    r"(?:(?:some|a\s+few|a\s+bunch\s+of|several|the)\s+)?(?:wires?|conductors?))\b"
)
_END = lazy_pattern(r"[.;!?]")
_SILENT = (acts.OtherTalk, acts.Social, acts.Yes, acts.No, acts.AskUnknown)
_WIRES = (acts.AddCable, acts.AddConductors, acts.AddFixtureWires)


def sheaths_untold(made: Sequence[Act], heard: str, left: Sequence[Unread]) -> Iterator[Unread]:
    """Those told beside other things of the box, whose wires are told nowhere behind them."""
    if heard.rstrip().endswith("?") or all(isinstance(act, _SILENT) for act in made):
        return
    for found in _SHEATH.finditer(masked(made, heard)):
        span = found.span("new" if found["new"] else "full")
        stop = _END.search(heard, span[1])
        end = stop.start() if stop is not None else len(heard)
        if any(run.span[0] < span[1] and span[0] < run.span[1] for run in left):
            continue
        if not any(isinstance(act, _WIRES) and span[1] <= act.span[0] < end for act in made):
            yield Unread(heard[slice(*span)], span, True)
