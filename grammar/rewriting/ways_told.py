"""Cables that are counted, and then told one by one by what they do: "two 14-2s, the feed and the
one going on". The list says what the two are, and is no further cable."""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import spoken_value

_JOINED = lazy_pattern(
    r"(?i)\s*(?:,\s*(?:and|plus|then|&)?|\b(?:and|plus|then)\b|&)\s*|\s+(?=(?:your|the|one) )"
)
_ENDS = r"(?=\s*(?:[,.;:!?]|\band\b|\bplus\b|\bthen\b|&|$)| (?:your|the|one) )"
_WHOSE = r"(?:(?:the|your|my|a|an|one|its|our|his|her|that) )?"
_DOES = (
    r"(?:feed|feeder|line(?: side)?|load(?: side)?|switch ?legs?|legs?|switch ?loop|loop|home ?run"
    r"|supply|power(?: in)?|hot feed|dead end|(?:old|new|other) one)"
    r"(?: (?:to|from|for|in|out|on|up|down) (?:the )?[a-z]+)?"
)
_GOES = (
    r"(?:(?:the|a|an) )?(?:one|other|other one|another|another one) (?:that )?(?:going|goes|coming"
    r"|comes|running|runs|heading|heads|headed|feeding|feeds|leaving|on|up|down|out|in|over|to"
    r"|from|for)(?: (?!and\b|plus\b|then\b)[a-z]+){0,5}?"
)
#: What is read by itself beside so many cables: "feed and load".
_PLAIN = lazy_pattern(
    r"(?i)(?:the |a )?(?:feed|line|load|switch legs?|switch loop|home ?run|supply|power)"
)
_GOES_TO = (
    r"(?:up |down |out |over |on )?(?:to|from|for|toward) (?:the |my |your )?[a-z]+(?: [a-z]+)?"
)
#: An item that says what a cable does, or where it goes.
_ROLE = lazy_pattern(rf"(?i)(?:{_WHOSE}{_DOES}|{_GOES}|{_GOES_TO}){_ENDS}")
#: "Your porch and your hall light", beside one that says it plainly; a device is in the box.
_PLACE = lazy_pattern(
    r"(?i)(?:your|my|the|one|a|an)? ?(?!(?:no|not|and|with|all|each|both|plus|also"
    r"|then|sorry|wait|actually|please|oops|so|but)\b)"
    r"(?P<what>[a-z]+"
    rf"(?: [a-z]+){{0,2}}?){_ENDS}"
)
_SEVERAL = lazy_pattern(
    rf"(?i)(?P<n>two|three|four|five|[2-5]) (?P<what>[a-z]+(?: [a-z]+){{0,2}}?){_ENDS}"
)
#: What is counted by itself, and no place that a cable goes to.
_COUNTS = lazy_pattern(
    r"(?i)\b(?:switch(?:es)?(?! ?(?:legs?|loop))|dimmers?|receptacles?|recepts?|outlets?|plugs?"
    r"|duplex(?:es)?|gfcis?|gfis?|timers?|sensors?|devices?|clamps?|grounds?|studs?|hickeys?"
    r"|greens?|bare|wires?|cables?|conductors?|connectors?|splices?|spliced|box|gang|cubic|inch"
    r"|inches|deep|single|pole|way|yokes?|straps?|blank|cover|canopy|fixture|square|octagon"
    r"|number|gauge|thhn|more|extra|unbroken|through|straight|uncut)\b"
)


def ways_told(found: re.Match[str], expect: str | None) -> str | None:
    """The counted cables and what stands behind the list of them; None where as many as were
    counted are not told, or none is told by what it does."""
    rest = found["rest"]
    left = spoken_value(found["n"])
    place, roles = 0, 0
    if _JOINED.match(rest):
        return None  # "two 14-2s, plus one for the fan"
    while left > 0:
        if place:
            joined = _JOINED.match(rest, place)
            if joined is None or joined.end() == place:
                return None
            place = joined.end()
        took = _item(rest, place)
        if took is None:
            return None
        place, many, role = took
        left, roles = left - many, roles + role
    if all(map(_PLAIN.fullmatch, filter(None, _JOINED.split(rest[:place].strip())))):
        return None
    further = _JOINED.match(rest, place)
    if left < 0 or not roles or (further and _ROLE.match(rest, further.end())):
        return None
    lost = len(found[0]) - len(found["kept"]) - len(rest) + place
    return f"{found['kept']}{' ' * lost}{rest[place:]}"


def _item(rest: str, place: int) -> tuple[int, int, int] | None:
    """Where an item of the list ends, how many cables it is and whether it says what one does."""
    if role := _ROLE.match(rest, place):
        return (role.end(), 1, 1) if not _COUNTS.search(role[0]) else None
    if several := _SEVERAL.match(rest, place):
        counts = _COUNTS.search(several["what"])
        return None if counts else (several.end(), int(spoken_value(several["n"])), 0)
    named = _PLACE.match(rest, place)
    if named is None or _COUNTS.search(named["what"]):
        return None
    return named.end(), 1, 0


def ways_told_first(found: re.Match[str], expect: str | None) -> str | None:
    """ "Feed, light and one going on, that's three 14-2s": the three, where so many were told."""
    items = [one for one in _JOINED.split(found["list"].strip(" ,")) if one.strip()]
    if len(items) != spoken_value(found["n"]) or any(map(_COUNTS.search, items)):
        return None
    roles = [one for one in items if _ROLE.fullmatch(one.strip())]
    return f"{found['n']} {found['cable']}" if roles else None


__all__ = ["ways_told", "ways_told_first"]
